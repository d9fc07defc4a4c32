"""RFC 4180 (Shafranovich, October 2005), section 2, and what people's spreadsheets do to it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scoutgen.records.csvfile import ABSENT, MOST_BROKEN_ROWS, CodedTable, read_csv_files
from scoutgen.records.folder import DataFile
from scoutgen.records.plainlines import BLOCK_BYTES

COLUMNS = ("game", "date", "note")
Read = Callable[..., CodedTable]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    def reading(*contents: str | bytes) -> CodedTable:
        files = []
        for number, content in enumerate(contents):
            path = tmp_path / f"{number}.csv"
            path.write_bytes(content.encode() if isinstance(content, str) else content)
            files.append(DataFile(path, path.name))
        return read_csv_files(files, COLUMNS, ["game"])

    return reading


def rows_of(table: CodedTable) -> list[tuple[str | None, ...]]:
    texts = {name: [*table.texts[name], None] for name in COLUMNS}
    return [tuple(texts[name][table.codes[name][i]] for name in COLUMNS) for i in range(len(table.line))]


def said(table: CodedTable) -> list[str]:
    return [str(problem) for problem in table.problems]


# RFC 4180, section 2, rules 1 to 7, in its own examples' shape.
@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ("game,date,note\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
        ("game,date,note\r\naaa,bbb,ccc\r\nzzz,yyy,xxx", [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
        ('game,date,note\r\n"aaa","bbb","ccc"\r\nzzz,yyy,xxx', [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
        ('game,date,note\r\n"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx', [("aaa", "b\r\nbb", "ccc"), ("zzz", "yyy", "xxx")]),
        ('game,date,note\r\n"aaa","b""bb","ccc"', [("aaa", 'b"bb', "ccc")]),
        ('game,date,note\r\na,"1,32",c', [("a", "1,32", "c")]),
        ("game,date,note\r\na, b ,", [("a", " b ", "")]),
        ('"game","date","note"\na,b,c', [("a", "b", "c")]),
        ("game,date,note\na,6'2\",c", [("a", "6'2\"", "c")]),
    ],
)
def test_the_rules_of_rfc_4180(read: Read, text: str, rows: list[tuple[str, ...]]) -> None:
    table = read(text)
    assert rows_of(table) == rows
    assert not table.problems


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("quoted", [False, True])
def test_lines_are_counted_as_an_editor_counts_them(read: Read, end: str, quoted: bool) -> None:
    note = f'"one{end}two{end}"' if quoted else "one"
    table = read(end.join(["game,date,note", "", f"a,b,{note}", "c,d,e", "", "f,g,h", ""]))
    first = 3
    assert table.line.tolist() == ([first, first + 3, first + 5] if quoted else [first, first + 1, first + 3])


def test_a_million_row_file_keeps_its_line_numbers_over_blocks_and_from_one_reader_to_the_other(read: Read) -> None:
    plain = [f"g{i},d{i % 7},{'x' * 60}" for i in range(2 * BLOCK_BYTES // 66)]
    table = read("\n".join(["game,date,note", *plain, 'q,d,"two\nlines"', "r,d,n", "s,d"]))
    rows = rows_of(table)
    assert len(rows) == len(plain) + 2
    assert rows[0] == ("g0", "d0", "x" * 60)
    assert rows[len(plain) - 1][0] == f"g{len(plain) - 1}"
    assert table.line[: len(plain)].tolist() == list(range(2, len(plain) + 2))
    assert table.line[-2:].tolist() == [len(plain) + 2, len(plain) + 4]
    assert said(table) == [
        (
            f'0.csv:{len(plain) + 5}: has 2 cells where the header has 3: nothing stands for "note"; '
            "write a comma for every blank cell"
        )
    ]


def test_cells_stay_texts_even_where_a_whole_column_looks_like_numbers(read: Read) -> None:
    table = read("game,date,note\n01,1e3,NA\n1,1000,nan\n1.0,True,\n")
    assert rows_of(table) == [("01", "1e3", "NA"), ("1", "1000", "nan"), ("1.0", "True", "")]


def test_columns_in_any_order_and_absent_as_a_whole(read: Read) -> None:
    table = read("note,x_mine,game\nn,mine,g\n", "game,date\nh,d\n")
    assert rows_of(table) == [("g", None, "n"), ("h", "d", None)]
    assert table.codes["date"].tolist() == [ABSENT, 0]
    assert table.file.tolist() == [0, 1]


def test_a_byte_order_mark_is_taken_off_before_and_behind_a_quote(read: Read) -> None:
    for text in ("\ufeffgame,date,note\na,b,c", '\ufeff"game",date,note\na,b,c'):
        table = read(text)
        assert rows_of(table) == [("a", "b", "c")]
        assert not table.problems


def test_rows_of_blanks_and_nameless_blank_columns_are_left_by_spreadsheets(read: Read) -> None:
    for quote in ("", '"'):
        table = read(f"game,date,note,,\n{quote}a{quote},b,c,,\n,, ,,\n,,,,\nd,e,f,,\n")
        assert rows_of(table) == [("a", "b", "c"), ("d", "e", "f")]
        assert table.line.tolist() == [2, 5]
        assert not table.problems


def test_a_cell_under_no_name_is_an_error(read: Read) -> None:
    for quote in ("", '"'):
        assert said(read(f"game,date,note,\n{quote}a{quote},b,c,\nd,e,f,lost\n")) == [
            '0.csv:3: "lost" stands in column 4, which has no name in the header; name it or empty it'
        ]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "0.csv: is empty; its first row must name the columns, e.g. game"),
        ("\n \n", "0.csv: is empty; its first row must name the columns, e.g. game"),
        (
            "game,date,note\na\n",
            (
                '0.csv:2: has 1 cell where the header has 3: nothing stands for "date" and "note"; '
                "write a comma for every blank cell"
            ),
        ),
        (
            "game,date,note\na,b,c,d\n",
            "0.csv:2: has 4 cells where the header has 3; put quotes around a cell that holds a comma",
        ),
        (
            'game,date,note\na,b,c\nd,"e,f\ng,h,i\n',
            (
                '0.csv:3: the quote (") opened in line 3 is never closed; close it, or write a '
                "quote that belongs to the text twice; nothing from here on was read"
            ),
        ),
        (
            'game,date,note\na,"b\n",c\nd,"e\n","f\ng,h,i\n',
            (
                '0.csv:4: the quote (") opened in line 5 is never closed; close it, or '
                "write a quote that belongs to the text twice; nothing from here on was read"
            ),
        ),
        (
            'game,date,note\na,"b"x,c\n',
            (
                '0.csv:2: text follows the closing quote of a cell; a quote (") inside a quoted cell is '
                'written twice, e.g. "he said ""now"""'
            ),
        ),
        (
            'game,date,note\na,"b,c\nd,"e",f\n',
            (
                '0.csv:2: text follows the closing quote of a cell from line 2 to line 3; a quote (") '
                'inside a quoted cell is written twice, e.g. "he said ""now"""'
            ),
        ),
        (
            "game;date;note\na;b;c\n",
            (
                "0.csv:1: the cells are separated by semicolons, not by commas; save the file again as CSV UTF-8 "
                "(comma delimited), or replace the separators"
            ),
        ),
        (
            "game\tdate\tnote\na\tb\tc\n",
            (
                "0.csv:1: the cells are separated by tabs, not by commas; save the file again as CSV UTF-8 "
                "(comma delimited), or replace the separators"
            ),
        ),
        (
            "game,dtae,note\n",
            '0.csv:1: unknown column "dtae"; did you mean "date"? A column of your own begins with x_',
        ),
        (
            "game,wind,note\n",
            '0.csv:1: unknown column "wind"; known are game, date and note; a column of your own begins with x_',
        ),
        (
            "Harbor at Ridge,,\ngame,date,note\na,b,c\n",
            (
                '0.csv:1: the first row begins with "Harbor at Ridge" and names no column of this table; '
                "it must name them, e.g. game; take out any title above them"
            ),
        ),
        (
            "game,date,note\n".encode("utf-16-le"),
            (
                "0.csv:1: holds NUL characters, as files saved as UTF-16 do; save the file again as CSV UTF-8 "
                "(comma delimited)"
            ),
        ),
        ("game,date,date\n", "0.csv:1: date: stands twice in the header (columns 2 and 3); keep one"),
        ("date,note\na,b\n", '0.csv:1: the header lacks the column "game", which every row must fill'),
        (
            "game,date,note\n\0,b,c\n" + "a" * 1_100_000 + ",b,c\n",
            "0.csv:3: a cell in this row is longer than 1,000,000 characters; nothing from here on was read",
        ),
        (
            b"game,date,note\na,b,c\nM\xfcller,b,c\n",
            (
                "0.csv:3: is not UTF-8 text: the byte 0xFC in this line; in the spreadsheet choose "
                "Save As and then CSV UTF-8 (comma delimited)"
            ),
        ),
        (
            "game,date,note\n".encode("utf-16"),
            "0.csv:1: is saved as UTF-16; in the spreadsheet choose Save As and then CSV UTF-8 (comma delimited)",
        ),
        ("game,date,note\n" + "a" * 2_500_000, "0.csv:2: has a line longer than 1,000,000 bytes; no charted row is"),
    ],
)
def test_each_broken_file_gets_one_clear_answer(read: Read, text: str | bytes, words: str) -> None:
    assert said(read(text)) == [words]


def test_a_file_broken_all_the_way_is_given_up(read: Read) -> None:
    for row in ("a\n", '"a"b,c,d\n'):
        table = read("game,date,note\na,b,c\n" + 3 * MOST_BROKEN_ROWS * row)
        assert rows_of(table) == [("a", "b", "c")]
        assert len(table.problems) == MOST_BROKEN_ROWS + 1
        last = f"0.csv:{MOST_BROKEN_ROWS + 2}: 1,000 rows were like this; nothing from here on was read"
        assert last in said(table)
        assert table.unread == {0}


def test_a_column_that_stands_twice_makes_the_rows_useless(read: Read) -> None:
    assert read("game,date,date\na,b,c\n", "game,date\na,b\n").lame == {0}


def test_reading_goes_on_after_a_row_that_is_wrong(read: Read) -> None:
    table = read('game,date,note\na,"b"x,c\nd,e\nf,g,h\n')
    assert rows_of(table) == [("f", "g", "h")]
    assert len(table.problems) == 2


def test_rows_before_an_unclosed_quote_are_kept(read: Read) -> None:
    table = read('game,date,note\na,b,c\nd,"e,f\ng,h,i\n')
    assert rows_of(table) == [("a", "b", "c")]
    assert table.unread == {0}


def test_the_first_bad_byte_is_found_behind_many_blocks_and_windows_line_ends(read: Read) -> None:
    table = read(b"game,date,note\r\n" + b"abc,d,efghijk\r\n" * 200_001 + b"\xe9,b,c\r\n")
    assert said(table)[0].startswith("0.csv:200003: is not UTF-8 text: the byte 0xE9")


def test_a_cell_of_two_hundred_thousand_characters_is_read_and_left_to_the_field_to_refuse(read: Read) -> None:
    for quote in ("", '"'):
        table = read(f"game,date,note\na,b,{quote}{'x' * 200_000}{quote}\n")
        assert len(rows_of(table)[0][2] or "") == 200_000
        assert not table.problems
