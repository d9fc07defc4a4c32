"""The numbers of an edition in a folder, and nothing of what it leaves out."""

import csv
import io
import json
import os
from pathlib import Path

import pytest
from click.testing import CliRunner

from scoutgen.cli import main
from scoutgen.pages.facts import LISTS, TEAM_LISTS
from scoutgen.site.edition_book import read_book
from scoutgen.site.export import MARKER, export_facts
from scoutgen.site.output import OutputError

DAY = "2026-04-09"
FILES = {
    "content/program.yml": "key: ridge\nname: Kestrel Ridge\n",
    "content/opponents/harbor/team.yml": (
        "name: Gannet Harbor\nroster:\n  - {number: 27, name: Iker Nunez, positions: [P]}\n"
    ),
    "content/opponents/harbor/players/iker-nunez.yml": (
        "grades: {seen: 2026-03-06, source: video, by: AJR, body: Plantedbody, tools: {fastball: 55}}\n"
    ),
    "data/games.csv": "game,date,away,home,source\ng1,2026-03-06,ridge,harbor,video\n",
    "data/pitches.csv": "game,inning,half,pitcher,batter,bats,balls,strikes,pitch,note\n"
    + "g1,1,top,27,Bo,R,0,0,FB,Plantednote\n" * 2
    + "g1,1,top,27,Cy,L,0,0,SL,\n",
    "data/times.csv": "game,player,measure,style,seconds,method\ng1,27,plate,stretch,1.32,watch\n",
    "data/holds.csv": "game,pitcher,bases,then,looks\ng1,27,1,pitch,2\n",
}


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("small")
    for name, text in FILES.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text)
    return root


def all_of(folder: Path) -> str:
    return "".join(path.read_text() for path in sorted(folder.iterdir()))


def test_every_number_of_the_facts_is_there(small: Path, tmp_path: Path) -> None:
    done = export_facts(small, tmp_path / "out", as_of=DAY)
    names = {path.stem for path in done.files}
    assert {"usage", "times", "holds", "grades", "measured"} <= names
    assert names <= {*LISTS, *TEAM_LISTS, "grades", "measured"}
    book = read_book(small, as_of=DAY, edition="staff", skip_bad_rows=False, of_teams=True).book
    men = [json.loads(text) for text in book.facts.values()]
    written = sum(len(man.get(name, ())) for man in men for name in (*LISTS, *TEAM_LISTS, "measured"))
    written += sum(man.get("grades") is not None for man in men)
    read = sum(len(list(csv.DictReader(io.StringIO(path.read_text(), newline="")))) for path in done.files)
    assert written == read == done.rows > 20


def test_an_edition_has_its_own_numbers_alone(small: Path, tmp_path: Path) -> None:
    for edition in ("staff", "players", "recruiting"):
        export_facts(small, tmp_path / edition, as_of=DAY, edition=edition)
    assert {path.name for path in (tmp_path / "recruiting").iterdir()} == {MARKER, "grades.csv", "measured.csv"}
    assert "Plantedbody" in all_of(tmp_path / "recruiting")
    assert "Plantedbody" in all_of(tmp_path / "staff")
    assert "Plantedbody" not in all_of(tmp_path / "players")
    assert not (tmp_path / "players" / "grades.csv").exists()
    for edition in ("staff", "players"):
        assert "Plantednote" not in all_of(tmp_path / edition)


def test_another_edition_in_the_same_folder_leaves_nothing_of_the_first(small: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    export_facts(small, out, as_of=DAY)
    export_facts(small, out, as_of=DAY, edition="recruiting")
    assert {path.name for path in out.iterdir()} == {MARKER, "grades.csv", "measured.csv"}


def test_a_folder_of_somebody_s_own_is_left_alone(small: Path, tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("x")
    for out in (tmp_path, small, small / "data" / "x"):
        with pytest.raises(OutputError):
            export_facts(small, out, as_of=DAY)
    assert (tmp_path / "mine.txt").read_text() == "x"


def test_a_list_of_files_that_was_tampered_with_deletes_nothing_elsewhere(small: Path, tmp_path: Path) -> None:
    out, mine = tmp_path / "out", tmp_path / "mine.csv"
    export_facts(small, out, as_of=DAY)
    mine.write_text("x")
    (out / MARKER).write_text(json.dumps({"files": ["../mine.csv", str(mine), 7]}))
    export_facts(small, out, as_of=DAY)
    assert mine.read_text() == "x"


def test_the_command_says_what_it_wrote(small: Path, tmp_path: Path) -> None:
    ran = CliRunner().invoke(main, ["export", "--project", str(small), "--out", str(tmp_path / "o"), "--as-of", DAY])
    assert ran.exit_code == 0, ran.output
    assert f"wrote {tmp_path / 'o' / 'usage.csv'}" in ran.output
    assert ran.output.splitlines()[-1].startswith("Staff edition: ")
    wrong = CliRunner().invoke(
        main, ["export", "--project", str(small), "--out", str(tmp_path / "o"), "--edition", "x"]
    )
    assert wrong.exit_code == 2


def test_a_first_map_says_which_words_need_somebody(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    file = tmp_path / "night.csv"
    file.write_text("P,Count,Type,Call\nA,0-0,Hook,L\nA,0-0,FB,S\nA,0-0,FB,X\n")
    ran = CliRunner().invoke(main, ["import", str(file), "--project", str(tmp_path), "--guess"])
    assert ran.output.splitlines()[1:3] == [
        "4 columns recognised, 0 not",
        "4 words in 2 columns need you: Hook; L, S, X",
    ]
    (tmp_path / "night-map.yml").unlink()
    file.write_text("P,Count,Type\nA,0-0,Hook\x1b\n" + "".join(f"A,0-0,h{n}\n" for n in range(9)))
    ran = CliRunner().invoke(main, ["import", str(file), "--project", str(tmp_path), "--guess"])
    assert "10 words in 1 column need you: Hook?, h0, h1, h2, h3, h4, h5, h6 and 2 more" in ran.output


def test_a_pipe_is_refused_before_it_is_opened(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    os.mkfifo(tmp_path / "night.csv")
    for words in (["--guess"], ["--with", str(tmp_path / "x.yml")]):
        ran = CliRunner().invoke(main, ["import", str(tmp_path / "night.csv"), "--project", str(tmp_path), *words])
        assert ran.exit_code == 2
        assert ran.output == (
            f"scoutgen: {tmp_path / 'night.csv'}: is a pipe, a folder or a device; save what it gives as a file, "
            "and name that\n"
        )


def test_the_import_command_from_guess_to_rows(tmp_path: Path) -> None:
    for name, text in FILES.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text)
    file = tmp_path / "night.csv"
    file.write_text('Date,Inn,T/B,P,Hitter,Count,Type,Velo,Call\n2026-03-06,2,T,"Nunez, I.",Di,0-0,FB,91,whiff\n')

    def run(*words: str) -> tuple[int, str]:
        ran = CliRunner().invoke(main, ["import", str(file), "--project", str(tmp_path), *words])
        return ran.exit_code, ran.output

    code, said = run("--guess")
    assert code == 0, said
    assert "9 columns recognised, 0 not" in said
    assert run("--guess")[0] == 1
    code, said = run("--with", str(tmp_path / "night-map.yml"))
    assert code == 0, said
    assert "wrote data/pitches/night-import.csv (1 row)" in said
    assert "the project: 0 errors" in said
    assert "nothing new" in run("--with", str(tmp_path / "night-map.yml"))[1]
    assert "iker-nunez" in (tmp_path / "data/pitches/night-import.csv").read_text()
    for words in ((), ("--guess", "--with", "x.yml")):
        assert run(*words)[0] == 2
    assert run("--with", str(tmp_path / "none.yml"))[0] == 1
    file.write_text(
        file.read_text() + '2026-03-06,2,T,"Nunez, I.",Di,4-0,FB,91,whiff\n2026-03-06,2,T,Smith,Di,0-1,FB,91,ball\n'
    )
    code, said = run("--with", str(tmp_path / "night-map.yml"))
    assert code == 1
    assert 'night.csv:3: balls (from Count): "4" is too large' in said or "night.csv:4" in said
    code, said = run("--with", str(tmp_path / "night-map.yml"), "--skip-bad-rows")
    assert "nothing new; 2 rows with errors left out" in said
    head, row, *_ = file.read_text().splitlines()
    file.write_text(f"{head}\n{row.replace(',91,', ',92,')}\n{row.replace('0-0', '0-1')}\n")
    code, said = run("--with", str(tmp_path / "night-map.yml"))
    assert "1 row of the import before is gone, mended, or charted elsewhere by now: night.csv:2\n" in said
    assert "wrote data/pitches/night-import.csv (2 rows)" in said
