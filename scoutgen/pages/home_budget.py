"""The way home on the return throw in words: seconds on both sides, and who has some to spare."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from scoutgen.pages.findings import Findings
from scoutgen.pages.people import Person
from scoutgen.pages.rows import Row
from scoutgen.records.roster import OwnPlayer
from scoutgen.records.season import Season

HOME_WORDS = {"yes": "▲ yes", "close": "◆ close", "no": "✕ no"}


@dataclass(frozen=True)
class HomeWay:
    """Seconds of one runner on the way home on the return throw; see `measures.home_plays`.

    `call`: "yes", "close" or "no", with two out.
    """

    runner: OwnPlayer
    start_ft: float
    run_s: float
    margin_s: float
    p_safe: float
    low: float
    high: float
    call: str

    @property
    def words(self) -> str:
        """Yes, close or no, each with a shape."""
        return HOME_WORDS[self.call]

    @property
    def short_s(self) -> float:
        """Seconds he is late; negative where he has some to spare."""
        return -self.margin_s


@dataclass(frozen=True)
class HomeBudget:
    """The defence's side of a run home on the return throw, and every runner's.

    Attributes:
        third_baseman: his name; None where nobody was charted there.
        feet_n: looks at his feet.
        ball_s: all they need; flight_s (of flight_n lobs timed by flight_method), turn_s, throw_s and tag_s are its
            parts.
        look_k of look_n returns without a look, lob_k of lob_n lobbed; `there`: both together, None where
            either was never watched for.
        need: break-even chance with none, one and two out in a tied game halfway; the calls are for two.
        ways: every runner, the surest first.
        straight: the surest of them straight home on the windup.
    """

    third_baseman: str | None
    feet_n: int
    ball_s: float
    flight_s: float
    flight_n: int
    flight_method: str
    turn_s: float
    throw_s: float
    tag_s: float
    look_k: int
    look_n: int
    lob_k: int
    lob_n: int
    there: float | None
    need: tuple[float, ...]
    ways: tuple[HomeWay, ...]
    straight: HomeWay | None

    @property
    def answers(self) -> tuple[tuple[str, tuple[HomeWay, ...]], ...]:
        """The runners by answer, the surest first."""
        by_call = {words: tuple(way for way in self.ways if way.call == call) for call, words in HOME_WORDS.items()}
        return tuple((words, ways) for words, ways in by_call.items() if ways)


def home_budget(
    pitcher: Person, catcher: Person, findings: Findings, season: Season, *, need: tuple[float, ...]
) -> HomeBudget | None:
    """The budget against one battery; None where none of ours has the times and leads for it."""
    rows = [r for r in findings.of("home", pitcher.team.key, pitcher.man.key) if r["catcher"] == catcher.man.key]
    slow = sorted((r for r in rows if r["play"] == "return throw"), key=lambda r: (-r["p_safe"], r["runner"]))
    if not slow:
        return None
    straight = max((r for r in rows if r["play"] == "windup"), key=lambda r: (r["margin_s"], r["runner"]), default=None)
    at = slow[0]
    third = pitcher.team.player(at["third_baseman"]) if at["third_baseman"] else None
    same = ("feet_n", "ball_s", "flight_s", "flight_n", "flight_method", "turn_s", "throw_s", "tag_s",
            "look_k", "look_n", "lob_k", "lob_n", "there")  # fmt: skip
    return HomeBudget(
        third_baseman=third.name if third else None,
        need=need,
        ways=tuple(_ways(slow, season)),
        straight=next(_ways([straight] if straight else [], season), None),
        **{name: at[name] for name in same},
    )


def _ways(rows: Iterable[Row], season: Season) -> Iterator[HomeWay]:
    for row in rows:
        man = season.program.player(row["runner"])
        if man is not None:
            amounts = {name: row[name] for name in ("start_ft", "run_s", "margin_s", "p_safe", "low", "high", "call")}
            yield HomeWay(runner=man, **amounts)
