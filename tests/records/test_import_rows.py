"""A foreign row through the map."""

from collections.abc import Callable, Iterator

from scoutgen.records.import_file import UNSAVED, Line, Sheet
from scoutgen.records.import_map import ImportMap
from scoutgen.records.import_names import Names
from scoutgen.records.import_rows import Imported, imported_rows, shown
from scoutgen.records.season import Season
from scoutgen.records.yamlrecord import YamlSource

MEND = "mend it, or name it under values: or blank: in the map"

ReadSeason = Callable[..., Season]
BASE = {"game": {"constant": "g1"}, "pitcher": "P", "balls": "B", "strikes": "S", "pitch": "Type"}


def through(season: Season, columns: dict[str, object], *rows: list[str], **more: object) -> Imported:
    def lines() -> Iterator[Line]:
        yield from enumerate(rows, 1)

    wanted = ImportMap.model_validate({"table": "pitches", "columns": BASE | columns, **more})
    return imported_rows([Sheet("a.csv", lines())], wanted, YamlSource("map.yml", {(): 1}), Names(season, frozenset()))


HEADER = ["P", "B", "S", "Type", "X", "Y", "Z"]


def one(season: Season, rule: object, *cells: str, column: str = "note") -> str:
    found = through(season, {column: rule}, HEADER, ["Ada", "0", "0", "FB", *cells])
    assert not found.problems
    return found.rows[0].cells[column]


def test_each_rule_by_itself(season: ReadSeason) -> None:
    here = season({})
    assert one(here, "X", "as it is") == "as it is"
    assert one(here, {"from": ["X", "Y"]}, "Iker", "Nunez", column="batter") == "Iker Nunez"
    assert one(here, {"from": ["X", "Y"], "join": "-"}, "a", "") == "a"
    assert one(here, {"from": "X", "values": {"k": "strikeout"}}, "K", column="play") == "strikeout"
    assert one(here, {"from": "X", "values": {"k": "a", "K": "b"}}, "K") == "b"
    assert one(here, {"from": "X", "blank": ["N/A"]}, "n/a", column="inning") == ""
    assert one(here, {"from": "X", "unit": "kph"}, "160,9344", column="speed_mph") == "100"
    assert one(here, {"from": "X", "split": "/", "part": 2}, "a/2", column="outs") == "2"
    assert one(here, {"from": "X", "bases": "marks"}, "x_x", column="bases") == "13"
    assert one(here, {"from": ["X", "Y", "Z"], "bases": "columns"}, "1", "0", "1", column="bases") == "13"
    three = {"from": ["X", "Y", "Z"], "bases": "columns", "blank": ["N/A", "?"], "values": {"T": "x", "none on": "-"}}
    assert one(here, three, "x", "", "n/a", column="bases") == "1"
    assert one(here, three, "None on", "?", "t", column="bases") == "3"
    assert one(here, three, "?", "?", "?", column="bases") == "-"
    assert one(here, "X", "4.0", column="inning") == "4"
    assert one(here, "X", "", column="inning") == ""
    assert one(here, "X") == ""


def test_what_is_wrong_has_its_line_and_both_names(season: ReadSeason) -> None:
    rule = {"speed_mph": "X", "distance_ft": {"from": "Y", "unit": "m"}}
    found = through(
        season({}), rule, HEADER, ["Ada", "0", "0", "FB", "91", ""], ["Ada", "0", "0", "FB", "fast", "#N/A"]
    )
    assert [str(p) for p in found.problems] == [
        'a.csv:3: speed_mph (from X): "fast" is not a number; mend it, or name it under values: or blank: in the map',
        "a.csv:3: distance_ft (from Y): #N/A is a spreadsheet's error, not a value",
    ]
    assert found.bad_rows == 1
    assert [row.line for row in found.rows] == [2]


def test_a_header_that_is_not_there_is_said_of_the_map(season: ReadSeason) -> None:
    found = through(season({}), {"speed_mph": "Vel", "note": "Xx"}, ["P", "B", "S", "Type", "Velo", "X"], ["Ada"])
    assert [str(p) for p in found.problems] == [
        'map.yml:1: columns.speed_mph.from: a.csv has no column "Vel"; did you mean "Velo"?',
        'map.yml:1: columns.note.from: a.csv has no column "Xx"; did you mean "X"?',
    ]
    assert found.rows == []


def test_rows_can_be_chosen_and_unused_columns_are_named(season: ReadSeason) -> None:
    rows = [["Ada", "0", "0", "FB", kind] for kind in ("Live", "live", "Bullpen")]
    found = through(season({}), {}, HEADER, *rows, only={"X": ["Live"]})
    assert len(found.rows) == 2
    assert found.passed_over == 1
    assert found.unused == ["Y", "Z"]


def test_a_text_of_only_that_no_row_has_is_a_problem_of_the_map(season: ReadSeason) -> None:
    rows = [["Ada", "0", "0", "FB", kind, day] for kind, day in (("Live", "Fri"), ("Pen", "Sat"))]

    def told(**only: list[str]) -> list[str]:
        return [str(p) for p in through(season({}), {}, HEADER, *rows, only=only, without=["2"]).problems]

    assert told(X=["live", "pen"]) == []
    assert told(X=["Bullpen", "Liv"]) == [
        'map.yml:1: only.X[1]: no row has "Bullpen" in "X"; there are "Live", "Pen"; did you mean "Pen"?',
        'map.yml:1: only.X[2]: no row has "Liv" in "X"; there are "Live", "Pen"; did you mean "Live"?',
    ]
    assert told(X=["Live"], Y=["Sat"]) == [
        "map.yml:1: only: no row has all of this together; say what the wanted rows have, or take it out"
    ]


def test_problems_are_bounded(season: ReadSeason) -> None:
    found = through(season({}), {"speed_mph": "X"}, HEADER, *[["Ada", "0", "0", "FB", f"v{n}"] for n in range(3_000)])
    assert found.bad_rows == 3_000
    assert len(found.problems) == 1_000


def test_names_without_a_roster_are_listed_once(season: ReadSeason) -> None:
    found = through(season({}), {}, HEADER, *[["Ada", "0", "0", "FB"]] * 3)
    assert [str(one_) for one_ in found.unmatched] == [
        'a.csv:2: pitcher: "Ada" is on no roster (3 rows); it is kept as it is'
    ]


def test_a_header_with_signs_that_no_screen_shows() -> None:
    assert shown("pitch", {"pitch": "a\x1b[2J"}) == "pitch (from a?[2J)"
    assert shown("pitch", {"pitch": "pitch"}) == "pitch"


def test_a_formula_that_was_never_worked_out_is_told_where_its_column_is_used(season: ReadSeason) -> None:
    row = ["Ada", "0", "0", "FB", UNSAVED]
    found = through(season({}), {"speed_mph": "X"}, HEADER, row)
    assert "formula without a saved value" in str(found.problems[0])
    assert through(season({}), {"speed_mph": "Y"}, HEADER, row).problems == []


def test_a_short_word_of_theirs_is_never_taken_for_one_of_ours(season: ReadSeason) -> None:
    here = season({})
    found = through(here, {"result": "X"}, HEADER, ["Ada", "0", "0", "FB", "P"])
    [problem] = found.problems
    assert str(problem).startswith(
        'a.csv:2: result (from X): "P" is a word of theirs; name it under values: with ball,'
    )
    assert one(here, {"from": "X", "values": {"P": "in_play"}}, "p", column="result") == "in_play"
    assert one(here, "X", "Ball", column="result") == "Ball"


def test_a_row_of_totals_is_told_as_that(season: ReadSeason) -> None:
    found = through(
        season({}), {"speed_mph": "X"}, HEADER, ["Total:", "", "", "68", "n/a"], ["Ada", "0", "0", "FB", "q"]
    )
    assert [str(problem) for problem in found.problems] == [
        'a.csv:2: looks like a row of totals; if it is, leave it out with without: ["a.csv:2"] in the map',
        f'a.csv:2: speed_mph (from X): "n/a" is not a number; {MEND}',
        f'a.csv:3: speed_mph (from X): "q" is not a number; {MEND}',
    ]
    assert [half.line for half in found.halves] == [3]


def test_a_word_where_a_whole_number_stands_is_told_its_span_and_where_to_put_it(season: ReadSeason) -> None:
    found = through(season({}), {"fielder": "X"}, HEADER, ["Ada", "0", "0", "FB", "SS"], ["Ada", "0", "0", "FB", "5/"])
    assert [str(problem) for problem in found.problems] == [
        (
            'a.csv:2: fielder (from X): "SS" is not a number; fielder is one from 1 to 9; name the word under values: '
            "in the map with what it means"
        ),
        f'a.csv:3: fielder (from X): "5/" is not a number; {MEND}',
    ]
    assert one(season({}), {"from": "X", "values": {"SS": "6"}}, "ss", column="fielder") == "6"
