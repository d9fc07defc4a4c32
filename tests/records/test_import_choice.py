"""Rows that a map takes or leaves out, and what of it is about no row."""

from scoutgen.records.import_choice import MOST_CELLS_NAMED, Met, left_out, lines_without, never_met, of_totals
from scoutgen.records.import_file import UNSAVED
from scoutgen.records.import_map import ImportMap
from scoutgen.records.yamlrecord import YamlSource

SOURCE = YamlSource("map.yml", {(): 1, ("only",): 4})


def told(met: Met, **more: object) -> list[str]:
    wanted = ImportMap.model_validate({"table": "pitches", "columns": {}, **more})
    return [problem.text for problem in never_met(wanted, SOURCE, met)]


def test_lines_are_named_as_x_source_does_or_alone() -> None:
    texts = ["7", "Pen:8", "night.xlsx:Pen:9", "'night.xlsx:Pen:10", "Live:11", "soon"]
    assert lines_without(texts, "night.xlsx:Pen") == {
        7: "7",
        8: "Pen:8",
        9: "night.xlsx:Pen:9",
        10: "'night.xlsx:Pen:10",
    }


def test_words_of_without_that_are_about_no_row() -> None:
    words = 'no row read is "a:3"; write it as x_source has it, like night.csv:12, or take it out'
    assert told(Met({"a:2"}), without=["a:2", "a:3"]) == [words]


def test_texts_of_only_that_no_row_has() -> None:
    assert told(Met(cells={"K": {"game": "Game"}}, taken=True), only={"K": ["GAME"]}) == []
    assert told(Met(cells={"K": {"game": "Game"}}), only={"K": ["Gam"]}) == [
        'no row has "Gam" in "K"; there are "Game"; did you mean "Game"?'
    ]
    assert told(Met(), only={"K": ["Gam"]}) == ['no row has "Gam" in "K"']
    many = {f"{n}": f"{n}" for n in range(MOST_CELLS_NAMED + 1)}
    assert told(Met(cells={"K": many}), only={"K": ["Gam"]})[0].endswith('"6", "7", ...')


def test_a_text_of_only_may_come_with_next_weeks_file_unless_it_looks_mistyped() -> None:
    met = Met(cells={"K": {"game": "Game", "warm": "Warm"}}, taken=True)
    assert told(met, only={"K": ["Game", "Scrimmage"]}) == []
    assert told(met, only={"K": ["Game", "Game 2"]}) == []
    (words,) = told(met, only={"K": ["Game", "Warn"]})
    assert words.endswith('did you mean "Warm"?')


def test_texts_of_only_that_no_row_has_together() -> None:
    met = Met(cells={"K": {"a": "a"}, "L": {"b": "b"}})
    assert told(met, only={"K": ["a"], "L": ["b"]}) == [
        "no row has all of this together; say what the wanted rows have, or take it out"
    ]


def test_a_row_that_is_left_out_is_shown_by_its_first_cells() -> None:
    assert left_out(["", "Total", UNSAVED, "55"], "a.xlsx:Pen:9") == 'a.xlsx:Pen:9 ("Total, a formula, 55")'
    assert left_out(list("abcdefgh"), "a.csv:2") == 'a.csv:2 ("a, b, c, d, e, f")'


def test_a_row_of_totals_is_known_by_a_cell_that_says_so() -> None:
    for cell in ("Total", "TOTALS:", "Grand total", "sub-totals"):
        assert 'without: ["a.csv:9"]' in of_totals(["", cell, "68"], "a.csv:9")
    assert of_totals(["Totally", "Ada Total"], "a.csv:9") == ""
