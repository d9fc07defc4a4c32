"""Throws: the exchange is a part of the pop time."""

from collections.abc import Callable

Complaints = Callable[..., list[str]]


def throws(*rows: str) -> dict[str, str]:
    return {
        "data/throws.csv": "game,catcher,to,pop_seconds,exchange_seconds\n" + "".join(f"g1,C,{row}\n" for row in rows)
    }


def test_good_rows(complaints: Complaints) -> None:
    assert complaints(throws("1,,", "2,1.95,0.7", "home,1.2,0.4", "3,3.0,1.5")) == []


def test_bad_rows(complaints: Complaints) -> None:
    assert complaints(throws("4,,", "2,1.3,1.4", "2,3.1,", "2,,0.3")) == [
        'data/throws.csv:2: to: "4" is not allowed; write 1, 2, 3 or home',
        (
            "data/throws.csv:3: exchange_seconds: 1.4 is not shorter than pop_seconds 1.3, of which it "
            "is a part; correct one"
        ),
        (
            'data/throws.csv:4: pop_seconds: "3.1" is too large; allowed are 1.2 to 3; leave the cell '
            "blank if it was not charted"
        ),
        (
            'data/throws.csv:5: exchange_seconds: "0.3" is too small; allowed are 0.4 to 1.5; leave the '
            "cell blank if it was not charted"
        ),
    ]
