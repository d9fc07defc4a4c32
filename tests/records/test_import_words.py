"""The words of the trade lead to columns and words that there are."""

from scoutgen.records.check import field_checks
from scoutgen.records.import_columns import folded
from scoutgen.records.import_map import RECORDS
from scoutgen.records.import_words import COUNT, HEADERS, TELLING, TIMED, TIMED_MAN, VALUES
from scoutgen.records.vocabulary import PITCHES

COLUMNS = {name for record in RECORDS.values() for name in record.model_fields}


def test_words_stand_as_they_are_compared() -> None:
    words = [word for some in (*HEADERS.values(), *TIMED.values(), COUNT) for word in some]
    words += [word for some in VALUES.values() for word in some]
    assert [word for word in words if folded(word) != word] == []


def test_every_column_named_is_one() -> None:
    assert set(HEADERS) | set(VALUES) <= COLUMNS
    assert set(TELLING) == set(RECORDS)
    assert set(TIMED) == set(TIMED_MAN)
    assert {name for some in TIMED_MAN.values() for name in some} <= COLUMNS
    assert {name for some in TELLING.values() for name in some} <= COLUMNS | {"count"}


def test_every_word_leads_to_one_that_the_reader_takes() -> None:
    for column, words in VALUES.items():
        table = next(record for record in RECORDS.values() if column in record.model_fields)
        _, wrong = field_checks(table)[column].values(list(words.values()), {"pitches": PITCHES})
        assert not wrong, column


def test_a_header_means_one_column_of_a_table() -> None:
    for record in RECORDS.values():
        words = [word for name in record.model_fields for word in HEADERS.get(name, ())]
        assert [word for word in words if words.count(word) > 1] == []
