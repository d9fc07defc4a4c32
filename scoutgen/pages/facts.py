"""The numbers behind a player's page as JSON: a measure's columns are the facts."""

import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from scoutgen.pages.findings import Findings
from scoutgen.pages.people import Person
from scoutgen.pages.rows import Row

FORMAT = 1
# Which measures' rows stand under which name. `habits`, `holds` and `throws` hold claims (k of n); `times` and
# `throw_times` hold readings in seconds. Documented in docs/charting-format.md.
LISTS: Mapping[str, str] = {
    "usage": "usage",
    "usage_by_bases": "bases",
    "usage_by_time_through": "times_through",
    "changes": "changes",
    "sequence": "sequence",
    "put_away": "put_away",
    "results": "results",
    "places": "places",
    "speeds": "bands",
    "speed_drop": "drops",
    "times": "times",
    "looks": "looks",
    "hold_times": "hold_times",
    "holds": "moves",
    "slide_steps": "slide_steps",
    "throw_times": "throw_times",
    "throws": "accuracy",
    "throw_results": "throw_results",
    "returns": "returns",
    "habits": "habits",
    "feet": "feet",
    "steals": "steals",
    "hitting": "hitting",
    "two_strike_change": "two_strikes",
    "contact": "contact",
    "spray": "spray",
    "bunts": "bunts",
    "appearances": "appearances",
}


def facts_address(person: Person) -> str:
    """Where a player's facts stand in the site."""
    return f"facts/{person.team.key}/{person.man.key}.json"


def facts(person: Person, findings: Findings, *, as_of: date, built: str) -> str:
    """One player's facts as JSON text.

    Args:
        person: who.
        findings: the season's measures.
        as_of: the day the site is made for.
        built: when it was built.

    Returns:
        An object with `format`, `team`, `player`, `name`, `number`, `as_of`, `built` and one list a measure (`LISTS`);
        lists without rows are there and empty. Missing values are null; rates are 0-1; times are seconds.
    """
    who = (person.team.key, person.man.key)
    head = {
        "format": FORMAT,
        "team": who[0],
        "player": who[1],
        "name": person.man.name,
        "number": person.man.number,
        "as_of": as_of.isoformat(),
        "built": built,
    }
    lists = {name: [_fact(row) for row in findings.of(table, *who)] for name, table in LISTS.items()}
    lists["steals"] = [{"pitcher": who[1], **_with_break_evens(row)} for row in lists["steals"]]
    return json.dumps({**head, **lists}, ensure_ascii=False, separators=(",", ":"), allow_nan=False) + "\n"


def _with_break_evens(row: dict[str, Any]) -> dict[str, Any]:
    """A steal with the chances that are even, by outs in a tied game halfway, under one name."""
    even = {name.removeprefix("even_"): value for name, value in row.items() if name.startswith("even_")}
    return {**{name: value for name, value in row.items() if not name.startswith("even_")}, "break_even": even}


def _fact(row: Row) -> dict[str, Any]:
    return {name: _plain(value) for name, value in row.items() if name not in ("team", "player")}


def _plain(value: Any) -> Any:  # noqa: ANN401 - a cell of a row
    if isinstance(value, float):
        # Six significant digits: more than any of these numbers is known to, and a small share stays above zero.
        return float(f"{value:.6g}")
    return value.isoformat() if isinstance(value, date) else value
