"""A foreign row is told all that is wrong with its cells at once, not one round after the other."""

from collections.abc import Callable, Iterator

from scoutgen.records.import_bad_rows import other_problems
from scoutgen.records.import_file import Line, Sheet
from scoutgen.records.import_map import ImportMap
from scoutgen.records.import_names import Names
from scoutgen.records.import_rows import Imported, imported_rows
from scoutgen.records.season import Season
from scoutgen.records.vocabulary import Names as Words
from scoutgen.records.yamlrecord import YamlSource

HEADER = ["P", "B", "S", "Type", "Velo", "Inn"]
COLUMNS = {"game": {"constant": "g1"}, "pitcher": "P", "balls": "B", "strikes": "S", "pitch": "Type"}
MAP = ImportMap.model_validate({"table": "pitches", "columns": COLUMNS | {"speed_mph": "Velo", "inning": "Inn"}})
WORDS = {"pitches": Words.of("pitch", {"fastball": ("fb",)}, "content/program.yml")}
ReadSeason = Callable[..., Season]


def through(season: Season, *rows: list[str]) -> Imported:
    def lines() -> Iterator[Line]:
        yield from enumerate([HEADER, *rows], 1)

    return imported_rows([Sheet("a.csv", lines())], MAP, YamlSource("map.yml", {(): 1}), Names(season, frozenset()))


def told(season: Season, *rows: list[str]) -> list[str]:
    return [str(problem) for problem in other_problems(MAP, through(season, *rows), WORDS)]


def test_the_other_cells_of_a_row_with_a_wrong_one_are_looked_at(season: ReadSeason) -> None:
    assert told(season({}), ["Ada", "5", "0", "fb", "fast", "99"], ["", "5", "0", "FB", "quick", "1"]) == [
        (
            'a.csv:2: inning (from Inn): "99" is too large; allowed are 1 to 40; leave the cell blank if it was not '
            "charted"
        ),
        "a.csv:3: pitcher (from P): is blank and must be filled in",
        'a.csv:2: balls (from B): "5" is too large; allowed are 0 to 3',
        'a.csv:3: balls (from B): "5" is too large; allowed are 0 to 3',
    ]


def test_words_of_the_project_are_known_and_theirs_are_shown(season: ReadSeason) -> None:
    [said] = told(season({}), ["Ada", "0", "0", "splitfinger", "fast", ""])
    assert said.startswith('a.csv:2: pitch (from Type): "splitfinger" is not')
    assert told(season({}), ["Ada", "0", "0", "fastball", "fast", ""]) == []


def test_a_row_without_a_wrong_cell_is_left_to_the_project_s_reader(season: ReadSeason) -> None:
    assert told(season({}), ["Ada", "5", "0", "FB", "91", ""]) == []
    [half] = through(season({}), ["Ada", "0", "0", "FB", "fast", ""]).halves
    assert half.cells.keys() == COLUMNS.keys() | {"inning"}
