"""The quick way through plain lines and the standard library's reader say the same."""

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from scoutgen.records.plainlines import is_plain_line, plain_blocks

CELL = st.text(st.characters(blacklist_categories=["Cs"], blacklist_characters='\r\n,"\0'), max_size=6)
NUMBER_LIKE = st.sampled_from(["1", "01", "1.0", "1e3", "NA", "nan", "True", "", " ", "-", "0x1", "inf", "9" * 25])


@given(
    st.integers(2, 5).flatmap(
        lambda width: st.lists(st.lists(CELL | NUMBER_LIKE, min_size=width, max_size=width), min_size=1, max_size=8)
    ),
    st.sampled_from(["\n", "\r\n"]),
    st.booleans(),
)
def test_cells_are_what_the_standard_reader_reads(rows: list[list[str]], end: str, last_end: bool) -> None:
    text = end.join(",".join(row) for row in rows) + (end if last_end else "")
    blocks = list(plain_blocks(io.BytesIO(text.encode()), len(rows[0])))
    read = [
        [texts[number] for number in numbers]
        for numbers, texts in ([] if not blocks else [column for block in blocks for column in block])
    ]
    assert [list(row) for row in zip(*read, strict=True)] == list(csv.reader(io.StringIO(text, newline="")))


# Of the signs that decide it, so that some blocks are plain. That a file is UTF-8 is known before it comes here.
@given(st.text(st.sampled_from(',,,,\n\n\r"a1é\0\u2028'), max_size=30))
def test_whatever_is_not_plain_is_left_where_it_begins(text: str) -> None:
    content = text.encode()
    stream = io.BytesIO(content)
    blocks = list(plain_blocks(stream, 3))
    if blocks:
        assert stream.tell() == len(content)
        assert {len(numbers) for block in blocks for numbers, _ in block} == {len(content.splitlines())}
    else:
        assert stream.tell() == 0


def test_a_ragged_block_whose_commas_add_up_is_not_plain() -> None:
    stream = io.BytesIO(b"a,b,c,d\ne,f\n")
    assert list(plain_blocks(stream, 3)) == []
    assert stream.tell() == 0


def test_plain_lines() -> None:
    assert is_plain_line(b"game,date\r\n")
    assert not is_plain_line(b"game\n")
    assert not is_plain_line(b'"game",date\n')
    assert not is_plain_line(b"game,date\rg1,2026-03-06\r")
    assert not is_plain_line(b"game,da\0te\n")
