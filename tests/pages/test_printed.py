"""Cells of printed sheets, and the marks of what changed since the last one."""

import re

import pytest
from pages.demo import plain

from scoutgen.pages.book import Page
from scoutgen.pages.printed import CHANGED, Printed, Sheet, cells_of, with_marks

CARD = """\
# Fielders

[box:screen]

- **Not on paper:** 1

[box:end]

## Friday: 27 Núñez

[side:L]

[table:wallet Where to stand]
| Hitter | Infield<br>R / L | Two |
|---|---|---|
| 1 Brathwaite | 1 / 1 |  |
| 8 Okonjo | 2 / 1 | in 3 |

**Strikeouts ended on:** change 4 of 10.

[side:end]

- **Throws over:** 12 of 87 sets.
- **▲ go:** 1, 2

[box:card-foot]

**as of:** Thu 9 Apr

[box:end]
"""


def test_every_cell_has_one_place_and_what_is_not_on_paper_none() -> None:
    assert cells_of(CARD) == {
        "Friday: 27 Núñez|L|1 Brathwaite|Hitter": "1 Brathwaite",
        "Friday: 27 Núñez|L|1 Brathwaite|Infield<br>R / L": "1 / 1",
        "Friday: 27 Núñez|L|1 Brathwaite|Two": "",
        "Friday: 27 Núñez|L|8 Okonjo|Hitter": "8 Okonjo",
        "Friday: 27 Núñez|L|8 Okonjo|Infield<br>R / L": "2 / 1",
        "Friday: 27 Núñez|L|8 Okonjo|Two": "in 3",
        "Friday: 27 Núñez|L|Strikeouts ended on:": "change 4 of 10.",
        "Friday: 27 Núñez||Throws over:": "12 of 87 sets.",
        "Friday: 27 Núñez||▲ go:": "1, 2",
    }


@pytest.mark.parametrize(
    ("now", "then", "marked"),
    [
        ("| 8 Okonjo | 2 / 1 | in 3 |", "| 8 Okonjo | 2 / 1 | in 2 |", f"| 8 Okonjo | 2 / 1 | {CHANGED} in 3 |"),
        ("| 8 Okonjo | 2 / 1 | in 3 |", "| 8 Okonjo | 2 / 1 |  |", f"| 8 Okonjo | 2 / 1 | {CHANGED} in 3 |"),
        ("| 1 Brathwaite | 1 / 1 |  |", "| 1 Brathwaite | 1 / 1 | in 2 |", f"| 1 Brathwaite | 1 / 1 | {CHANGED}  |"),
        (
            "| 8 Okonjo | 2 / 1 | in 3 |",
            "| 9 Other | 2 / 1 | in 3 |",
            f"| {CHANGED} 8 Okonjo | {CHANGED} 2 / 1 | {CHANGED} in 3 |",
        ),
        ("- **Throws over:** 12 of 87 sets.", "- **Throws over:** 11 of 80 sets.", f"- **{CHANGED} Throws over:** 12"),
        ("- **▲ go:** 1, 2", "- **▲ go:** 1", f"- **{CHANGED} ▲ go:** 1, 2"),
    ],
)
def test_a_cell_that_changed_is_marked_and_no_other(now: str, then: str, marked: str) -> None:
    made = with_marks(CARD, cells_of(CARD.replace(now, then)))
    assert marked in made
    assert made.count(CHANGED) == marked.count(CHANGED)
    assert made.replace(f"{CHANGED} ", "") == CARD


def test_a_percent_alone_is_no_change() -> None:
    card = "## Friday\n\n- **Throws over:** 12 of 87 sets (13 %).\n- **▲ go:** 1 Wrenfield 90 %, 2 Li 83 %\n".replace(
        " %", "\u00a0%"
    )
    assert with_marks(card, cells_of(card.replace("13", "14").replace("90", "91"))) == card
    assert with_marks(card, cells_of(card.replace("12 of", "11 of"))).count(CHANGED) == 1
    assert with_marks(card, cells_of(card.replace("1 Wrenfield", "7 Ostrowe"))).count(CHANGED) == 1
    printed = Printed(Sheet("Wed", cells_of(card)))
    assert printed.to_compare(cells_of(card.replace("90", "91"))) is None


def test_nothing_is_marked_where_nothing_changed() -> None:
    assert with_marks(CARD, cells_of(CARD)) == CARD


def test_a_sheet_printed_once_more_keeps_its_marks() -> None:
    first, second = Sheet("Wed", {"a": "1"}), Sheet("Thu", {"a": "2"})
    printed = Printed(first)
    assert printed.to_compare({"a": "1"}) is None
    assert printed.to_compare({"a": "2"}) == first
    printed = printed.then(second)
    assert printed.to_compare({"a": "2"}) == first
    assert printed.then(Sheet("later", {"a": "2"})) == Printed(Sheet("later", {"a": "2"}), first)
    assert printed.to_compare({"a": "3"}) == second


@pytest.mark.parametrize("kind", ["base-coaches", "fielders", "hitters"])
def test_what_the_demos_cards_say_is_in_their_cells(demo_pages: dict[str, Page], kind: str) -> None:
    markdown = demo_pages[f"cards/gannet-harbor/{kind}"].markdown
    cells = cells_of(markdown)
    words = " ".join(plain(text) for text in cells.values())
    shown = re.sub(r"(?s)\[box:(screen|card-foot|built)\].*?\[box:end\]", "", plain(markdown))
    for number in set(re.findall(r"\d+ of \d+", shown)):
        assert number in words
    # Every one of them would be marked if it were new.
    assert with_marks(markdown, {}).count(CHANGED) >= len(cells)
