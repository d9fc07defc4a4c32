"""Paper against the charting format as it is documented: the same columns in the same order, the same words."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from scoutgen.pages.book import Page
from scoutgen.pages.charting_sheets import NOT_BY_HAND, Column, Sheet, SheetsPage, charting_sheets
from scoutgen.records.check import field_checks
from scoutgen.records.import_map import RECORDS
from scoutgen.records.program import PitchName
from scoutgen.records.season import Season
from scoutgen.records.vocabulary import Names

FORMAT = (Path(__file__).parents[2] / "docs" / "charting-format.md").read_text(encoding="utf-8")
TABLES = ("pitches", "times", "throws", "holds", "habits", "positions")
# Columns of which the format speaks in a sentence.
TOLD = {"bases", "warmup", "habit"}


@pytest.fixture(scope="module")
def pages(demo_season: Season) -> tuple[SheetsPage, ...]:
    return charting_sheets(demo_season, built="now")


@pytest.fixture(scope="module")
def sheets(pages: tuple[SheetsPage, ...]) -> dict[str, Sheet]:
    return {sheet.table: sheet for page in pages for sheet in page.sheets}


def documented(table: str) -> list[tuple[str, str]]:
    """Every column of the format's page as written there, star and all, with what its row says."""
    section = FORMAT.split(f"## data/{table}")[1].split("\n## ")[0]
    rows = [line.strip("| ").split(" | ", 1) for line in section.splitlines() if line.startswith("| ")][1:]
    return [(name.strip(), row[1] if len(row) > 1 else "") for row in rows for name in row[0].split(",")]


def column(sheet: Sheet, name: str) -> Column:
    return next(column for column in sheet.columns if column.name == name)


@pytest.mark.parametrize("table", TABLES)
def test_the_headings_are_the_formats_columns_in_its_order(sheets: dict[str, Sheet], table: str) -> None:
    expected = [name for name, _ in documented(table) if name.rstrip("*") not in NOT_BY_HAND]
    assert len(expected) >= 10
    assert [c.heading.replace(" ", "_") for c in sheets[table].columns] == expected


# How many columns of each table the format gives a list of words.
@pytest.mark.parametrize(
    ("table", "lists"), [("pitches", 7), ("times", 3), ("throws", 4), ("holds", 2), ("habits", 1), ("positions", 1)]
)
def test_the_words_are_those_the_format_documents(sheets: dict[str, Sheet], table: str, lists: int) -> None:
    every = documented(table)
    compared = 0
    for name, values in every:
        plain = name.rstrip("*")
        words = re.findall(r"`(\w+)`", values.split(". Blank")[0].split("; `speed_kph`")[0])
        # A row of several columns says of which of them it speaks.
        its_own = [v for _, v in every].count(values) == 1 or f"{plain}:" in values
        if words and its_own and plain not in {*NOT_BY_HAND, *TOLD}:
            compared += 1
            assert sorted(w.word for w in column(sheets[table], plain).words) == sorted(words), plain
    assert compared == lists


def test_limits_are_those_the_format_documents(sheets: dict[str, Sheet]) -> None:
    for table in TABLES:
        for name, values in documented(table):
            if said := re.match(r"(\d+)-(\d+)(?!\.)(?::|$|; `speed_kph`)", values):
                assert column(sheets[table], name.rstrip("*")).limits == f"{said[1]} to {said[2]}"


def test_a_pitch_and_a_habit_of_the_programs_own_stand_on_the_sheet(demo_season: Season) -> None:
    own = demo_season.program.model_copy(update={"pitches": (PitchName(name="screwball", aliases=("SCR",)),)})
    kinds = dict(list(demo_season.habit_kinds.items())[:2])
    kinds["taps-glove"] = next(iter(kinds.values())).model_copy(update={"key": "taps-glove"})
    made = charting_sheets(replace(demo_season, program=own, habit_kinds=kinds), built="now")
    on = {sheet.table: sheet for page in made for sheet in page.sheets}
    assert ("SCR", "screwball") in [(w.pen, w.word) for w in column(on["pitches"], "pitch").words]
    assert [w.word for w in column(on["habits"], "habit").words] == list(kinds)
    assert on["habits"].rows > 25


def test_what_the_pen_writes_means_one_word_of_its_column(sheets: dict[str, Sheet]) -> None:
    for sheet in sheets.values():
        for each in sheet.columns:
            pens = [word.pen.casefold() for word in each.words]
            assert len(pens) == len(set(pens)), each.name


def test_what_the_pen_writes_is_read_from_a_file_as_that_word(sheets: dict[str, Sheet], demo_season: Season) -> None:
    context = {
        "pitches": Names.of("pitch", demo_season.program.pitch_names(), ""),
        "habits": Names.of("habit", dict.fromkeys(demo_season.habit_kinds, ()), "", shortened=True),
    }
    read = 0
    for table, sheet in sheets.items():
        for one in sheet.columns:
            words = [word for word in one.words if one.name not in ("bases", "bats", "to") and word.word != "-"]
            check = field_checks(RECORDS[table])[one.name]
            written = [form for word in words for form in (word.pen, word.pen.upper(), word.word)]
            values, wrong = check.values(written, context)
            meant, _ = check.values([word.word for word in words for _ in range(3)], context)
            assert not wrong
            assert values == meant
            read += len(words)
    assert read > 90


def test_a_page_says_that_it_is_for_printing_and_lists_every_column(
    pages: tuple[SheetsPage, ...], demo_pages: dict[str, Page]
) -> None:
    assert [page.address for page in pages] == ["charting/pitches", "charting/times", "charting/looks"]
    for page in pages:
        written = demo_pages[page.address]
        assert written.menu[0] == "Charting sheets"
        text = written.markdown.replace("&#42;", "*")
        assert "This page is for printing: letter paper" in text
        for sheet in page.sheets:
            listed = text.split(f"## {sheet.title}\n")[1].split("[box:sheet-note]")[0].split("[box:sheet-words]")[1]
            for each in sheet.columns:
                assert f"- **{each.heading}**" in listed or f"\n{each.heading}: what is asked" in listed


def test_what_a_number_stands_for_is_said_in_the_formats_words(sheets: dict[str, Sheet]) -> None:
    told = {name.rstrip("*"): values for name, values in documented("pitches")}
    meanings = {each.name: each.meaning for each in sheets["pitches"].columns if each.meaning}
    assert set(meanings) == {"lead", "height", "side"}
    for name, meaning in meanings.items():
        words = set(re.findall(r"[a-z]+|\d(?:-\d)?", meaning)) - {"its"}
        assert words <= set(re.findall(r"[a-z]+|\d(?:-\d)?", told[name])), name


def test_a_sheet_says_what_a_blank_means_in_the_file(demo_pages: dict[str, Page], sheets: dict[str, Sheet]) -> None:
    assert "`-` for empty" in dict(documented("pitches"))["bases"]
    said = "a blank says not charted, but under bases that nobody is on."
    # Of looks somebody is on in every row, so that a blank there is none; throws name no bases.
    assert said in demo_pages["charting/pitches"].markdown
    assert [t for t, s in sheets.items() if any(c.blank_says_empty for c in s.columns)] == [
        "pitches", "times", "habits", "positions",
    ]  # fmt: skip
    assert demo_pages["charting/looks"].markdown.count(said) == 2
