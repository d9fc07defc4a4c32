"""A game charted in one file or over several, by whoever and in whatever order of files, reads as the same game."""

from pathlib import Path
from random import Random

import pandas as pd
import pytest
from fuzzing import DEMO_DAY, copy_demo, sample_rows
from hypothesis import given
from hypothesis import strategies as st
from properties import few

from scoutgen.records.season import TABLES, Season, read_season

CHARTED = [table for table in TABLES if table != "games"]


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("split")
    copy_demo(root, "program.yml", "habits.yml", "opponents/harbor/team.yml")
    return root


def read(root: Path, files: dict[str, list[bytes]]) -> Season:
    """The project with these tables alone, each in as many files as there are pieces."""
    for table in CHARTED:
        folder = root / "data" / table
        folder.mkdir(exist_ok=True)
        for old in folder.iterdir():
            old.unlink()
        for number, content in enumerate(files.get(table, [])):
            (folder / f"{number}.csv").write_bytes(content)
    return read_season(root, as_of=DEMO_DAY)


def rows_of(season: Season, table: str) -> pd.DataFrame:
    return getattr(season, table).drop(columns=["file", "line"])


@few(3)
@given(chance=st.integers(0, 10_000).map(Random))
def test_a_game_cut_into_files_reads_as_in_one(project: Path, chance: Random) -> None:
    whole, cut = {}, {}
    for table in CHARTED:
        header, *lines = sample_rows(table).splitlines(keepends=True)
        places = sorted(chance.sample(range(len(lines) + 1), chance.choice((1, 2, 3))))
        whole[table] = [header + b"".join(lines)]
        cut[table] = [
            header + b"".join(lines[begin:end]) for begin, end in zip([0, *places], [*places, len(lines)], strict=True)
        ]
    one, several = read(project, whole), read(project, cut)
    for table in CHARTED:
        assert len(rows_of(one, table)) == sample_rows(table).count(b"\n") - 1
        pd.testing.assert_frame_equal(rows_of(several, table), rows_of(one, table))
    assert several.teams == one.teams


@few(3)
@given(chance=st.integers(0, 10_000).map(Random))
def test_columns_in_any_order_and_rows_of_looks_in_any_order_say_the_same(project: Path, chance: Random) -> None:
    straight, mixed = {}, {}
    # Pitches stand in the order thrown; looks, times and throws are each a row of their own.
    for table in CHARTED:
        header, *rows = [line.split(",") for line in sample_rows(table).decode().splitlines()]
        straight[table] = [sample_rows(table)]
        if table != "pitches":
            chance.shuffle(rows)
        order = chance.sample(range(len(header)), len(header))
        mixed[table] = ["\n".join(",".join(row[place] for place in order) for row in [header, *rows]).encode()]
    one, other = read(project, straight), read(project, mixed)
    for table in CHARTED:
        here, there = (
            rows_of(season, table).astype("object").fillna("").astype("str").sort_values(by=list(rows_of(one, table)))
            for season in (one, other)
        )
        assert here.to_numpy().tolist() == there.to_numpy().tolist()
