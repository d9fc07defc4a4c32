"""The numbers behind the pages on a player, and on a team, as JSON: a measure's columns are the facts."""

import json
from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from operator import add
from typing import Any

from scoutgen.pages.findings import Findings
from scoutgen.pages.people import Person
from scoutgen.records.opponents import Team

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

# The same of a team: where its fielders stood, where we stand for its hitters, who of ours can go. They are exported
# and stand in no site: they would be as large as all that phones keep of it.
TEAM_LISTS: Mapping[str, str] = {
    "positions": "stood",
    "shades": "shades",
    "off_bag": "off_bag",
    "extra_bases": "extra_bases",
    "infield_levels": "infield_levels",
    "outfield_levels": "outfield_levels",
    "calls": "calls",
    "home_plays": "home",
    "workload": "workload",
}


def team_facts_address(team: Team) -> str:
    """Under which name an export has a team's facts, beside those of its men."""
    return f"facts/{team.key}.json"


def team_facts(team: Team, findings: Findings, *, as_of: date, built: str) -> str:
    """One team's facts as JSON text: as a player's, with a list a measure (`TEAM_LISTS`) and without a player.

    Args:
        team: which.
        findings: the season's measures.
        as_of: the day the site is made for.
        built: when it was built.
    """
    head = {"format": FORMAT, "team": team.key, "name": team.name, "as_of": as_of.isoformat(), "built": built}
    parts = [json.dumps(head, ensure_ascii=False, separators=(",", ":"))[:-1]]
    for name, table in TEAM_LISTS.items():
        rows = findings.of_team(table, team.key)
        columns = [column for column in rows[0] if column != "team"] if rows else []
        texts = {column: _cells([row[column] for row in rows]) for column in columns}
        parts.append(f'"{name}":[{",".join(_objects(texts)) if texts else ""}]')
    return ",".join(parts) + "}\n"


def facts_address(person: Person) -> str:
    """Where a player's facts stand in the site."""
    return f"facts/{person.team.key}/{person.man.key}.json"


def facts(
    person: Person, findings: Findings, *, as_of: date, built: str, beside: Mapping[str, Any] | None = None
) -> str:
    """One player's facts as JSON text.

    Args:
        person: who.
        findings: the season's measures.
        as_of: the day the site is made for.
        built: when it was built.
        beside: what else the edition knows of him, by name; it follows the lists.

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
    parts = [json.dumps(head, ensure_ascii=False, separators=(",", ":"))[:-1]]
    parts += [f'"{name}":[{",".join(_facts(name, findings, *who))}]' for name in LISTS]
    parts += [
        f"{_text(name)}:{json.dumps(value, ensure_ascii=False, separators=(',', ':'), allow_nan=False)}"
        for name, value in (beside or {}).items()
    ]
    return ",".join(parts) + "}\n"


def _facts(name: str, findings: Findings, team: str, player: str) -> list[str]:
    """A man's rows of one list, each as JSON text: written column by column, since a season has millions of cells."""
    columns = findings.tables[LISTS[name]].columns_of(team, player)
    texts = {column: _cells(cells) for column, cells in columns.items() if column not in ("team", "player")}
    if name == "steals" and columns:
        texts = _with_break_evens(texts, player)
    return _objects(texts)


def _with_break_evens(texts: Mapping[str, list[str]], pitcher: str) -> dict[str, list[str]]:
    """Steals with the chances that are even, by outs in a tied game halfway, under one name; and whose they are."""
    even = {name.removeprefix("even_"): cells for name, cells in texts.items() if name.startswith("even_")}
    rest = {name: cells for name, cells in texts.items() if not name.startswith("even_")}
    together = _objects(even)
    return {"pitcher": [_text(pitcher)] * len(together), **rest, "break_even": together}


def _objects(texts: Mapping[str, list[str]]) -> list[str]:
    """Columns of JSON as a JSON object a row."""
    names = [f"{_text(column)}:" for column in texts]
    return [f"{{{','.join(map(add, names, row))}}}" for row in zip(*texts.values(), strict=True)]


def _cells(cells: list[Any]) -> list[str]:
    """A column as JSON, each kind of value by the quickest way: a column holds one kind, and blanks."""
    kinds = set(map(type, cells)) - {type(None)}
    if kinds == {float}:
        # Six significant digits: more than any of these numbers is known to, and a small share stays above zero.
        texts = ["null" if value is None else f"{value:.6g}" for value in cells]
        if "inf" in "".join(texts):
            raise ValueError("infinity has no place in JSON")
        return texts
    if kinds == {str}:
        return ["null" if value is None else _text(value) for value in cells]
    if kinds == {int}:
        return ["null" if value is None else str(value) for value in cells]
    return [f'"{value.isoformat()}"' if isinstance(value, date) else json.dumps(value) for value in cells]


@lru_cache(maxsize=10_000)
def _text(value: str) -> str:
    return json.dumps(value, ensure_ascii=False)
