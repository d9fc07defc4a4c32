"""The parser's complaints in plain words, with the line where somebody should look."""

import pytest
import yaml

from scoutgen.records.yamlerrors import plain_yaml_error


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("a:\n\tb: c\n", 2, "a tab stands where only spaces may"),
        ("a: 'x\nb: y\n", 1, "a quote that opens here is never closed"),
        ("a: [b\n", 1, "a [ or { that opens here is never closed"),
        ("a: b: c\n", 1, "a colon stands where none can"),
        ("a: x\nb\nc: y\n", 2, "this line has no 'key: value'"),
        ("a: @b\n", 1, "a text cannot begin with @; put the text in quotes"),
        ('a: "\\q"\n', 1, "in double quotes a backslash begins a code"),
        ("a: - b\n", 1, "a list item ('- ') cannot stand here"),
        ("- a\nb: c\n", 2, "this line does not fit the ones above it"),
    ],
)
def test_a_complaint_is_said_plainly(text: str, line: int, words: str) -> None:
    with pytest.raises(yaml.MarkedYAMLError) as caught:
        list(yaml.parse(text, Loader=yaml.BaseLoader))
    found = plain_yaml_error(caught.value)
    assert found[0] == line
    assert words in found[1]


def test_what_nobody_foresaw_still_says_where() -> None:
    mark = yaml.Mark("x", 0, 6, 0, None, None)
    error = yaml.MarkedYAMLError(problem="something new", problem_mark=mark)
    assert plain_yaml_error(error) == (7, "cannot be read as YAML here (something new)")
