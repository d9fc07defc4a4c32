"""Rows keep the line they begin in, and a broken quote is said in words with the line where it opened."""

import csv
from pathlib import Path

import pytest

from scoutgen.records.csvlines import Trouble, in_words, longest_cell, numbered_rows, opening_line


def test_rows_with_line_breaks_in_quotes_keep_their_first_line() -> None:
    rows = list(numbered_rows(['a,"b\n', 'c"\n', "d,e\n"], 10))
    assert rows == [(11, ["a", "b\nc"]), (13, ["d", "e"])]


def test_text_after_a_closing_quote_is_a_trouble_and_reading_goes_on() -> None:
    (start, trouble), row = numbered_rows(['"a"b,c\n', "d,e\n"], 0)
    assert isinstance(trouble, Trouble)
    assert (start, trouble.is_over, row) == (1, False, (2, ["d", "e"]))
    assert in_words(trouble, start, Path("unread.csv")).startswith("text follows the closing quote of a cell; a quote")


def test_a_quote_never_closed_is_over_and_named_by_its_line(tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    file.write_text('game,note\ng1,"he ""said""\ng2,x\n', encoding="utf-8")
    with file.open(newline="") as stream:
        *_, (start, trouble) = numbered_rows(stream, 0)
    assert isinstance(trouble, Trouble)
    assert trouble.is_over
    assert opening_line(file, start) == 2
    assert in_words(trouble, start, file).startswith('the quote (") opened in line 2 is never closed')


def test_the_limit_of_a_cell_is_put_back_even_after_an_error() -> None:
    before = csv.field_size_limit()

    def fail() -> None:
        with longest_cell():
            assert csv.field_size_limit() == 1_000_000
            raise OSError("gone")

    with pytest.raises(OSError, match="gone"):
        fail()
    assert csv.field_size_limit() == before
