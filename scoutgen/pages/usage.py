"""What he throws when: the usage measures as rows a page can print."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scoutgen.measures.counts import BASES_SITUATIONS, COUNT_GROUPS, COUNTS, TIMES_THROUGH
from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.words import BASES_WORDS, COUNT_WORDS, SIDE_WORDS, TIMES_WORDS
from scoutgen.records.program import Thresholds

# What a hitter asks on his way to the plate, in the order in which a plate appearance asks it.
GLANCE = {group: COUNT_WORDS[group] for group in ("first pitch", "behind", "ahead", "two strikes")}
# Asked where the answer is another one than at two strikes.
_FULL = {"full": "Full count"}


@dataclass(frozen=True)
class Situation:
    """One situation: a claim for each pitch, in the page's order of pitches.

    Attributes:
        label: the situation in words.
        n: pitches charted in it.
        cells: one claim a pitch of `UsageSide.pitches`.
        best, second: the claims of the likeliest pitches; None where nothing was charted or none was looked for.
        clear: the data can tell the two apart.
    """

    label: str
    n: int
    cells: tuple[Claim, ...]
    best: Claim | None
    second: Claim | None = None
    clear: bool = False


@dataclass(frozen=True)
class UsageSide:
    """All that is known of the mix against hitters of one side.

    Attributes:
        side, words: "L" or "R", and in words.
        n: pitches charted to them.
        pitches: every pitch he was seen to throw, to anybody, the commonest to them first.
        whole: the share of each, all counts together.
        glance, counts, groups, bases, times_through: the same split by situation.
    """

    side: str
    words: str
    n: int
    pitches: tuple[str, ...]
    whole: tuple[Claim, ...]
    glance: tuple[Situation, ...]
    counts: tuple[Situation, ...]
    groups: tuple[Situation, ...]
    bases: tuple[Situation, ...]
    times_through: tuple[Situation, ...]


def usage_side(
    side: str, limits: Thresholds, *, usage: Rows, look_for: Rows, bases: Rows, times_through: Rows
) -> UsageSide:
    """One pitcher's mix against one side.

    Args:
        side: "L" or "R".
        limits: how sure a percent must be.
        usage: this pitcher's rows of `usage`.
        look_for: this pitcher's rows of `look_for`.
        bases: this pitcher's rows of `bases_usage`.
        times_through: this pitcher's rows of `times_through_usage`.
    """
    mine = [r for r in usage if r["bats"] == side]
    whole = sorted((r for r in mine if r["count"] == "all"), key=lambda r: (-r["share"], r["pitch"]))
    # A pitch he has never shown to either side is not a column; one shown to the other side only is.
    ever = {r["pitch"] for r in usage if r["bats"] == r["count"] == "all" and r["k"]}
    pitches = tuple(r["pitch"] for r in whole if r["pitch"] in ever)
    by_count = _situations(mine, "count", pitches, limits)
    likeliest = {r["count"]: r for r in look_for if r["bats"] == side}
    by_bases = _situations([r for r in bases if r["bats"] == side], "bases", pitches, limits)
    by_time = _situations([r for r in times_through if r["bats"] == side], "times", pitches, limits)
    return UsageSide(
        side=side,
        words=SIDE_WORDS[side],
        n=whole[0]["n"] if whole else 0,
        pitches=pitches,
        whole=by_count.get("all", ()),
        glance=_glance(by_count, likeliest),
        counts=_rows(by_count, {count: count for count in COUNTS}, likeliest),
        groups=_rows(by_count, {group: COUNT_WORDS[group] for group in COUNT_GROUPS}, likeliest),
        bases=_rows(by_bases, {b: BASES_WORDS[b] for b in BASES_SITUATIONS}, {}),
        times_through=_rows(by_time, {t: TIMES_WORDS[t] for t in TIMES_THROUGH}, {}),
    )


def _situations(rows: Rows, split: str, pitches: Iterable[str], limits: Thresholds) -> dict[str, tuple[Claim, ...]]:
    """Claims by situation, each in the order of `pitches`."""
    order = {pitch: place for place, pitch in enumerate(pitches)}
    out: dict[str, dict[str, Claim]] = {}
    seen = [row for row in rows if row["pitch"] in order]
    for row, claim in zip(seen, claims(seen, "pitch", limits), strict=True):
        out.setdefault(row[split], {})[claim.what] = claim
    return {s: tuple(cells[p] for p in order if p in cells) for s, cells in out.items()}


def _rows(
    by_situation: Mapping[str, tuple[Claim, ...]], labels: Mapping[str, str], likeliest: Mapping[str, Row]
) -> tuple[Situation, ...]:
    rows = []
    for key, label in labels.items():
        cells = {c.what: c for c in by_situation.get(key, ()) if c.n}
        n = max((c.n for c in cells.values()), default=0)
        rows.append(Situation(label, n, tuple(cells.values()), *_likeliest(cells, likeliest.get(key, {}))))
    return tuple(rows)


def _glance(by_count: Mapping[str, tuple[Claim, ...]], likeliest: Mapping[str, Row]) -> tuple[Situation, ...]:
    """The rows of `GLANCE`, and the full count where he surely goes to another pitch there than at two strikes."""
    rows = _rows(by_count, GLANCE, likeliest)
    (full,) = _rows(by_count, _FULL, likeliest)
    usual, there = rows[-1].best, full.best
    differs = usual is not None and there is not None and there.what != usual.what
    return (*rows, full) if differs and full.clear else rows


def _likeliest(cells: Mapping[str, Claim], look: Row) -> tuple[Claim | None, Claim | None, bool]:
    """The two likeliest pitches, and whether the data can tell them apart.

    Where all that is printed is the tally, the tally decides: nobody can follow "look for the fastball, 0 of 3".
    """
    best, second = cells.get(look.get("pitch", "")), cells.get(look.get("second", ""))
    clear = bool(look.get("ahead_of_second", False))
    if not look or (best is not None and best.sure != "thin"):
        return best, second, clear
    seen = sorted((c for c in cells.values() if c.k), key=lambda c: -c.k)
    first, then = (*seen, None, None)[:2]
    return first, then, clear and (first, then) == (best, second)
