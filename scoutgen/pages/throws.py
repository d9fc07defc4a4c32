"""The catcher's arm and the way the ball comes back to the mound, in rows a page can print."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from scoutgen.measures.levels import STATES
from scoutgen.pages.claims import Claim, claim, claims
from scoutgen.pages.rows import Rows
from scoutgen.pages.times import Clock, clocks, to_go_by
from scoutgen.pages.words import ACCURACY_WORDS, BASE_WORDS, STYLE_WORDS
from scoutgen.records.program import Thresholds


@dataclass(frozen=True)
class Return:
    """One way he returns the ball with runners where `bases` says; timed ones in seconds by one method."""

    style: str
    bases: str
    claim: Claim
    timed: int
    method: str
    median: float | None
    last_seen: date | None


@dataclass(frozen=True)
class Throws:
    """One catcher's throws.

    Attributes:
        live: pop by base and exchange, live; `warmups` apart.
        pop_second, pop_third: the live row a runner asks for; None where never timed.
        accuracy: where his live throws go, all bases.
        results: outs among the throws that had a play, by base.
        returns: timed return throws by style, all runners; `third` k and n of those with a runner on third.
    """

    live: tuple[Clock, ...]
    warmups: tuple[Clock, ...]
    pop_second: Clock | None
    pop_third: Clock | None
    accuracy: tuple[Claim, ...]
    results: tuple[Claim, ...]
    returns: tuple[Return, ...]
    third: tuple[tuple[str, int, int], ...]


def throws(limits: Thresholds, *, times: Rows, accuracy: Rows, results: Rows, returns: Rows) -> Throws:
    """One catcher's throws.

    Args:
        limits: how sure a percent must be.
        times: his rows of `throw_times`.
        accuracy: his rows of `throw_accuracy`.
        results: his rows of `throw_results`.
        returns: his rows of `returns`.
    """
    wanted = [r for r in times if r["measure"] == "pop" or r["to"] == "all"]
    live, warm = [r for r in wanted if not r["warmup"]], [r for r in wanted if r["warmup"]]
    where = [r for r in accuracy if r["to"] == "all" and not r["warmup"]]
    every = _returns(returns, limits)
    return Throws(
        live=clocks(live, "{measure} to {to}"),
        warmups=clocks(warm, "{measure} to {to}"),
        pop_second=_pop(live, "2"),
        pop_third=_pop(live, "3"),
        accuracy=tuple(claims(where, "accuracy", limits, ACCURACY_WORDS)),
        results=tuple(claim(r, BASE_WORDS[r["to"]], limits) for r in results),
        returns=tuple(r for r in every if r.bases == "all" and r.claim.k),
        third=_on_third(every),
    )


def _on_third(every: Iterable[Return]) -> tuple[tuple[str, int, int], ...]:
    """Each style seen with a runner on third, whoever else was on, the commonest first: style, k, n."""
    there = [r for r in every if r.bases in STATES and "3" in r.bases]
    k = {style: sum(r.claim.k for r in there if r.claim.what == style) for style in (r.claim.what for r in there)}
    n = sum(k.values())
    return tuple(sorted(((style, seen, n) for style, seen in k.items() if seen), key=lambda part: (-part[1], part[0])))


def _pop(live: Rows, to: str) -> Clock | None:
    rows = clocks([r for r in live if r["measure"] == "pop" and r["to"] == to], "{measure} to {to}")
    return to_go_by(rows)


def _returns(rows: Rows, limits: Thresholds) -> tuple[Return, ...]:
    return tuple(
        Return(
            style=found.what,
            bases=row["bases"],
            claim=found,
            timed=row["timed"] or 0,
            method=row["method"] or "",
            median=row["median"],
            last_seen=row["last_seen"],
        )
        for row, found in zip(rows, claims(rows, "style", limits, STYLE_WORDS), strict=True)
    )
