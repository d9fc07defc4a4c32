"""Tables come back from bytes the same to the last bit, whatever measures put in them."""

from contextlib import suppress

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.findings import Findings
from scoutgen.pages.table_bytes import from_bytes, to_bytes, to_bytes_by_team


def same(one: pd.DataFrame, other: pd.DataFrame) -> None:
    pd.testing.assert_frame_equal(one, other, check_exact=True)
    assert [*one.dtypes] == [*other.dtypes]


def test_all_that_was_found_in_the_demo_comes_back(demo_findings: Findings) -> None:
    tables = {name: table.frame for name, table in demo_findings.tables.items()}
    back = from_bytes(to_bytes(tables))
    assert list(back) == list(tables)
    for name, table in tables.items():
        same(table, back[name])


def test_what_is_missing_stays_missing_in_every_kind_of_column() -> None:
    odd = pd.DataFrame(
        {
            "text": pd.array(["a\n", None, "ü", ""], dtype="str"),
            "word": pd.Categorical(["L", None, "R", "L"], categories=["R", "L", "never"], ordered=True),
            "number": pd.Categorical([3, None, 1, 3], categories=[1, 2, 3]),
            "whole": pd.array([1, None, -3, 2**40], dtype="Int64"),
            "small": pd.array([1, None, -3, 4], dtype="Int16"),
            "yes": pd.array([True, None, False, True], dtype="boolean"),
            "day": pd.to_datetime(["2026-04-09", None, "1999-12-31", "2026-01-01"]).astype("datetime64[s]"),
            "share": [0.1, np.nan, -0.0, np.inf],
            "flag": [True, False, True, True],
            "plain": pd.Series(["a", None, 3, 0.5], dtype="object"),
        }
    )
    same(odd, from_bytes(to_bytes({"odd": odd}))["odd"])
    same(odd.iloc[:0], from_bytes(to_bytes({"odd": odd.iloc[:0]}))["odd"])


@given(
    st.lists(
        st.tuples(st.text(max_size=5) | st.none(), st.floats(), st.integers(-(2**62), 2**62) | st.none()), max_size=20
    )
)
def test_any_text_and_any_number_come_back(rows: list[tuple[str | None, float, int | None]]) -> None:
    texts, shares, numbers = ([row[at] for row in rows] for at in range(3))
    frame = pd.DataFrame(
        {
            "text": pd.array(texts, dtype="str"),
            "share": np.array(shares, dtype=float),
            "number": pd.array(numbers, dtype="Int64"),
        }
    )
    same(frame, from_bytes(to_bytes({"a": frame, "b": frame}))["b"])


def test_what_comes_back_can_be_written_to() -> None:
    back = from_bytes(to_bytes({"a": pd.DataFrame({"n": [1, 2]})}))["a"]
    back.loc[0, "n"] = 5
    assert list(back["n"]) == [5, 2]


def test_a_column_of_another_kind_is_not_kept_for_something_else() -> None:
    with pytest.raises(TypeError, match="n: object is no kind of column that can be kept"):
        to_bytes({"a": pd.DataFrame({"n": pd.Series([object()], dtype="object")})})


def test_a_team_is_written_as_if_there_were_no_other(demo_findings: Findings) -> None:
    tables = {name: table.frame for name, table in demo_findings.tables.items()}
    written = dict(to_bytes_by_team(tables, ["harbor", "nobody"]))
    assert list(written) == ["harbor", "nobody"]
    for team, content in written.items():
        alone = {name: frame[frame["team"].eq(team)].reset_index(drop=True) for name, frame in tables.items()}
        for name, frame in list(alone.items()):
            for column in frame.columns[frame.dtypes == "category"]:
                frame[column] = frame[column].cat.remove_unused_categories()
            # Measured alone a measure without rows may not know of what kind its columns are.
            alone[name] = frame if len(frame) else frame.astype(object)
            same(alone[name], from_bytes(content)[name])
        assert content == to_bytes(alone)
    assert len(written["harbor"]) > 100_000


def odd() -> pd.DataFrame:
    """A table with a column of every kind."""
    return pd.DataFrame(
        {
            "team": pd.array(["a", "b", "a"], dtype="str"),
            "word": pd.Categorical(["L", None, "R"]),
            "whole": pd.array([1, None, 3], dtype="Int16"),
            "yes": pd.array([True, None, False], dtype="boolean"),
            "day": pd.to_datetime(["2026-04-09", None, "1999-12-31"]).astype("datetime64[s]"),
            "share": [0.1, np.nan, 1],
            "plain": pd.Series(["a", None, 3], dtype="object"),
        }
    )


@given(st.integers(0, 2000), st.binary(min_size=1, max_size=8), st.booleans())
def test_what_is_damaged_is_refused_or_still_makes_tables(at: int, noise: bytes, insert: bool) -> None:
    whole = to_bytes({"a": odd(), "b": odd().iloc[:0]})
    at %= len(whole)
    damaged = whole[:at] + noise + whole[at + (0 if insert else len(noise)) :]
    with suppress(ValueError):
        for table in from_bytes(damaged).values():
            assert isinstance(table, pd.DataFrame)


@pytest.mark.parametrize(
    ("part", "wrong"),
    [
        (b'"rows": 3', b'"rows": 1000000000'), (b'"rows": 3', b'"rows": -1'), (b'"rows": 3', b'"rows": true'),
        (b'"<f8"', b'"|O"'), (b'"<f8"', b'"nonsense"'), (b'"of": "numbers"', b'"of": "secrets"'),
        (b'"texts": ["a", "b"]', b'"texts": ["a"]'), (b'"texts": ["a", "b"]', b'"texts": [1, 2]'),
        (b'["L", "R"]', b'["L", "L"]'), (b'"ordered": false', b'"ordered": 3'),
        (b'"kind": "Int16"', b'"kind": "Int32"'), (b'"kind": "Int16"', b'"kind": "Int17"'),
        (b'["a", null, 3]', b'["a", null]'), (b'["a", null, 3]', b'["a", null, [3]]'), (b'"at": 0', b'"at": -1'),
        (b'{"a"', b'["a"'), (b'"number": 2', b'"number": 1'),
    ],
)  # fmt: skip
def test_a_head_that_says_something_else_is_refused(part: bytes, wrong: bytes) -> None:
    whole = to_bytes({"a": odd()})
    assert part in whole
    with pytest.raises(ValueError):  # noqa: PT011 - numpy has words of its own for some
        from_bytes(whole.replace(part, wrong, 1))
