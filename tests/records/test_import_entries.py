"""One column of a first map, and what of it is left to a person."""

import yaml

from scoutgen.records.check import field_checks
from scoutgen.records.import_columns import column_of
from scoutgen.records.import_entries import MOST_WORDS, Entry, Known, entry, how, in_yaml, misfits, of_bases
from scoutgen.records.import_map import RECORDS
from scoutgen.records.vocabulary import PITCHES

KNOWN = Known({"pitches": PITCHES})


def made(name: str, header: str, *cells: str, table: str = "pitches") -> Entry:
    return entry(name, column_of(header, cells), field_checks(RECORDS[table])[name], KNOWN)


def test_a_number_that_can_be_read_in_one_way_needs_no_word() -> None:
    assert made("distance_ft", "Dist", "130,5", "30.5") == Entry(("  distance_ft: Dist",))


def test_a_number_that_can_be_read_in_two_ways_is_left_to_a_person() -> None:
    here = made("distance_ft", "Dist (m)", "1,320", "-")
    assert here.open == ("1,320",)
    assert here.lines == (
        (
            '  distance_ft: {from: "Dist (m)", unit: m, blank: ["-"]}  # "1,320" can be read in two ways: '
            "add decimal: comma for one and a bit here, point for thousands"
        ),
    )
    here = made("lead", "Diff", "1,320", "2,5")
    assert here.open == ("1,320",)
    assert here.lines == (
        (
            "  lead: {from: Diff, decimal: comma}  # runs of the pitching side minus the others; see whose theirs is; "
            '"1,320" can be read in two ways, and the other cells have a comma: see that it is right'
        ),
    )


def test_cells_that_are_no_number_are_listed_with_their_rows() -> None:
    lines = {"91": ["a:2"] * 20, "fast": ["a:9"], "300": ["a:7", "a:9"]}
    here = entry(
        "speed_mph", column_of("Velo mph", tuple(lines), lines), field_checks(RECORDS["pitches"])["speed_mph"], KNOWN
    )
    assert here.open == ("fast", "300")
    assert here.lines == (
        "  speed_mph: Velo mph",
        '  # not a number from 40 to 110: fast, "300"',
        (
            "  #   say what they mean under values:, or name them under blank: [...]; or mend the file, or leave their "
            'rows out, all in one list above columns: without: ["a:9", "a:7"]'
        ),
    )
    here = made("inning", "Inn", *(f"r{n}" for n in range(MOST_WORDS + 3)))
    assert here.lines[1].endswith(", r58, r59 and 3 more")
    many = {"x": [f"a:{n}" for n in range(20)]}
    told = misfits(column_of("Inn", ("x",), many), ["x"], "not one")
    assert told[1].endswith('"a:11"] and 8 more')
    assert misfits(column_of("Inn", ("x",)), [], "not one") == ()


def test_what_to_write_for_a_column_that_nothing_tells() -> None:
    def said(table: str, name: str) -> str:
        return how(name, field_checks(RECORDS[table])[name])

    assert said("games", "date").startswith("write date: {from: HEADER, date: FORM}, FORM as year-month-day, ")
    assert said("throws", "to") == "write to: HEADER, or to: {constant: WORD}, WORD as 1, 2, 3, home"
    assert said("times", "player") == "write player: HEADER, or player: {constant: ...}"


def test_a_number_with_a_point_is_no_word_of_theirs() -> None:
    assert made("position", "Pos", "5.0", "6", "SS", table="positions").open == ()


def test_words_nobody_can_guess_are_listed_with_what_they_can_be() -> None:
    here = made("warmup", "W", "y", "maybe", table="times")
    assert here.open == ("maybe",)
    assert "    # write these under values:, each as one of yes, no; or under blank: [...]" in here.lines
    here = made("pitch", "Type", *(f"word {n}" for n in range(MOST_WORDS + 3)))
    assert len(here.open) == MOST_WORDS + 3
    assert here.lines[-1] == "    #   and 3 more"
    here = entry("habit", column_of("Tell", ("lob",)), field_checks(RECORDS["habits"])["habit"], Known({}))
    assert here.open == ()


def test_a_column_for_each_base_names_the_cells_that_do_not_say() -> None:
    three = [column_of(name, cells) for name, cells in (("1st", ("x", "?")), ("2nd", ("-",)), ("3rd", ("u", "?")))]
    here = of_bases(three)
    assert here.open == ("?", "u")
    assert here.lines == (
        (
            '  bases: {from: ["1st", "2nd", "3rd"], bases: columns}'
            '  # name under values: as x or -, or under blank: [...]: "?", "u"'
        ),
    )
    assert of_bases(three[1:2] * 3).open == ()


def test_any_text_is_read_back_as_it_is() -> None:
    for text in ("yes", 'a"b\\c', "\u202eabc", "1:30", "a\tb", "FB"):
        assert yaml.safe_load(in_yaml(text)) == text
