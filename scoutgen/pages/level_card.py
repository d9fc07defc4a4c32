"""Where our infield and outfield stand for each hitter of their lineup, and what each level rests on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from scoutgen.measures.infield_levels import seams
from scoutgen.measures.standing import FEW_BALLS
from scoutgen.measures.stands import Field, at_level, field_of, steps_moved
from scoutgen.pages.findings import Findings
from scoutgen.pages.people import Person
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.series import SeriesPage
from scoutgen.pages.words import POSITION_WORDS
from scoutgen.records.season import Season
from scoutgen.records.series import Series

# What a level means where the program has no legend of its own, from straight up to everything to the pull side;
# common practice, in our own words.
USUAL_LEGEND = {
    "infield": (
        "straight up",
        "a step or two to the pull side",
        "three men on the pull side",
        "everything to the pull side",
    ),
    "outfield": ("straight up", "half way to the pull side", "all the way to the pull side"),
}
_OTHER_HAND = {"R": "L", "L": "R"}


@dataclass(frozen=True)
class InAHundred:
    """Outs gained in a hundred balls, with the 90 % interval."""

    mean: float
    low: float
    high: float

    @property
    def cost(self) -> "InAHundred | None":
        """The same as outs lost, where it surely loses some; None otherwise."""
        return InAHundred(-self.mean, -self.high, -self.low) if self.high < 0 else None


@dataclass(frozen=True)
class Level:
    """One level for one hitter against a pitcher of one hand.

    Attributes:
        level: 1 is straight up.
        opposite: it is to the side he does not pull to.
        n: balls of that kind charted; `by_hand`: against pitchers of that hand only, else against both.
        because: "gains", "no gain" or "few".
        outs, straight: share of them that are outs at the level, and straight up.
        gain_low, gain_high: what it gains over straight up, 90 % interval.
        next_gain, next_low, next_high: what one level more would add, with its 90 % interval.
    """

    level: int
    opposite: bool
    n: int
    by_hand: bool
    because: str
    outs: float
    straight: float
    gain_low: float
    gain_high: float
    next_gain: float
    next_low: float
    next_high: float

    @property
    def gained(self) -> "InAHundred":
        """What the level gains over straight up."""
        return InAHundred(100 * (self.outs - self.straight), 100 * self.gain_low, 100 * self.gain_high)

    @property
    def further(self) -> "InAHundred":
        """What one level more would gain."""
        return InAHundred(100 * self.next_gain, 100 * self.next_low, 100 * self.next_high)

    @property
    def next(self) -> int:
        """The level above."""
        return self.level + 1


@dataclass(frozen=True)
class HitterLevels:
    """One hitter in his place of the lineup.

    Attributes:
        place: in the batting order, from 1.
        infield, outfield: against our right-handed and left-handed pitchers, by "R" and "L"; None where nothing of his
            was charted.
        two_strikes, two_strikes_out: his infield and outfield level with two strikes against our right-handed pitchers
            where that differs; None otherwise.
    """

    place: int
    person: Person
    infield: Mapping[str, Level | None]
    outfield: Mapping[str, Level | None]
    two_strikes: Level | None
    two_strikes_out: Level | None


@dataclass(frozen=True)
class Stands:
    """Where a level is, for a right-handed hitter.

    Attributes:
        steps: of each infielder from straight up to the pull side, third base to first, empty where the infield has no
            such level; with each the feet from home where he is not as deep as straight up, else None.
        outfield_steps: of the whole outfield; None where the outfield has no such level.
    """

    level: int
    steps: tuple[tuple[float, float | None], ...]
    outfield_steps: float | None


@dataclass(frozen=True)
class Seams:
    """Whose a ball between two is at one level against hitters of one side: who takes it, who clears."""

    level: int
    opposite: bool
    bats: str
    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class LevelCard:
    """All that the page says, and a card front and back.

    Attributes:
        few: balls of a kind that are too few to move for.
        stands: where each level is; `straight_ft`: how deep the infielders play straight up.
        own_stands: the program states them itself; else they are the usual ones.
        seams: whose a ball between two infielders is, at every level used.
    """

    address: str
    title: str
    series_title: str
    series_address: str
    infield_address: str
    few: int
    hitters: tuple[HitterLevels, ...]
    infield_legend: tuple[str, ...]
    outfield_legend: tuple[str, ...]
    opposite_mark: str
    stands: tuple[Stands, ...]
    straight_ft: tuple[float, ...]
    step_ft: float
    own_stands: bool
    seams: tuple[Seams, ...]
    built: str
    as_of: date


def level_card(
    front: SeriesPage, series: Series, people: Sequence[Person], findings: Findings, season: Season, *, built: str
) -> LevelCard:
    """Put the card together for the likely lineup; men without a page are left out.

    Args:
        front: the series' own page.
        series: the series.
        people: the opponent's men.
        findings: the season's measures.
        season: for the program's levels.
        built: when, in words.
    """
    mine, levels = {person.man.key: person for person in people}, season.program.levels
    hitters = tuple(
        _hitter(place, mine[key], findings) for place, key in enumerate(series.lineup, start=1) if key in mine
    )
    field = field_of(levels)
    return LevelCard(
        address=front.levels_address,
        title=f"Where to stand: {front.title}",
        series_title=front.title,
        series_address=front.address,
        infield_address=front.infield_address,
        few=FEW_BALLS,
        hitters=hitters,
        infield_legend=_legend("infield", levels.infield_legend, levels.infield),
        outfield_legend=_legend("outfield", levels.outfield_legend, levels.outfield),
        opposite_mark=levels.opposite_mark,
        stands=_stands(field, levels.step_ft),
        straight_ft=tuple(field.infield[0, :, 1].tolist()),
        step_ft=levels.step_ft,
        own_stands=bool(levels.infield_stands),
        seams=_seams(hitters, field),
        built=built,
        as_of=season.as_of,
    )


def _hitter(place: int, person: Person, findings: Findings) -> HitterLevels:
    who = (person.team.key, person.man.key)
    infield, outfield = findings.of("infield_levels", *who), findings.of("outfield_levels", *who)
    against = {hand: _side(person, hand) for hand in ("R", "L")}
    return HitterLevels(
        place=place,
        person=person,
        infield={hand: _against(infield, bats, hand) for hand, bats in against.items()},
        outfield={hand: _against(outfield, bats, hand) for hand, bats in against.items()},
        two_strikes=_with_two_strikes(infield, against["R"]),
        two_strikes_out=_with_two_strikes(outfield, against["R"]),
    )


def _with_two_strikes(rows: Rows, bats: str) -> Level | None:
    """His level with two strikes where it is another than on the whole."""
    usual, two = _level(rows, bats, "all", "all"), _level(rows, bats, "strikes", "two")
    differs = usual and two and two.because != "few" and (two.level, two.opposite) != (usual.level, usual.opposite)
    return two if differs else None


def _side(person: Person, hand: str) -> str:
    """The side he bats on against a pitcher of that hand; a switch hitter takes the other one."""
    return _OTHER_HAND[hand] if person.man.bats in ("S", None) else person.man.bats


def _against(rows: Rows, bats: str, hand: str) -> Level | None:
    """By that hand's pitchers alone where enough of his balls were charted against them, else against both."""
    alone = _level(rows, bats, "hand", hand)
    return alone if alone and alone.because != "few" else _level(rows, bats, "all", "all")


def _level(rows: Rows, bats: str, split: str, value: str) -> Level | None:
    row = next((r for r in rows if (r["bats"], r["split"], r["value"]) == (bats, split, value)), None)
    return None if row is None else _made(row)


def _made(row: Row) -> Level:
    here = {name: row[name] for name in Level.__dataclass_fields__ if name in row}
    return Level(opposite=row["side"] == "other", by_hand=row["split"] == "hand", **here)


def _legend(where: str, own: Sequence[str], number: int) -> tuple[str, ...]:
    if own:
        return tuple(own)
    usual = USUAL_LEGEND[where]
    return usual if len(usual) == number else tuple(f"level {level} of {number}" for level in range(1, number + 1))


def _stands(field: Field, step_ft: float) -> tuple[Stands, ...]:
    """Every level of the infield, and of the outfield where it has as many."""
    infield, outfield = steps_moved(field.infield, step_ft), steps_moved(field.outfield, step_ft)
    straight = field.infield[0, :, 1]
    return tuple(
        Stands(
            level=place + 1,
            steps=tuple(
                (float(moved), None if deep == usual else float(deep))
                for moved, deep, usual in zip(infield[place], field.infield[place, :, 1], straight, strict=True)
            )
            if place < len(infield)
            else (),
            outfield_steps=float(outfield[place, 1]) if place < len(outfield) else None,
        )
        for place in range(max(len(infield), len(outfield)))
    )


def _seams(hitters: Sequence[HitterLevels], field: Field) -> tuple[Seams, ...]:
    """Of every infield level on the card above straight up, with two strikes too, and of straight up once."""
    used = {(1, False, "R")}
    for hitter in hitters:
        on_it = [*hitter.infield.items(), ("R", hitter.two_strikes)]
        for hand, level in on_it:
            if level and level.level > 1:
                used.add((level.level, level.opposite, _side(hitter.person, hand)))
    return tuple(
        Seams(
            level,
            opposite,
            bats,
            tuple(
                (POSITION_WORDS[takes], POSITION_WORDS[clears])
                for takes, clears in seams(at_level(field.infield, level, "other" if opposite else ""), bats)
            ),
        )
        for level, opposite, bats in sorted(used)
    )
