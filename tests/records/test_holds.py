"""Holds: somebody must be on, and a pickoff goes to a base that somebody holds."""

from collections.abc import Callable

Complaints = Callable[..., list[str]]


def holds(*rows: str) -> dict[str, str]:
    return {"data/holds.csv": "game,pitcher,bases,then,looks,hold_seconds\n" + "".join(f"g1,A,{row}\n" for row in rows)}


def test_good_rows(complaints: Complaints) -> None:
    assert complaints(holds("1,pickoff_1,0,0", "1-3,pickoff_3,9,20", "123,pickoff_2,,", "2,balk,,")) == []


def test_bad_rows(complaints: Complaints) -> None:
    occupied = "write 1, 2, 3, 12, 13, 23 or 123"
    assert complaints(holds("-,pitch,,", ",pitch,,", "1,pickoff_2,,", "1,pitch,10,20.1")) == [
        f'data/holds.csv:2: bases: "-" is not allowed; {occupied}',
        f"data/holds.csv:3: bases: is blank and must be filled in; {occupied}",
        "data/holds.csv:4: then: pickoff_2 throws to a base that nobody holds (bases is 1); correct one of the two",
        (
            'data/holds.csv:5: hold_seconds: "20.1" is too large; allowed are 0 to 20; leave the cell '
            "blank if it was not charted"
        ),
        'data/holds.csv:5: looks: "10" is too large; allowed are 0 to 9; leave the cell blank if it was not charted',
    ]
