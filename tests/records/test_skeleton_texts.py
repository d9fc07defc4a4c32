"""What new files hold before anybody writes in them."""

import csv

import pytest

from scoutgen.records.skeleton_texts import NOT_BY_HAND, TABLES, commented, header, line_end, schema_place, table_line


@pytest.mark.parametrize("table", TABLES)
def test_a_header_is_the_record_without_the_other_notation(table: str) -> None:
    assert [name for name in TABLES[table].model_fields if name not in header(table)] == [
        name for name in TABLES[table].model_fields if name in NOT_BY_HAND
    ]


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_line_reads_as_its_cells_and_ends_as_the_table_does(end: str) -> None:
    cells = ["a, b", 'say "go"', "two\nlines", "", "Núñez"]
    written = table_line(cells, line_end(f"game,date{end}"))
    assert written.endswith(f"Núñez{end}")
    assert list(csv.reader([written])) == [cells]


def test_a_schema_is_found_from_the_depth_of_a_file() -> None:
    assert schema_place("team", 3).startswith("../../../schemas/")


def test_words_that_go_on_over_a_line_stay_a_comment() -> None:
    lines = commented([f"left-hand-{number}" for number in range(20)]).split("\n")
    assert len(lines) > 1
    assert all(line.startswith("# left-hand-") for line in lines[1:])
