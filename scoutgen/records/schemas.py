"""What should an editor accept, complete and explain while somebody writes one of the YAML files?

JSON Schemas (draft 2020-12) made from the models the reader itself uses. An editor parses YAML into types before it
checks: it sees the number 27 where the reader sees the text "27", and null where a key was left blank. So every number
may also stand in quotes, every text may have become a number or a yes, and every optional key may be blank.
"""

import json
from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

from scoutgen.records.fields import NUMBER_PATTERN, WHOLE_PATTERN
from scoutgen.records.habit_kinds import HabitsFile
from scoutgen.records.import_map import ImportMap
from scoutgen.records.opponents import EntryFile, TeamFile
from scoutgen.records.program import Program
from scoutgen.records.series import SeriesFile

DIALECT = "https://json-schema.org/draft/2020-12/schema"

# By the stem of the schema's file; the title an editor shows.
MODELS: Mapping[str, tuple[type[BaseModel], str]] = {
    "program": (Program, "content/program.yml"),
    "habits": (HabitsFile, "content/habits.yml"),
    "team": (TeamFile, "content/opponents/<team>/team.yml"),
    "player": (EntryFile, "content/opponents/<team>/players/<key>.yml"),
    "series": (SeriesFile, "content/series/<name>.yml"),
    "import-map": (ImportMap, "MAP.yml of scoutgen import"),
}
# Rules over several keys, which pydantic makes none of: a record that has some words them for editors.
_FOR_EDITORS_ALREADY = frozenset({"allOf", "oneOf"})


def schema(name: str) -> dict[str, Any]:
    """The JSON Schema of one kind of file, by the names of `MODELS`."""
    model, title = MODELS[name]
    body = _for_editors(model.model_json_schema(by_alias=True, mode="validation"))
    body.pop("title", None)
    return {"$schema": DIALECT, "$id": f"urn:scoutgen:schema:{name}:1", "title": title, **body}


def schema_text(name: str) -> str:
    """The schema as it is written to a file; equal schemas have equal bytes."""
    return json.dumps(schema(name), indent=2, ensure_ascii=False) + "\n"


def schema_file(name: str) -> str:
    """The name of the schema's file, e.g. program.schema.json."""
    return f"{name}.schema.json"


def _for_editors(node: Any) -> Any:  # noqa: ANN401 - a piece of JSON
    """The same rules, for values that an editor has already given types."""
    if isinstance(node, list):
        return [_for_editors(part) for part in node]
    if not isinstance(node, dict):
        return node
    # pydantic's titles only repeat the keys, and its defaults are worth less than the descriptions.
    rules = {
        key: value if key in _FOR_EDITORS_ALREADY else _for_editors(value)
        for key, value in node.items()
        if key not in ("title", "default", "properties", "$defs")
    }
    if "$defs" in node:
        rules["$defs"] = {name: _for_editors(part) for name, part in node["$defs"].items()}
    if "properties" in node:
        needed = node.get("required", [])
        rules["properties"] = {
            name: _for_editors(part) if name in needed else _or_blank(_for_editors(part))
            for name, part in node["properties"].items()
        }
    if rules.get("type") in ("number", "integer"):
        pattern = WHOLE_PATTERN if rules["type"] == "integer" else NUMBER_PATTERN
        rules |= {"type": [rules["type"], "string"], "pattern": pattern}
    return rules


def _or_blank(part: dict[str, Any]) -> dict[str, Any]:
    """A key that may be left out may also stand there with nothing after it."""
    said = {"description": part["description"]} if "description" in part else {}
    rules = {key: value for key, value in part.items() if key != "description"}
    choices = [rule for rule in rules.get("anyOf", [rules]) if rule != {"type": "null"}]
    if len(choices) == 1 and "type" in choices[0] and "enum" not in choices[0]:
        types = choices[0]["type"]
        return {**said, **choices[0], "type": [*([types] if isinstance(types, str) else types), "null"]}
    return {**said, "anyOf": [*choices, {"type": "null"}]}
