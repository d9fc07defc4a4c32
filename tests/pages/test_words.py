"""Every word a chart may hold is said on the page: a missing one would end the build on the day it is charted."""

from collections.abc import Iterable, Mapping
from typing import Any, get_args

import pytest

from scoutgen.measures import counts, holds, levels, sequence, throws
from scoutgen.measures.freshness import SOURCES
from scoutgen.pages import words
from scoutgen.records import vocabulary
from scoutgen.records.habit_kinds import HabitKind
from scoutgen.records.roster import RosterPlayer


def allowed(kind: object) -> set[str]:
    """The words of a Literal, wherever in an annotation it stands."""
    parts = get_args(kind)
    return {part for part in parts if isinstance(part, str)} | {word for part in parts for word in allowed(part)}


CASES: list[tuple[str, Mapping[Any, str], Iterable[Any]]] = [
    ("styles of times", words.STYLE_WORDS, {*allowed(vocabulary.TimeStyle), counts.ALL}),
    ("styles of holds", words.STYLE_WORDS, allowed(vocabulary.HoldStyle)),
    ("measures", words.MEASURE_WORDS, {*allowed(vocabulary.Measure), "pop", "exchange"}),
    ("bases thrown to", words.BASE_WORDS, {*allowed(vocabulary.Target), counts.ALL}),
    ("runners", words.RUNNER_WORDS, levels.BASES),
    ("runners on", words.RUNNER_ON_WORDS, {*allowed(vocabulary.OccupiedBases), counts.ALL}),
    ("moves", words.MOVE_WORDS, holds.MOVES),
    ("accuracies", words.ACCURACY_WORDS, {*allowed(vocabulary.Accuracy), *throws.ACCURACIES}),
    ("sources", words.SOURCE_WORDS, {*allowed(vocabulary.Source), *SOURCES}),
    ("positions", words.POSITION_WORDS, range(1, 10)),
    ("infielders", words.FIELDER_WORDS, range(3, 7)),
    ("groups of counts", words.COUNT_WORDS, counts.COUNT_GROUPS),
    ("bases", words.BASES_WORDS, counts.BASES_SITUATIONS),
    ("times through", words.TIMES_WORDS, counts.TIMES_THROUGH),
    ("later times through", words.CHANGE_WORDS, counts.TIMES_THROUGH[1:]),
    ("pitches before", words.BEFORE_WORDS, sequence.RESULTS),
    ("doors", words.DOOR_WORDS, allowed(HabitKind.model_fields["opens"].annotation)),
    ("sides", words.SIDE_WORDS, counts.SIDES),
    ("hands", words.HAND_WORDS, allowed(RosterPlayer.model_fields["throws"].annotation)),
    ("short hands", words.SHORT_HAND_WORDS, allowed(RosterPlayer.model_fields["throws"].annotation)),
    ("bats", words.BATS_WORDS, allowed(RosterPlayer.model_fields["bats"].annotation)),
]


@pytest.mark.parametrize(("said", "known"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_every_word_that_may_be_charted_is_said(said: Mapping[Any, str], known: Iterable[Any]) -> None:
    assert list(known)
    assert set(known) <= set(said)


@pytest.mark.parametrize(("said", "known"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_two_words_are_never_said_alike(said: Mapping[Any, str], known: Iterable[Any]) -> None:
    del known
    assert len(set(said.values())) == len(said)
