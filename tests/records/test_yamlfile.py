"""YAML stays text, keeps its lines, and nothing in a file can explode, construct or hang."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

import tracemalloc
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scoutgen.records import yamlfile
from scoutgen.records.problems import Problem
from scoutgen.records.textfile import FORBIDDEN
from scoutgen.records.yamlfile import FAST, MOST_DEPTH, MOST_NODES, KeyPath, Tree, _built, read_yaml


def read(tmp_path: Path, text: str | bytes) -> tuple[Tree, dict[KeyPath, int], list[str]]:
    path = tmp_path / "notes.yml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    tree, lines, problems = read_yaml(path, tmp_path)
    return tree, lines, [str(problem) for problem in problems]


def test_every_scalar_stays_the_text_that_was_written(tmp_path: Path) -> None:
    written = "a: 012\nb: no\nc: 1:30\nd: 2026-03-06\ne: 1e3\nf: 0x1F\ng: '7'\nh: .inf\n"
    tree, _, problems = read(tmp_path, written)
    assert problems == []
    assert tree == {
        "a": "012", "b": "no", "c": "1:30", "d": "2026-03-06", "e": "1e3", "f": "0x1F", "g": "7", "h": ".inf",
    }  # fmt: skip
    # What the usual loader makes of the same file: the reason for all this.
    usual = yaml.safe_load(written)
    assert (usual["a"], usual["b"], usual["c"]) == (10, False, 90)


def test_blanks_are_none_and_quoted_ones_are_not(tmp_path: Path) -> None:
    tree, _, problems = read(tmp_path, "a:\nb: ~\nc: null\nd: ''\ne: 'null'\n")
    assert (tree, problems) == ({"a": None, "b": None, "c": None, "d": "", "e": "null"}, [])


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "---\n", "\ufeff"])
def test_an_empty_file_is_an_empty_mapping(tmp_path: Path, text: str) -> None:
    assert read(tmp_path, text) == ({}, {(): 1}, [])


def test_lines_of_keys_and_items(tmp_path: Path) -> None:
    text = "# first\nname: x\n\nroster:\n  - key: a\n    bats: R\n\n  - {key: b,\n     bats: L}\nlast: |\n  one\n  two\nend: z\n"
    tree, lines, problems = read(tmp_path, text)
    assert problems == []
    assert tree["roster"][1] == {"key": "b", "bats": "L"}  # type: ignore[index, call-overload]
    expected = {
        (): 1, ("name",): 2, ("roster",): 4, ("roster", 0): 5, ("roster", 0, "key"): 5, ("roster", 0, "bats"): 6,
        ("roster", 1): 8, ("roster", 1, "key"): 8, ("roster", 1, "bats"): 9, ("last",): 10, ("end",): 13,
    }  # fmt: skip
    assert lines == expected


def test_byte_order_mark_and_windows_line_ends_are_read(tmp_path: Path) -> None:
    tree, lines, problems = read(tmp_path, b"\xef\xbb\xbfa: 1\r\nb: 2\r\n")
    assert (tree, lines[("b",)], problems) == ({"a": "1", "b": "2"}, 2, [])


TAB = "a tab stands where only spaces may; replace it by spaces"
FIT = "this line does not fit the ones above it; keys and list items of one level start in the same column, and a list is not mixed with keys"
OPEN = "the [ or { that opens in line 2 is not closed before this, a comma is missing, or a text in it needs quotes"
COLON = "a colon stands where none can; put quotes around a text that holds ': ', and start keys of one level in the same column"


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("a: b\n\tc: d\n", f"2: {TAB}"),
        ('a: 1\nb: "x\nc: y\n', "2: a quote that opens here is never closed; add the closing quote"),
        ("a: 1\nb: 'x\nc: y\n", "2: a quote that opens here is never closed; add the closing quote"),
        ("a: 1\nb: [x,\n  y\n", "2: a [ or { that opens here is never closed; add the closing bracket"),
        ("a: 1\nb: {x: 1\n", "2: a [ or { that opens here is never closed; add the closing bracket"),
        ("a: 1\nb: {x: why, y 2, z: [1 2}\n", f"2: {OPEN}"),
        ("a: 1\nb: [x y\nc: 2\n", f"3: {OPEN}"),
        ("a: watch: 1.3\n", f"1: {COLON}"),
        ("a:\n  - b\n c: d\n", f"3: {FIT}"),
        ("- a\nb: 1\n", f"2: {FIT}"),
        (" a: 1\nb: 2\n", "2: this line does not fit the ones above it; start the file's keys in the first column"),
        ("a: 1\nb: @x\n", "2: a text cannot begin with @; put the text in quotes"),
        ("a: 1\nb: `x\n", "2: a text cannot begin with `; put the text in quotes"),
        ('a: 1\nb: "\\q"\n', "2: in double quotes a backslash begins a code; use single quotes"),
        ("a: >x\n", "1: after | or > the text starts in the next line, indented"),
        ("a: 1\nplain\nb: 2\n", "2: this line has no 'key: value'; add the colon and a space"),
        ("a: - b\n", "1: a list item ('- ') cannot stand here; put it in a line of its own under its key"),
        ("a: 1\n---\nb: 2\n", "2: a second document begins here ('---'); keep one document in a file"),
        ("a: 1\n? [x]\n: 2\n", "2: a key must be a plain word; a list or mapping cannot be one"),
        ("a: 1\nb: 2\na: 3\n", '3: the key "a" stands twice (first in line 1); keep one of them'),
    ],
)  # fmt: skip
def test_what_a_slip_is_answered(tmp_path: Path, text: str, answer: str) -> None:
    _, _, problems = read(tmp_path, text)
    assert problems == [f"notes.yml:{answer}"]


QUOTES = "put quotes around a text that begins with"
SPECIAL = f"asks for a special type, which is refused; take it out, or {QUOTES} !"


def test_anchors_aliases_and_tags_are_refused_in_words_all_at_once(tmp_path: Path) -> None:
    text = "a: &x 1\nb: *x\nc: !!python/object/apply:os.system ['echo hi > pwned']\nd: !!binary aGk=\n"
    _, _, problems = read(tmp_path, text)
    assert problems == [
        f'notes.yml:1: "&x" marks a place to repeat, which is refused; take it out, or {QUOTES} &',
        f'notes.yml:2: "*x" repeats another place, which is refused; write it out, or {QUOTES} *',
        f'notes.yml:3: the tag "tag:yaml.org,2002:python/object/apply:os…" {SPECIAL}',
        f'notes.yml:4: the tag "tag:yaml.org,2002:binary" {SPECIAL}',
    ]
    assert not (tmp_path / "pwned").exists()
    assert not Path("pwned").exists()


def test_a_bomb_of_anchors_takes_no_memory(tmp_path: Path) -> None:
    levels = "\n".join(f"l{i}: &l{i} [{', '.join([f'*l{i - 1}'] * 9)}]" for i in range(1, 30))
    tracemalloc.start()
    _, _, problems = read(tmp_path, f"l0: &l0 [lol]\n{levels}\n")
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert problems[0].startswith('notes.yml:1: "&l0" marks a place to repeat')
    assert len(problems) == 20
    assert peak < 5_000_000


@pytest.mark.parametrize("text", ["[" * 100_000, "a: " + "{b: " * 5_000, "- " * 3_000 + "x"])
def test_deep_nesting_is_refused_before_it_is_built(tmp_path: Path, text: str) -> None:
    tree, _, problems = read(tmp_path, text)
    assert tree is None
    assert problems == [f"notes.yml:1: nested deeper than {MOST_DEPTH} levels; no file of this project needs that"]


def test_nesting_up_to_the_limit_is_read(tmp_path: Path) -> None:
    tree, _, problems = read(tmp_path, "[" * MOST_DEPTH + "x" + "]" * MOST_DEPTH)
    assert problems == []
    for _ in range(MOST_DEPTH):
        assert isinstance(tree, list)
        tree = tree[0]
    assert tree == "x"


def test_too_many_entries_and_too_many_bytes(tmp_path: Path) -> None:
    _, _, problems = read(tmp_path, "a: [" + "x," * MOST_NODES + "]")
    assert problems == [f"notes.yml:1: more than {MOST_NODES:,} entries in one file; split it or cut it down"]
    _, _, problems = read(tmp_path, "a: " + "x" * 1_000_000)
    assert problems == ["notes.yml: is larger than 1,000,000 bytes; split it or cut it down"]


def test_impossible_escapes_and_half_characters(tmp_path: Path) -> None:
    _, _, problems = read(tmp_path, 'a: "\\UFFFFFFFF"\n')
    assert problems == ["notes.yml: cannot be read as YAML: it holds an impossible escape or directive"]
    _, _, problems = read(tmp_path, 'a: 1\nb: "\\uD800"\n')
    assert problems == ["notes.yml:2: an escape stands for half a character; write the character itself"]


PIECES = "a|: |- |\n|  |\t|{|}|[|]|,|&x| *x|!!str|!x|'|\"|\\|>|#|---|...|%YAML 1.1|%TAG ! !|?|@|`|\r|\x85|\u2028|\x00|é|~|null|<<|1:30|\\u|=|-"
TREES: st.SearchStrategy[object] = st.recursive(
    st.text(max_size=12) | st.integers() | st.booleans() | st.none(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=5), inner, max_size=4),
    max_leaves=12,
)
YAML_PIECES = st.sampled_from([*PIECES.split("|"), "|"])


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.one_of(st.text(max_size=200), st.lists(YAML_PIECES, max_size=40).map("".join), st.binary(max_size=200)))
def test_it_never_raises_and_always_says_why_there_is_nothing(tmp_path: Path, text: str | bytes) -> None:
    data = text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text
    tree, lines, problems = read(tmp_path, data)
    assert tree is not None or problems
    assert all(line >= 1 for line in lines.values())


def events(text: str, loader: Any) -> tuple[Tree, dict[KeyPath, int], list[Problem]] | None:  # noqa: ANN401
    try:
        return _built(text, "notes.yml", loader)
    except (yaml.YAMLError, ValueError, OverflowError):
        return None


@pytest.mark.skipif(FAST is yaml.BaseLoader, reason="PyYAML was built without libyaml here; there is one parser only")
def test_the_fast_and_the_slow_parser_read_the_same() -> None:
    compared: list[str] = []

    @settings(max_examples=400, deadline=None)
    @given(st.one_of(st.lists(YAML_PIECES, max_size=40).map("".join), TREES.map(yaml.safe_dump)))
    def check(text: str) -> None:
        text = FORBIDDEN.sub("", text)
        slow, fast = events(text, yaml.BaseLoader), events(text, FAST)
        if slow is not None and fast is not None:
            compared.append(text)
            assert fast == slow

    check()
    assert len(compared) > 50


def test_the_slow_parser_alone_does_as_well(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(yamlfile, "FAST", yaml.BaseLoader)
    assert read(tmp_path, "a: 1\nb: [x]\n") == ({"a": "1", "b": ["x"]}, {(): 1, ("a",): 1, ("b",): 2, ("b", 0): 2}, [])
    assert read(tmp_path, "a: 'x\n")[2] == [
        "notes.yml:1: a quote that opens here is never closed; add the closing quote"
    ]


TEXTS = r"[A-Za-z0-9 .,:'-]{1,20}"


def test_plain_texts_come_back_as_they_were_written(tmp_path: Path) -> None:
    @settings(max_examples=100, deadline=None)
    @given(st.dictionaries(st.from_regex(r"[a-z]{1,8}", fullmatch=True), st.from_regex(TEXTS, fullmatch=True)))
    def check(record: dict[str, str]) -> None:
        text = "".join(f"? '{key}'\n: '{value.replace(chr(39), chr(39) * 2)}'\n" for key, value in record.items())
        assert read(tmp_path, text)[::2] == (record, [])

    check()
