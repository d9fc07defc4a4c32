"""A first row that names our columns, one that nearly does, and one that is no header at all."""

import pytest

from scoutgen.records.csvheader import read_header

COLUMNS, REQUIRED = ("game", "pitcher", "balls", "pitch"), ("game", "pitch")


def test_columns_in_any_order_with_the_staffs_own_between() -> None:
    header = read_header(["pitch", "x_mood", "", "game"], COLUMNS, REQUIRED)
    assert (header.places, header.nameless, header.problems) == ({"pitch": 0, "game": 3}, [2], [])


@pytest.mark.parametrize(
    ("cells", "said", "hopeless"),
    [
        (["game", "pich"], 'unknown column "pich"; did you mean "pitch"?', False),
        (["game"], 'the header lacks the column "pitch", which every row must fill', False),
        (["game", "pitch", "game"], "stands twice in the header (columns 1 and 3); keep one", False),
        (["game;pitch"], "the cells are separated by semicolons, not by commas", True),
        (["Chart of Friday", ""], "names no column of this table; it must name them, e.g. game,pitch", True),
        (["g\0ame"], "holds NUL characters, as files saved as UTF-16 do", True),
    ],
)
def test_what_is_wrong_with_a_header(cells: list[str], said: str, *, hopeless: bool) -> None:
    header = read_header(cells, COLUMNS, REQUIRED)
    assert [text for _, text in header.problems if said in text]
    assert header.hopeless == hopeless
