"""What a hitter swings at, misses and hits hard, and what he does otherwise with two strikes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from scoutgen.measures.hitting import FAMILIES
from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.words import VALUE_WORDS
from scoutgen.records.program import Thresholds

# Claims by measure, of each split and value.
Swings: TypeAlias = Mapping[tuple[str, str], Mapping[str, Claim]]


@dataclass(frozen=True)
class HitLine:
    """One row of a table of his swings: how often he swings, misses, hits it hard; None where nothing was charted."""

    label: str
    swing: Claim | None
    miss: Claim | None
    hard: Claim | None
    family: bool = False


@dataclass(frozen=True)
class Change:
    """One thing with two strikes: now, before, and whether the data can tell the two apart."""

    two: Claim
    early: Claim
    told: bool
    more: bool


@dataclass(frozen=True)
class Changes:
    """What he does with two strikes against what he does before: swings, misses, the other way; None: not charted."""

    swing: Change | None
    miss: Change | None
    other: Change | None


def swings(rows: Rows, limits: Thresholds) -> dict[tuple[str, str], dict[str, Claim]]:
    """One side's rows of `hitting` as claims, by split and value."""
    found: dict[tuple[str, str], dict[str, Claim]] = {}
    for row, claim in zip(rows, claims(rows, "measure", limits), strict=True):
        found.setdefault((row["split"], row["value"]), {})[row["measure"]] = claim
    return found


def lines(found: Swings, keys: Iterable[tuple[str, str]]) -> tuple[HitLine, ...]:
    """Those of the splits and values that were charted, in the order asked."""
    return tuple(_line(found[key], VALUE_WORDS.get(key[1], key[1])) for key in keys if key in found)


def _line(found: Mapping[str, Claim], label: str, *, family: bool = False) -> HitLine:
    return HitLine(label, found.get("swing"), found.get("miss"), found.get("hard"), family)


def pitch_lines(found: Swings) -> tuple[HitLine, ...]:
    """Each kind of pitch, and under it its pitches, the commonest first; a kind of one pitch has that line alone."""
    lines: list[HitLine] = []
    named = {name: family for family, names in FAMILIES.items() for name in names}
    pitches = [value for split, value in found if split == "pitch"]
    for family in FAMILIES:
        mine = [pitch for pitch in pitches if named.get(pitch, "other") == family]
        if not mine:
            continue
        if len(mine) == 1:
            lines.append(_line(found["pitch", mine[0]], mine[0].capitalize(), family=True))
        else:
            lines.append(_line(found["family", family], VALUE_WORDS[family], family=True))
            by_use = sorted(mine, key=lambda pitch: (-_looks(found["pitch", pitch]), pitch))
            lines += [_line(found["pitch", pitch], pitch) for pitch in by_use]
    return tuple(lines)


def _looks(found: Mapping[str, Claim]) -> int:
    return found["swing"].n if "swing" in found else 0


def changes(rows: Rows, limits: Thresholds) -> Changes:
    """One side's rows of `two_strike_change`."""
    two = claims(rows, "measure", limits)
    early = claims([_early(row) for row in rows], "measure", limits)
    found = {
        row["measure"]: Change(now, before, row["told"], row["change"] > 0)
        for row, now, before in zip(rows, two, early, strict=True)
    }
    return Changes(found.get("swing"), found.get("miss"), found.get("other way"))


def _early(row: Row) -> Row:
    return {"measure": row["measure"], **{name: row[f"early_{name}"] for name in ("k", "n", "share", "low", "high")}}
