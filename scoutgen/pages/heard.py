"""What our runners hear of a battery: the calls of the measures in words, and the short version for a man's page."""

from dataclasses import dataclass

from scoutgen.pages.findings import Findings
from scoutgen.pages.people import Person
from scoutgen.pages.rows import Row, Rows
from scoutgen.records.roster import OwnPlayer
from scoutgen.records.season import Season

# Each call has a shape of its own, so that it reads without colour.
CALL_WORDS = {"go": "▲ go", "only_if": "◆ only if", "no": "✕ not tonight", "unknown": "? not known"}
SHORT_CALLS = {**CALL_WORDS, "no": "✕ no"}
# Names in a sentence before the rest become a number.
_NAMED = 4
# From this share on throws over are worth a sentence of their own.
_MUCH_PICKED = 0.10


@dataclass(frozen=True)
class Call:
    """What one runner hears about one battery and base.

    Attributes:
        call, because: see `measures.calls.steal_calls`.
        need: chance of success that is even in a tied game halfway, one out.
        margin_s, p_safe, low, high: with his deliveries mixed as they come.
        stretch_margin_s, stretch_p_safe, slide_margin_s, slide_p_safe: of each delivery; the slide step's are None
            where he was not seen to use it.
        stretch_plate_s, slide_plate_s: the time to the plate each rests on, of ..._n readings; 0: a usual one.
        picked: chance that he leaves on a throw over and is out.
        run_s, run_n, plate_n, pop_n: the runner's time and the readings behind each; a run_n of 0 is our roster's time.
    """

    call: str
    because: str
    need: float
    margin_s: float
    p_safe: float
    low: float
    high: float
    stretch_margin_s: float
    stretch_p_safe: float
    stretch_plate_s: float
    stretch_plate_n: int
    slide_margin_s: float | None
    slide_p_safe: float | None
    slide_plate_s: float | None
    slide_plate_n: int | None
    picked: float
    run_s: float
    run_n: int
    plate_n: int
    pop_n: int

    @property
    def much_picked(self) -> bool:
        """Throws over cost him more than the clock can give back."""
        return self.picked >= _MUCH_PICKED

    @property
    def words(self) -> str:
        """The call with its shape."""
        return CALL_WORDS[self.call]

    @property
    def short(self) -> str:
        """The same in a narrow cell."""
        return SHORT_CALLS[self.call]


@dataclass(frozen=True)
class Heard:
    """The short version: who of ours can take a base with a man and `other` at work.

    Attributes:
        other: the catcher on a pitcher's page, the pitcher on a catcher's.
        go: our runners who can go, with their chance, the surest first.
        only_if, unknown: how many hear the other answers.
        stay: our runners who must not go, the slowest last.
        plate_n, pop_n: readings of the delivery and of the throw that all of them rest on.
    """

    other: Person
    go: tuple[tuple[OwnPlayer, float], ...]
    only_if: int
    stay: tuple[OwnPlayer, ...]
    unknown: int
    plate_n: int
    pop_n: int

    @property
    def no(self) -> int:
        """How many must not go."""
        return len(self.stay)

    @property
    def other_name(self) -> str:
        """Number and family name of the other."""
        man = self.other.man
        return f"{man.number} {man.name.split()[-1]}" if man.number else man.name

    @property
    def named(self) -> tuple[tuple[OwnPlayer, float], ...]:
        """The surest of those who can go; the rest are a number."""
        return self.go[:_NAMED]

    @property
    def more(self) -> int:
        """How many more can go."""
        return len(self.go) - len(self.named)


def heard(
    pitcher: Person, catcher: Person, other: Person, findings: Findings, season: Season, *, base: str = "2"
) -> Heard | None:
    """What our runners hear of one battery and base; None where none of ours has a time for it."""
    every = calls_of(findings.of("calls", pitcher.team.key, pitcher.man.key), catcher.man.key)
    calls = {runner: call for (runner, to), call in every.items() if to == base}
    if not calls:
        return None
    going = sorted((key for key, call in calls.items() if call.call == "go"), key=lambda k: (-calls[k].p_safe, k))
    staying = sorted((key for key, call in calls.items() if call.call == "no"), key=lambda k: (-calls[k].p_safe, k))
    men = {man.key: man for man in season.program.roster}
    answers = [call.call for call in calls.values()]
    # The battery's readings are the same for every runner.
    one = next(iter(calls.values()))
    return Heard(
        other=other,
        go=tuple((men[key], calls[key].p_safe) for key in going),
        only_if=answers.count("only_if"),
        stay=tuple(men[key] for key in staying),
        unknown=answers.count("unknown"),
        plate_n=one.plate_n,
        pop_n=one.pop_n,
    )


def calls_of(rows: Rows, catcher: str) -> dict[tuple[str, str], Call]:
    """One pitcher's calls with one catcher, by runner and base."""
    return {(row["runner"], row["base"]): _call(row) for row in rows if row["catcher"] == catcher}


def _call(row: Row) -> Call:
    return Call(**{name: row[name] for name in Call.__dataclass_fields__})
