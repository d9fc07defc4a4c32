"""Is what a map says possible: in itself, for the columns of its table, and in the project?"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any, TypeAlias, get_args

from pydantic import TypeAdapter, ValidationError

from scoutgen.records.check import FieldCheck, did_you_mean, field_checks, listed, quoted
from scoutgen.records.csvheader import OWN_PREFIX
from scoutgen.records.import_bases import is_sign
from scoutgen.records.import_cells import UNITS, Unit, unit_kind
from scoutgen.records.import_map import AS_RULE, OPEN_WORDS, RECORDS, ColumnRule, ImportMap
from scoutgen.records.problems import Problem
from scoutgen.records.resolve import ROLES
from scoutgen.records.vocabulary import Names
from scoutgen.records.yamlfile import Tree, read_yaml
from scoutgen.records.yamlrecord import YamlSource, read_record, without_blanks

MOST_TEAMS_NAMED = 12
Told: TypeAlias = tuple[tuple[str | int, ...], str]
# Asked only of a map that names a team: the project must be read for it.
Teams: TypeAlias = Callable[[], Collection[str]]
_RULES: TypeAdapter[ColumnRule] = TypeAdapter(Annotated[ColumnRule, AS_RULE])


@dataclass(frozen=True)
class _Rule:
    """A rule as far as it can be read: None where it cannot, and the keys that had to be left away."""

    rule: ColumnRule | None
    torn: frozenset[str] = frozenset()


def read_map(
    path: Path, context: Mapping[str, Names], teams: Teams = tuple
) -> tuple[ImportMap | None, YamlSource, list[Problem]]:
    """The map in a file, or None and every reason why it is none.

    Args:
        path: the file, anywhere.
        context: vocabularies that the project adds to, by name.
        teams: gives the keys of the project's teams; none where they are not known.
    """
    record, source, problems = read_record(path, path.parent, ImportMap)
    if record is not None:
        table, rules = str(record.table), {name: _Rule(rule) for name, rule in record.columns.items()}
    else:
        table, rules = _as_far_as_right(path)
    for column, one in rules.items():
        told = _rule_problems(table, column, one, context, teams)
        problems += [source.problem(("columns", column, *key), text) for key, text in told]
    checks = field_checks(RECORDS[table]) if table else {}
    lacking = [name for name, check in checks.items() if check.required and name not in rules]
    if lacking and (rules or record is not None):
        words = f"lack {listed(map(quoted, lacking), 'and')}, which every row of {table} must fill"
        problems.append(source.problem(("columns",), words))
    return (None if problems else record), source, problems


def _as_far_as_right(path: Path) -> tuple[str, dict[str, _Rule]]:
    """The table, empty where it is none, and the rules of a map of which something cannot be read."""
    tree, _, _ = read_yaml(path, path.parent)
    if not isinstance(tree, dict):
        return "", {}
    table, columns = tree.get("table"), tree.get("columns")
    rules = {name: _torn(rule) for name, rule in columns.items()} if isinstance(columns, dict) else {}
    return (table if isinstance(table, str) and table in RECORDS else ""), rules


def _torn(tree: Tree) -> _Rule:
    tree = without_blanks(tree)
    torn: frozenset[str] = frozenset()
    for _ in range(2):
        try:
            return _Rule(_RULES.validate_python(tree, by_alias=True, by_name=False), torn)
        except ValidationError as error:
            torn |= {str(entry["loc"][0]) for entry in error.errors(include_url=False) if entry["loc"]}
        if isinstance(tree, dict):
            tree = {key: value for key, value in tree.items() if key not in torn}
    return _Rule(None, torn)


def _rule_problems(table: str, column: str, one: _Rule, context: Mapping[str, Names], teams: Teams) -> list[Told]:
    """Everything wrong with the rule of a column, each with the key it stands under."""
    checks = field_checks(RECORDS[table]) if table else {}
    if column.startswith(OWN_PREFIX):
        return [((), "is written by the import itself or not at all; take it out")]
    if table and column not in checks:
        return [((), f"is not a column of {table}{did_you_mean(column, checks)}; known are {', '.join(checks)}")]
    if one.rule is None:
        return []
    # Of a rule that lacks a key of its own, only what would be wrong beside whatever was meant there.
    found = _form_problems(one.rule) if not one.torn else []
    if table:
        found += _column_problems(column, one.rule, checks[column])
        found += _team_problems(table, column, one.rule, teams)
        found += _idle_keys(column, one.rule) if not one.torn else []
        if not one.torn & {"date", "unit", "bases"}:
            found += _word_problems(column, one.rule, checks[column], context)
    return found


def _form_problems(rule: ColumnRule) -> list[Told]:
    """What contradicts itself, whatever the column, each with the key it stands under."""
    found: list[Told] = []
    if bool(rule.headers) == (rule.constant is not None):
        found.append(((), "needs either from (their header) or constant, and not both"))
    if (rule.split is None) != (rule.part is None):
        found.append(((), "split and part belong together, e.g. split: '-' and part: 1"))
    if rule.bases == "columns" and len(rule.headers) != 3:
        found.append((("from",), "must name three columns: first, second and third base"))
    return found


def _column_problems(column: str, rule: ColumnRule, check: FieldCheck) -> list[Told]:
    """What contradicts the column."""
    found: list[Told] = []
    if rule.unit is not None and unit_kind(column) != UNITS[rule.unit][0]:
        fitting = [unit for unit in get_args(Unit) if UNITS[unit][0] == unit_kind(column)]
        what = f"write {listed(fitting)}" if fitting else "take it out"
        found.append((("unit",), f"{quoted(rule.unit)} is no unit of {column}; {what}"))
    if rule.decimal is not None and check.kind not in ("number", "whole"):
        found.append((("decimal",), f"{column} holds no numbers; take it out"))
    if rule.date is not None and check.kind != "date" and column != "game":
        found.append((("date",), f"{column} holds no dates; take it out"))
    if rule.bases is not None and column != "bases":
        found.append((("bases",), "belongs to the column bases alone; take it out"))
    return found


def _idle_keys(column: str, rule: ColumnRule) -> list[Told]:
    """Keys that nothing would come of in this rule."""
    found: list[tuple[str, str]] = []
    given = {key for key in ("join", "split", "values", "blank") if getattr(rule, key) not in (None, (), {})}
    if rule.constant is not None and not rule.headers:
        found += [(key, "works on their cells, and constant takes none; take it out") for key in sorted(given)]
    elif rule.bases == "columns":
        found += [(key, "does nothing beside bases: columns; take it out") for key in sorted(given & {"join", "split"})]
    elif "join" in given and len(rule.headers) < 2:
        found.append(("join", "stands between several columns, and from names one; take it out"))
    if rule.team is not None and column == "game" and rule.date is None:
        found.append(("team", "helps only to find the game of a day; take it out, or say by date how days are written"))
    return [((key,), text) for key, text in found]


def _team_problems(table: str, column: str, rule: ColumnRule, teams: Teams) -> list[Told]:
    """A team where none is asked for, or one that the project does not have."""
    if rule.team is None:
        return []
    asked = ["game", *(role.column for role in ROLES.get(table, ()))]
    if column not in asked:
        return [(("team",), f"belongs to {listed(asked)} alone; take it out")]
    known = sorted(teams())
    if not known or rule.team in known:
        return []
    some = f"; known are {listed(known, 'and')}" if len(known) <= MOST_TEAMS_NAMED else ""
    text = f"{quoted(rule.team)} is no team in content or data/games{some}{did_you_mean(rule.team, known)}"
    return [(("team",), text)]


def _word_problems(column: str, rule: ColumnRule, check: FieldCheck, context: Mapping[str, Names]) -> list[Told]:
    """Which words written in the map the reader would refuse."""
    found: list[Told] = []
    if rule.constant is not None and rule.date is None and (why := _wrong(column, check, rule.constant, context)):
        found.append((("constant",), why))
    for word, ours in rule.values.items():
        if rule.bases == "columns":
            found += [(("values", word), f"{quoted(ours)} is no word for a base; write x or -")] * (not is_sign(ours))
        elif rule.date is None and rule.unit is None and (why := _wrong(column, check, ours, context)):
            found.append((("values", word), why))
    return found


def _wrong(column: str, check: FieldCheck, text: str, context: Mapping[str, Any]) -> str:
    """What the reader would say of a text in this column; nothing where only the project could tell."""
    if column in OPEN_WORDS and OPEN_WORDS[column] not in context:
        return ""
    _, wrong = check.in_full.values([text.strip()], context)
    return wrong.get(0, "")
