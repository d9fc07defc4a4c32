"""Whatever stands in the files, reading them raises nothing but the error that lists the problems.

The last test reads the first files of `tests/bench/fuzz_readers.py`, which goes on from there for as long as it is let.
"""

from collections.abc import Iterable
from datetime import date
from pathlib import Path

import pytest
from fuzzing import Readers, kind_of
from hypothesis import given
from hypothesis import strategies as st
from properties import few

from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.records.season import TABLES, read_season

GOOD = {
    "games": "game,date,away,home,source\ng1,2026-03-06,harbor,ridge,video\ng2,2026-03-07,,ridge,second_hand\n",
    "pitches": "game,inning,half,outs,bases,lead,pitcher,batter,catcher,bats,balls,strikes,pitch,speed_mph,height,side,"
    'result,play,note\ng1,1,top,0,-,0,Ada,Bo,Cy,L,0,0,FB,91,2,2,ball,,"a, ""b""\nc"\n'
    "g2,1,,1,1-3,0,Ada,Bo,,R,3,2,SL,,,,ball,walk,\n",
    "times": "game,player,measure,seconds,method\ng1,Ada,plate,1.3,watch\n",
    "holds": "game,pitcher,bases,then,looks\ng1,Ada,1,pickoff_1,2\n",
    "throws": "game,catcher,runner,to,pop_seconds\ng1,Cy,Bo,2,2.0\n",
    "habits": "game,team,player,habit,seen\ng1,ridge,Cy,lobs-return,yes\n",
    "positions": "game,team,position,player,depth_ft\ng1,ridge,6,Di,140\n",
}
SNIPPETS = [
    b'"',
    b",",
    b"\n",
    b"\r",
    b"\r\n",
    b"\0",
    b"\xff",
    b"\xef\xbb\xbf",
    b";",
    b"\t",
    b"nan",
    b"inf",
    b"-1",
    b"1e309",
    b"9" * 30,
    b"",
    "١".encode(),
    "é".encode(),
    b"g1",
    b"#27",
    b"unlisted",
    b"x_",
    b"=1+1",
    "\u202e".encode(),
    "\U0001f600".encode(),
    b"<b>",
    b"''",
]


def read_both_ways(root: Path, tables: Iterable[tuple[str, bytes]]) -> None:
    for table in TABLES:
        (root / "data").mkdir(exist_ok=True)
        (root / "data" / f"{table}.csv").unlink(missing_ok=True)
    for table, content in tables:
        (root / "data" / f"{table}.csv").write_bytes(content)
    problems: tuple[Problem, ...] = ()
    try:
        read_season(root, as_of=date(2026, 4, 1))
    except ProblemsFoundError as error:
        problems = error.problems
    assert all(str(problem).isprintable() for problem in problems)
    assert all(len(str(problem)) < 2_000 for problem in problems)
    # Nothing is wrong in content/, so that the rows that are good can always be read.
    read = read_season(root, as_of=date(2026, 4, 1), skip_bad_rows=True)
    assert list(read.skipped) == [problem for problem in problems if problem.severity == "error"]
    for table in TABLES:
        assert not getattr(read, table)["game"].isna().any()


@few(20)
@given(table=st.sampled_from(TABLES), content=st.binary(max_size=300))
def test_any_bytes(tmp_path: Path, table: str, content: bytes) -> None:
    read_both_ways(tmp_path, [(table, content)])


@few(20)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(TABLES), st.integers(0, 10_000), st.integers(0, 6), st.sampled_from(SNIPPETS), st.booleans()
        ),
        max_size=6,
    )
)
def test_any_slip_in_good_files(tmp_path: Path, slips: list[tuple[str, int, int, bytes, bool]]) -> None:
    contents = {table: text.encode() for table, text in GOOD.items()}
    for table, at, cut, snippet, drop in slips:
        place = at % (len(contents[table]) + 1)
        contents[table] = contents[table][:place] + snippet + contents[table][place + cut :]
        if drop:
            contents.pop(table)
            contents[table] = b"game\n"
    read_both_ways(tmp_path, contents.items())


def test_the_first_of_the_mutated_files_are_read_or_refused(tmp_path: Path) -> None:
    readers = Readers(tmp_path)
    came = set()
    for number in range(120):
        name, chance = kind_of(number, seed=1, kinds=list(readers.kinds))
        try:
            came.add(readers.try_one(name, readers.drawn(name, chance), chance).kind)
        except Exception as error:  # noqa: BLE001 - whatever it is, it is the failure looked for
            pytest.fail(f"python tests/bench/fuzz_readers.py --first {number} --count 1 --keep FOLDER: {error!r}")
    assert came == {"read", "refused"}
