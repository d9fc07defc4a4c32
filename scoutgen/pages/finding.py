"""What a reader types to find a page, said in the sentences that search shows under its title."""

from collections.abc import Iterable, Sequence

from scoutgen.pages.book import SearchEntry
from scoutgen.pages.hitting import Hitting
from scoutgen.pages.infield import InfieldPage
from scoutgen.pages.opponent import OpponentPage
from scoutgen.pages.player import Pitching, PlayerPage
from scoutgen.pages.running import RunningPage
from scoutgen.pages.series import SeriesPage
from scoutgen.pages.times import Clock
from scoutgen.pages.usage import Situation
from scoutgen.pages.words import COUNT_WORDS, SHORT_HAND_WORDS

# Who pitches in the coming series comes before his namesakes, then its other men, then everybody else.
# Less than twice, since the search doubles what holds every word: "#27 slatefield" is Slatefield's, not tonight's.
PROBABLE, IN_SERIES, ANYBODY = 1.8, 1.4, 1.0
# The situations that a hitter types, as he types them.
_ASKED = (COUNT_WORDS["first pitch"], COUNT_WORDS["two strikes"])
_SIDES = {"L": "Lefties", "R": "Righties"}
READING_WORDS = "What the numbers and marks mean: percent and tally, interval, firm, usable, a lean, thin."
CAUTION_WORDS = (
    "The policy on phones, tablets and electronics in the dugout; slides and collisions, two fielders under one ball, "
    "arm care and pitch counts, signs and sign stealing, what may be scouted and filmed, confidentiality, recruiting "
    "contact and transfers."
)
METHOD_WORDS = (
    "The formulas, assumptions and sources behind the numbers: mix, pooled rates, clocks, chance to be safe, run "
    "values and chances to win, levels."
)
RISK_WORDS = (
    "What a steal is worth: break-even, gain and cost by lead, inning and outs; steal of second, steal of third; "
    "what a sacrifice costs and a bunt for a hit needs."
)
CHARTING_WORDS = (
    "Blank charting sheets to print for the bench, with the columns of the charting format and the words they allow."
)
NOT_KNOWN_WORDS = (
    "Not known yet: the charting to-do, what to chart next of their starter, catcher, infield, lineup and bullpen, how "
    "much is missing, for which decision, on which sheet."
)
CHANGED_WORDS = (
    "What changed since the last build, last night: new games, other calls and levels, numbers that moved, habits, "
    "notes, lineup, probable pitchers and bullpen."
)
LEVEL_WORDS = "Where to stand: infield and outfield level for each hitter of their lineup, why, and whose ball it is."
QUALITY_WORDS = "What was read, which rows were skipped or looked odd, and which warnings stand."


def player_entry(page: PlayerPage, *, nearness: float) -> SearchEntry:
    """A man is found by his number, name, hand, team, role, pitches, times and habits.

    Args:
        page: his page.
        nearness: PROBABLE, IN_SERIES or ANYBODY: how near to the coming series.
    """
    man = page.person.man
    hand = SHORT_HAND_WORDS.get(man.throws or "") if page.person.pitches else None
    said = [_listed([hand, page.who, f"of {page.team_name}"]), page.summary]
    if page.pitching:
        said += _pitcher(page.pitching)
    if page.hitting:
        said += _hitter(page.hitting)
    if page.catching and page.catching.pop_second:
        said.append(f"Pop to second {_time(page.catching.pop_second)}")
    if page.home_first:
        said.append(f"Home to first {_time(page.home_first)}")
    seen = [h for h in page.habits if h.claim.k and h.enough]
    said += [f"{h.kind.said.rstrip('?')}: {h.claim.k} of {h.claim.n} looks" for h in seen]
    doors = list(dict.fromkeys(door.door for door in page.doors))
    said.append(f"May open: {', '.join(doors)}" if doors else "")
    return SearchEntry(title=page.title, text=_sentences(said), boost=nearness, keys=_asked_of(page, hand))


def _asked_of(page: PlayerPage, hand: str | None) -> str:
    """What a reader types of a man beside his name: team, hand, role, pitches, what he is known for.

    Not the summary, which may name other men.
    """
    known = [page.team_name, hand, page.who]
    if page.pitching:
        known += page.pitching.sides[0].mix.pitches
    if page.catching:
        known.append("pop second third")
    known += [habit.kind.said for habit in page.habits if habit.recurs]
    return " ".join(word for word in known if word)


def _pitcher(pitching: Pitching) -> Iterable[str]:
    """What a hitter and a runner ask, each answered in a few words."""
    pitches = pitching.sides[0].mix.pitches
    if pitches:
        yield f"Throws {', '.join(pitches)}"
    for facing in pitching.sides:
        looked = [f"{row.label.lower()} {_likeliest(row)}" for row in facing.mix.glance if _answers(row)]
        if looked:
            yield f"{_SIDES[facing.mix.side]}: {', '.join(looked)}"
    clocks, holds = pitching.clocks, pitching.holds
    if clocks.stretch:
        yield f"To the plate {_time(clocks.stretch)} from the stretch"
    if clocks.slide_step:
        yield f"Slide step {_time(clocks.slide_step)}"
    elif holds.slide_step and not holds.slide_step.k:
        yield f"No slide step in {holds.slide_step.n} sets"
    if holds.second and holds.second.pattern:
        yield f"Looks to second: {holds.second.mode} most often"
    for move in holds.moves:
        if move.move == "balk":
            yield f"Balks: {move.claim.k or 'none'} in {move.claim.n} sets"


def _hitter(hits: Hitting) -> Iterable[str]:
    """What a pitcher and a fielder ask of a hitter; percents are not said without their tally."""
    for side in hits.sides:
        stands = f", {side.words}" if side.words else ""
        if side.first and side.first.n:
            yield f"First pitch: swings {side.first.k} of {side.first.n}{stands}"
        if side.ground:
            yield f"Spray, ground balls: pulls {side.ground.pull.k} of {side.ground.n}{stands}"
        if side.bunts and (side.bunts.claim.k or side.bunts.fouled):
            yield f"Bunts: {side.bunts.claim.k} in {side.bunts.claim.n} plate appearances{stands}"


def _answers(row: Situation) -> bool:
    """Asked, and known well enough to be said without its tally."""
    return row.label in _ASKED and row.best is not None and row.best.sure != "thin"


def _likeliest(row: Situation) -> str:
    """The pitch to look for, or the two that the data cannot tell apart."""
    two = (row.best, None if row.clear else row.second)
    return " or ".join(claim.what for claim in two if claim)


def opponent_entry(page: OpponentPage, *, nearness: float) -> SearchEntry:
    """A team is found by its name, park and what it likes to do."""
    said = [f"The team of {page.team.name}: staff, pitchers, catchers, infield, roster"]
    said.append(f"Plays at {page.park.name}" if page.park.name else "")
    about = [topic.about for topic in page.tendencies.topics]
    said.append(f"What they like to do: {', '.join(about)}" if about else "")
    return SearchEntry(title=page.title, text=_sentences(said), boost=nearness + 1.5)


def infield_entry(page: InfieldPage, *, nearness: float) -> SearchEntry:
    """An infield is found by its team, its positions and its habits."""
    where = (
        "how deep the corners, shortstop and second base play, how far off the bag first and third base hold a runner"
    )
    said = [f"The infield of {page.team_name}: {where}"]
    decisions = list(dict.fromkeys(habit.kind.decision for habit in page.habits))
    said.append(f"Their habits, for {', '.join(decisions)}" if decisions else "")
    return SearchEntry(title=page.title, text=_sentences(said), boost=nearness)


def series_entry(page: SeriesPage) -> SearchEntry:
    """A series is found by its opponent and its days."""
    said = [f"The series with {page.team.name}" if page.team else ""]
    if page.series:
        said[0] += f", from {page.series.start:%A} {page.series.start.day} {page.series.start:%B}"
    said.append("Tonight: probable pitchers, plan, lineup and bullpen")
    return SearchEntry(
        title=page.title,
        text=_sentences(said),
        boost=PROBABLE if page.home else ANYBODY,
        keys="tonight probable pitchers bullpen plan lineup" if page.home else "",
    )


def _time(clock: Clock) -> str:
    return f"{clock.median:.2f} s ({clock.n} {clock.method})"


def _listed(words: Sequence[str | None]) -> str:
    return ", ".join(word for word in words if word)


def _sentences(said: Iterable[str]) -> str:
    """What is said, each with its full stop."""
    whole = (text[:1].upper() + text[1:] for text in said if text)
    return " ".join(text if text.endswith((".", "?", "!")) else f"{text}." for text in whole)


def running_entry(page: RunningPage) -> SearchEntry:
    """The running game is found by our runners' names and by what they ask."""
    names = [f"{man.number} {man.name}" if man.number else man.name for man in page.runners]
    theirs = [battery.pitcher.person.man.name for battery in page.batteries]
    said = ["Who can go: steal of second, steal of third, home on the return throw", f"Against {', '.join(theirs)}"]
    said.append(f"Our runners: {', '.join(names)}" if names else "")
    keys = "steal of second steal of third steal of home steals runners"
    return SearchEntry(title=page.title, text=_sentences(said), boost=PROBABLE, keys=keys)
