"""What columns tell side by side."""

from scoutgen.records.check import field_checks
from scoutgen.records.import_columns import column_of
from scoutgen.records.import_entries import Known
from scoutgen.records.import_map import RECORDS
from scoutgen.records.import_together import several_for_one
from scoutgen.records.vocabulary import PITCHES

KNOWN = Known({"pitches": PITCHES})


def lines(table: str, **cells: tuple[str, ...]) -> dict[str, str]:
    """The first line of each entry, by column of ours."""
    columns = [column_of(header.replace("_", " "), some) for header, some in cells.items()]
    found, _ = several_for_one(columns, field_checks(RECORDS[table]), KNOWN)
    return {name: one.lines[0].strip() for name, one in found.items()}


def test_the_column_called_count_goes_before_others_that_could_be_one() -> None:
    here = lines("pitches", Score=("0-0", "1-0"), Count=("0-0", "1-2", "2-2", "3-2", "Total"))
    assert here["balls"] == 'balls: {from: Count, split: "-", part: 1}'
    assert here["strikes"] == 'strikes: {from: Count, split: "-", part: 2}'
    here = lines("pitches", Xx=("0-0", "1-2", "2-2", "3-2", "Total"), Yy=("0-0", "1-0"))
    assert here["balls"] == 'balls: {from: Yy, split: "-", part: 1}'


def test_a_header_that_means_something_else_is_no_count() -> None:
    assert lines("times", Time=("1.2", "1.1")) == {}
    assert lines("pitches", Score=("0-0",), Balls=("0",), Strikes=("0",)) == {}


def test_letters_for_balls_and_strikes_need_both() -> None:
    assert lines("pitches", B=("0", "3"), S=("2",)) == {"balls": 'balls: "B"', "strikes": 'strikes: "S"'}
    assert lines("pitches", B=("Bo",), S=("2",)) == {}


def test_the_man_timed_is_who_the_measure_is_about() -> None:
    here = lines("times", Batter=("Bo",), Pitcher=("Ada",), Home_to_1st=("4.3", "4.2"))
    assert here == {
        "measure": "measure: {constant: home_first}  # as the header Home to 1st says",
        "seconds": "seconds: Home to 1st",
        "player": "player: Batter",
    }
    assert lines("times", Batter=("Bo",), Pitcher=("Ada",), To_plate=("1,3",))["player"] == "player: Pitcher"
    # A column of the man himself, or of several measures, goes before.
    assert "player" not in lines("times", Player=("Ada",), Pitcher=("Bo",), To_plate=("1,3",))
    assert lines("times", What=("plate",), To_plate=("1,3",)) == {}
    # A chart of pitches has no place for it.
    assert lines("pitches", Pitcher=("Ada",), To_plate=("1,3",)) == {}
