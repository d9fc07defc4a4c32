"""Occupied bases as other people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.records.import_bases import is_runner, marked_bases, occupied
from scoutgen.records.import_cells import CellError


@pytest.mark.parametrize("text", ["x", "X", "1", "1.0", "yes", "✓", "24", "#7", "Nunez", "Nunez, I.", "24 Nunez", "Ng"])
def test_a_sign_of_a_runner(text: str) -> None:
    assert is_runner(text)


@pytest.mark.parametrize("text", ["", " ", "-", "–", "—", "--", "_", ".", "·", "0", "0.0", "no", "Empty", "none", "O"])
def test_a_sign_of_nobody(text: str) -> None:
    assert not is_runner(text)


@pytest.mark.parametrize("text", ["?", "n/a", "NA", "unknown", "00", "Nunez?", "0.5", "u", "(x)"])
def test_what_is_no_clear_sign_is_refused(text: str) -> None:
    with pytest.raises(CellError, match="does not say whether a runner is there; x, a name or a number means one"):
        is_runner(text)


def test_bases_by_marks() -> None:
    assert [marked_bases(text) for text in ("101", "x--", "___", "123", "x–·")] == ["13", "1", "-", "123", "1"]
    for text, why in (("1", "not three signs"), ("x?x", 'by "\\?"'), ("3__", 'has "3" in the place of base 1')):
        with pytest.raises(CellError, match=why):
            marked_bases(text)


def test_bases_by_columns() -> None:
    assert occupied(["Nunez", "", "no"]) == "1"
    assert occupied(["0", "0", "false"]) == "-"
    assert occupied([".", "–", "_"]) == "-"
    with pytest.raises(CellError, match='"\\?" does not say'):
        occupied(["0.0", "empty", "?"])


@given(st.text(max_size=4))
def test_any_text_is_read_or_told(text: str) -> None:
    for read in (is_runner, marked_bases):
        try:
            read(text)
        except CellError as told:
            assert str(told)  # noqa: PT017 - an answer is as good
