"""What the pages of one build say, read off their view models, with whom we meet first in front."""

from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

import pandas as pd

from scoutgen.pages.habits import Habit
from scoutgen.pages.home_budget import HomeBudget
from scoutgen.pages.infield import InfieldPage
from scoutgen.pages.level_card import Level, LevelCard
from scoutgen.pages.opponent import OpponentPage
from scoutgen.pages.people import team_address
from scoutgen.pages.player import PlayerPage
from scoutgen.pages.running import RunningPage
from scoutgen.pages.said import Saying
from scoutgen.pages.sayings_of_men import of_habit, of_man, of_notes
from scoutgen.pages.series import SeriesPage
from scoutgen.records.roster import OwnPlayer
from scoutgen.records.season import Season

_TABLES = {
    "pitches": "pitches", "times": "times", "holds": "times set", "throws": "throws", "habits": "looks at habits",
    "positions": "looks at positions",
}  # fmt: skip
_HANDS = {"R": "right-hander", "L": "left-hander"}
_PLACES = ("1st", "2nd", "3rd", *(f"{place}th" for place in range(4, 11)))


@dataclass
class Shown:
    """The view models of the pages on series as these are written; those of the coming series first."""

    fronts: list[SeriesPage] = field(default_factory=list)
    running: list[RunningPage] = field(default_factory=list)
    levels: list[LevelCard] = field(default_factory=list)


def sayings(shown: Shown, of_teams: Iterable[Mapping[str, Saying]], season: Season) -> dict[str, Saying]:
    """All that was said, in the order of importance for the next game.

    Who plays, whether our runners go and where we stand in the series that are not over; then team by team in the
    order in which we meet them, its starters and its catcher before its lineup and everybody else; games last.

    Args:
        shown: the view models.
        of_teams: what is said of each team, from `sayings_of_team`.
        season: for the games.
    """
    found: dict[str, Saying] = {}
    coming = [front for front in shown.fronts if front.series is not None and not front.past]
    for front in coming:
        found |= _of_series(front)
    for run in shown.running:
        found |= _of_running(run)
    for card in shown.levels:
        found |= _of_levels(card, {front.levels_address: front for front in coming})
    for team in of_teams:
        found |= team
    found |= _of_games(season)
    return found


def sayings_of_team(
    team: OpponentPage, infield: InfieldPage, men: Iterable[PlayerPage], order: Mapping[tuple[str, str], int]
) -> dict[str, Saying]:
    """All that is said of a team and its men, who is met first in front.

    Args:
        team: his page.
        infield: that of his infield.
        men: those of his men.
        order: whom we meet first, from `order_of`.
    """
    found: dict[str, Saying] = {}
    for man in sorted(men, key=lambda page: order.get((team.team.key, page.person.man.key), len(order))):
        found |= of_man(man)
    return found | dict(_of_team(team, infield))


def order_of(fronts: Iterable[SeriesPage]) -> dict[tuple[str, str], int]:
    """Whom we meet first, by team and key: the probable starters, the catcher, the lineup, who may come in."""
    keys: list[tuple[str, str]] = []
    for front in fronts:
        series = front.series
        if series is not None and not front.past:
            named = [*(p.pitcher for p in series.probables), series.catcher or "", *series.lineup]
            keys += [(series.opponent, key) for key in (*named, *(b.player for b in series.bullpen))]
    return {key: place for place, key in enumerate(dict.fromkeys(keys))}


def _of_series(front: SeriesPage) -> Iterator[tuple[str, Saying]]:
    series = front.series
    if series is None:
        return
    group, name = front.team.name if front.team else series.opponent, series.name
    at = {person.man.key: person.address for person in front.lineup if not isinstance(person, str)}

    def one(kind: str, key: str, about: str, what: str, said: str, *, address: str = "") -> tuple[str, Saying]:
        return f"{kind}|{name}|{key}", Saying(kind, group, about, what, said, address or front.address)

    for game in front.games:
        person = game.line.person if game.line else None
        who, address = (person.title, person.address) if person else (game.pitcher, "")
        yield one("probable", game.label, front.title, f"probable pitcher, {game.label}", who, address=address)
    if series.catcher:
        who = front.catcher.person.title if front.catcher else series.catcher
        yield one("catcher", "", front.title, "their catcher", who)
    for place, man in enumerate(front.lineup):
        key, title = (man, man) if isinstance(man, str) else (man.man.key, man.brief)
        yield one("lineup", key, title, "in the lineup", f"bats {_PLACES[place]}", address=at.get(key, ""))
    for rest in front.bullpen:
        state = "not available" if rest.state.state == "no" else rest.state.state
        address = rest.person.address if rest.person else ""
        yield one(
            "bullpen",
            rest.state.player,
            rest.person.brief if rest.person else rest.name,
            "bullpen",
            state,
            address=address,
        )
    for line in front.plan:
        yield one("plan", f"{line.about or ''}|{line.text}", "Our plan", line.about or "", line.text)


def _of_running(run: RunningPage) -> Iterator[tuple[str, Saying]]:
    names = {man.key: _runner(man) for man in run.runners}
    for battery in run.batteries:
        group, pitcher = battery.pitcher.person.team.name, battery.pitcher.person
        for (runner, base), call in battery.calls.items():
            if runner not in names:
                continue
            yield f"call|{run.series.name}|{pitcher.man.key}|{battery.catcher.person.man.key}|{runner}|{base}", Saying(
                "call", group, f"{battery.label}, {battery.name}",
                "steal of second" if base == "2" else "steal of third", call.short, run.address, names[runner],
                n=call.plate_n, value=call.p_safe, low=call.low, high=call.high,
                detail=f"plate {call.plate_n}, pop {call.pop_n} timed",
            )  # fmt: skip
    yield from _of_home(run.home, run)


def _of_home(home: HomeBudget | None, run: RunningPage) -> Iterator[tuple[str, Saying]]:
    if home is None:
        return
    for way in home.ways:
        yield f"call|{run.series.name}|home|{way.runner.key}", Saying(
            "call", run.batteries[0].pitcher.person.team.name, run.batteries[0].catcher.person.brief,
            "home on the return throw", way.words, run.address, _runner(way.runner),
            value=way.p_safe, low=way.low, high=way.high, detail=f"lob {home.lob_k} of {home.lob_n} looks",
        )  # fmt: skip


def _runner(man: OwnPlayer) -> str:
    family = man.name.split()[-1]
    return f"{man.number} {family}" if man.number else family


def _of_levels(card: LevelCard, fronts: Mapping[str, SeriesPage]) -> Iterator[tuple[str, Saying]]:
    front = fronts.get(card.address)
    if front is None or front.series is None or front.team is None:
        return
    name, group = front.series.name, front.team.name
    for hitter in card.hitters:
        key, title = hitter.person.man.key, hitter.person.brief
        levels = [
            (where, f"our {hand_words}", level)
            for where, by_hand in (("infield", hitter.infield), ("outfield", hitter.outfield))
            for hand, hand_words in _HANDS.items()
            if (level := by_hand[hand]) is not None
        ]
        said = [(where, hand, _level(level, card.opposite_mark), level.n) for where, hand, level in levels]
        two = hitter.two_strikes
        words = _level(two, card.opposite_mark) if two else "the same"
        said.append(("infield, two strikes", "", words, two.n if two else 0))
        for where, hand, words, n in said:
            yield (
                f"level|{name}|{key}|{where}|{hand}",
                Saying("level", group, title, where, words, card.address, hand, n=n),
            )


def _level(level: Level, opposite_mark: str) -> str:
    """As the card has it: its number, to which side, and a question mark where it stands for want of balls."""
    number = f"{level.level} {opposite_mark}" if level.opposite else str(level.level)
    return f"{number}?" if level.because == "few" else number


def _of_team(team: OpponentPage, infield: InfieldPage) -> Iterator[tuple[str, Saying]]:
    key, name, address = team.team.key, team.title, team_address(team.team)
    yield from of_notes(team.tendencies, key, name, name, address)
    for note in team.park.notes:
        yield f"note|{key}|park|{note}", Saying("note", name, name, "park", note, f"{address}#park")
    # Habits of a position, whoever plays there; a man's stand with him.
    for habit in (*infield.habits, *infield.outfield_habits):
        if not habit.player:
            yield _of_position(habit, infield, name)


def _of_position(habit: Habit, infield: InfieldPage, group: str) -> tuple[str, Saying]:
    return of_habit(habit, f"{infield.address}|{habit.position}", group, habit.where, infield.address)


def _of_games(season: Season) -> Iterator[tuple[str, Saying]]:
    """Every game with how much was charted in it."""
    sizes = {table: _sizes(getattr(season, table)) for table in _TABLES}
    for row in season.games.to_dict("records"):
        game, names = str(row["game"]), [_team_name(season, row[side]) for side in ("away", "home")]
        day = None if pd.isna(row["date"]) else pd.Timestamp(row["date"])
        when = f"{day:%a} {day.day} {day:%b}" if day is not None else "no date"
        charted = [(n, words) for table, words in _TABLES.items() if (n := sizes[table].get(game, 0))]
        if not charted:
            # A row among the games is no news before something of it was charted.
            continue
        yield f"game|{game}", Saying(
            "game", "", f"{when}: {' at '.join(name for name in names if name)}", "",
            ", ".join(f"{n} {words}" for n, words in charted), _game_page(season, row),
            n=sum(n for n, _ in charted),
        )  # fmt: skip


def _sizes(frame: pd.DataFrame) -> dict[str, int]:
    return {str(game): int(n) for game, n in frame.groupby("game", observed=True).size().items()}


def _team_name(season: Season, key: object) -> str:
    if not isinstance(key, str):
        return ""
    team = season.teams.get(key)
    return team.name if team else key


def _game_page(season: Season, row: Mapping[Hashable, Any]) -> str:
    """The page of the team we play of the two, that of the home team where both are."""
    teams: Iterable[object] = (row["home"], row["away"])
    theirs = [team for key in teams if isinstance(key, str) and (team := season.teams.get(key)) and not team.own]
    return team_address(theirs[0]) if theirs else "index"
