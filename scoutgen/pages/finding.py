"""What a reader types to find a page: names with and without accents, numbers, hands, teams, pitches, habits."""

from scoutgen.pages.book import SearchEntry
from scoutgen.pages.infield import InfieldPage
from scoutgen.pages.opponent import OpponentPage
from scoutgen.pages.player import PlayerPage
from scoutgen.pages.series import SeriesPage

# Who pitches in the coming series comes before his namesakes, then its other men, then everybody else.
PROBABLE, IN_SERIES, ANYBODY = 3.0, 2.0, 1.0


def player_entry(page: PlayerPage, *, nearness: float) -> SearchEntry:
    """A man is found by his number, name, hand, team, role, pitches and habits; tables are not searched.

    Args:
        page: his page.
        nearness: PROBABLE, IN_SERIES or ANYBODY: how near to the coming series.
    """
    man = page.person.man
    words = [page.person.short_hand, page.person.hand, man.role or "", page.team_name, " ".join(man.positions)]
    if page.pitching:
        words += ["pitcher", *page.pitching.sides[0].mix.pitches]
    if page.catching:
        words.append("catcher")
    words += [door.door for door in page.doors]
    words.append(page.summary)
    return SearchEntry(title=page.title, text=" ".join(w for w in words if w), boost=nearness)


def opponent_entry(page: OpponentPage, *, nearness: float) -> SearchEntry:
    """A team is found by its name, park and what it likes to do."""
    words = ["team opponent staff pitchers catchers roster park", page.park.name or ""]
    words += [topic.about for topic in page.tendencies.topics]
    return SearchEntry(title=page.title, text=" ".join(words), boost=nearness + 1)


def infield_entry(page: InfieldPage, *, nearness: float) -> SearchEntry:
    """An infield is found by its team, its positions and its habits."""
    words = ["infield corners third base first base shortstop second base depth off the bag"]
    words += [habit.kind.decision for habit in page.habits]
    return SearchEntry(title=page.title, text=" ".join(words), boost=nearness)


def series_entry(page: SeriesPage) -> SearchEntry:
    """A series is found by its opponent and its days."""
    words = ["series tonight probable pitchers plan lineup bullpen", page.team.name if page.team else ""]
    if page.series:
        words += [f"{page.series.start:%A %d %B}"]
    return SearchEntry(title=page.title, text=" ".join(words), boost=PROBABLE if page.home else ANYBODY)
