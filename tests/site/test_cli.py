import contextlib
import html
import io
import json
import logging
import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path
from typing import get_args

import pytest
import sample_book
from click.testing import CliRunner, Result

from scoutgen.cli import main
from scoutgen.cli.new import SOURCES
from scoutgen.cli.shared import progress_bars
from scoutgen.pages.book import Book
from scoutgen.records.fields import Source
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.site.output import MARKER, recover, seal

UseBook = Callable[[Book | Exception], None]


def run(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def test_build_says_what_was_built_and_where_to_open_it(project: Path, use_book: UseBook) -> None:
    use_book(sample_book.book())
    ran = run("build", "--project", project, "--as-of", "2026-04-09")
    assert ran.exit_code == 0
    assert ran.stdout.splitlines()[:2] == [
        "Staff edition: 8 pages, 8 charts (4 drawn anew), 0 warnings",
        f"Open {(project / 'site/index.html').as_uri()}",
    ]
    assert ran.stderr == ""


def test_all_editions_go_into_folders_of_their_names_and_each_is_said(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    ran = run("build", "--project", tmp_path, "--as-of", "2026-04-09", "--all")
    assert ran.exit_code == 0, ran.output
    said = ran.stdout.splitlines()
    assert [line.split(":")[0] for line in said[:6:2]] == [
        "Staff edition",
        "Players edition",
        "Recruiting edition",
    ]
    for name, line in zip(("staff", "players", "recruiting"), said[1:6:2], strict=True):
        home = tmp_path / "sites" / name / "index.html"
        assert line == f"Open {home.as_uri()}"
        assert f"{name} edition, as of 2026-04-09" in home.read_text()


def test_another_edition_in_the_same_folder_is_said(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    run("build", "--project", tmp_path, "--as-of", "2026-04-09")
    ran = run("build", "--project", tmp_path, "--as-of", "2026-04-09", "--edition", "players")
    assert ran.stdout.splitlines()[0] == f"{tmp_path / 'site'} held the staff edition; it holds the players edition now"
    assert "held" not in run("build", "--project", tmp_path, "--as-of", "2026-04-09", "--edition", "players").stdout


def test_an_edition_without_cards_prints_none(project: Path) -> None:
    ran = run("cards", "--project", project, "--series", "x", "--edition", "recruiting")
    assert ran.exit_code == 2
    assert "holds no game plan and has no cards" in ran.stderr


def test_every_problem_is_shown_once_and_the_exit_code_is_1(project: Path, use_book: UseBook) -> None:
    use_book(
        ProblemsFoundError(
            [Problem("data/a.csv", 2, "pitch", "is wrong"), Problem("data/a.csv", 9, "", "is odd", "warning")]
        )
    )
    ran = run("build", "--project", project)
    assert ran.exit_code == 1
    assert ran.stderr.splitlines() == [
        "data/a.csv:2: pitch: is wrong",
        "data/a.csv:9: warning: is odd",
        "1 error; nothing was done",
    ]
    assert not (project / "site").exists()


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (["--edition", "players", "--all"], 2, "--all builds every edition; leave --edition out"),
        (["--all", "--out", "old"], 3, "is inside the site"),
        (["--edition", "nobody"], 2, "editions are staff, players, recruiting"),
        (["--out", "thesis"], 3, "not made by scoutgen"),
        (["--out", "."], 3, "over the project itself"),
        (["--out", "file/site"], 3, "is a file, not a folder"),
        (["--out", "content"], 3, "which the project is read from"),
        (["--out", "data/site"], 3, "which the project is read from"),
        (["--out", "/"], 3, "over the project itself"),
        (["--out", ".."], 3, "over the project itself"),
        (["--out", "old/x"], 3, "is inside the site"),
        (["--speed"], 2, "No such option"),
        (["--project", "nowhere"], 2, "does not exist"),
    ],
)
def test_what_cannot_be_done_is_one_clear_line(
    project: Path, use_book: UseBook, monkeypatch: pytest.MonkeyPatch, *, arguments: list[str], code: int, said: str
) -> None:
    use_book(sample_book.book())
    (project / "thesis").mkdir()
    (project / "thesis/chapter.txt").write_text("mine")
    (project / "file").write_text("")
    (project / "old").mkdir()
    seal(project / "old", {})
    monkeypatch.chdir(project)
    ran = run("build", *arguments)
    assert ran.exit_code == code, ran.output
    assert said in ran.stderr
    assert "Traceback" not in ran.output
    assert isinstance(ran.exception, SystemExit)


def test_the_summary_and_the_page_count_rows_left_out_not_faults(tmp_path: Path) -> None:
    folder = tmp_path / "new"
    run("init", folder)
    (folder / "data/games.csv").write_text("game,date,away,home,source\ng1,2026-03-06,harbor,our-team,video\n")
    bad = "g1,A,9,9,FBB\n" * 3
    (folder / "data/pitches.csv").write_text(f"game,pitcher,balls,strikes,pitch\ng1,A,0,0,FB\n{bad}")
    ran = run("build", "--project", folder, "--as-of", "2026-04-09", "--skip-bad-rows")
    assert ran.exit_code == 0, ran.output
    assert "3 rows left out (see Data quality)" in ran.stdout
    page = (folder / ".scoutgen/markdown/data-quality.md").read_text()
    assert "3 rows are in no number of this site" in page


def test_a_banner_of_the_program_is_text_on_every_page(tmp_path: Path) -> None:
    run("init", tmp_path)
    banner = "No {{ phones }} or [box:a] {% tablets %}. <b>Ask [part:us]."
    with (tmp_path / "content/program.yml").open("a") as program:
        program.write(f'policy: {{banner: "{banner}"}}\n')
    assert run("check", "--project", tmp_path).exit_code == 0
    ran = run("build", "--project", tmp_path, "--as-of", "2026-04-09")
    assert ran.exit_code == 0, ran.output
    assert banner in html.unescape((tmp_path / "site/cautions/index.html").read_text())


# Other forms of ISO 8601, and what a shell makes of a variable that is not set.
@pytest.mark.parametrize(
    "day", ["tomorrow", "20260409", "2026-W15-4", "", "2026-4-9", "2026-02-30", "2026-04-09T00:00"]
)
def test_a_date_that_is_none_is_wrong_use_and_what_is_allowed_is_said(project: Path, day: str) -> None:
    place = ["--project", project]
    for arguments in (
        ["build", *place, "--as-of", day],
        ["check", *place, "--as-of", day],
        ["new", "series", "opener", "harbor", day, *place],
        ["new", "series", "opener", "harbor", "2026-04-10", "--end", day, *place],
        ["new", "game", "g", day, "--away", "a", "--home", "b", "--source", "video", "--charted-by", "AJR", *place],
    ):
        ran = run(*arguments)
        assert (ran.exit_code, "write year-month-day, like 2026-04-09" in ran.stderr) == (2, True), ran.output


def test_a_new_game_asks_who_saw_it_how_and_says_what_it_did(tmp_path: Path) -> None:
    folder = tmp_path / "new"
    run("init", folder, "--key", "terns", "--name", "Tern Coast")
    game = ["new", "game", "g1", "2026-04-08", "--away", "terns", "--home", "oakum", "--project", folder]
    for given, missing in (("--charted-by", "'--source'. Choose from"), ("--source", "'--charted-by'")):
        ran = run(*game, given, "video")
        assert ran.exit_code == 2
        assert f"Missing option {missing}" in ran.stderr
    ran = run(*game, "--source", "video", "--charted-by", "AJR")
    assert ran.stdout.splitlines()[0] == f"added a row to {folder / 'data/games.csv'}"
    assert ran.stdout.splitlines()[1] == f"wrote {folder / 'data/pitches/g1.csv'}"
    assert (folder / "data/games.csv").read_text().splitlines()[1] == "g1,2026-04-08,terns,oakum,video,AJR,,"
    assert get_args(Source) == SOURCES


@pytest.mark.parametrize(
    "command",
    [
        "check",
        "build",
        "serve",
        "new team zed Zed",
        "new player zed 27",
        "new series april zed 2026-04-10",
        "new game g1 2026-04-08 --away zed --home us --source video --charted-by AJR",
    ],
)
def test_where_nothing_is_a_command_says_how_to_begin(tmp_path: Path, command: str) -> None:
    ran = run(*command.split(), "--project", tmp_path)
    assert list(tmp_path.iterdir()) == []
    assert ran.exit_code == 1
    assert "there is nothing here: no content/ and no data/; begin with: scoutgen init FOLDER" in ran.stderr
    assert list(tmp_path.iterdir()) == []


def test_an_empty_project_is_made_checked_and_grown(tmp_path: Path) -> None:
    folder = tmp_path / "new"
    assert run("init", folder, "--key", "terns", "--name", "Tern Coast").exit_code == 0
    assert run("check", "--project", folder).exit_code == 0
    assert "team.yml" in run("new", "team", "harbor", "Harbor State", "--project", folder).stdout
    assert run("new", "series", "opener", "harbor", "2026-04-10", "--project", folder).exit_code == 0
    ran = run("new", "player", "harbor", "99", "--project", folder)
    assert (ran.exit_code, "e.g. '  - {number: 99, name: ...}' under roster" in ran.stderr) == (2, True)
    seen = ["--source", "video", "--charted-by", "AJR"]
    ran = run("new", "game", "g1", "2026-04-08", "--away", "harbor", "--home", "harbor", *seen, "--project", folder)
    assert (ran.exit_code, "cannot play itself" in ran.stderr) == (2, True)


def test_an_empty_project_builds_and_survives_being_killed(tmp_path: Path) -> None:
    folder = tmp_path / "new"
    run("init", folder)
    built = run("build", "--project", folder, "--as-of", "2026-04-09")
    assert built.exit_code == 0, built.output
    command = [sys.executable, "-m", "scoutgen", "build", "--project", str(folder), "--as-of", "2026-04-09"]
    site = folder / "site"
    for delay in (0.3, 0.8, 1.3, 1.8, 2.3):
        with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as build:
            time.sleep(delay)
            build.kill()
        recover(site)
        assert (site / "index.html").is_file()
        assert (site / MARKER).is_file()
        # The lock of a dead build binds nobody; the next build takes it.
        left = {p.name for p in folder.iterdir() if p.name.startswith(".site")}
        assert left <= {name for name in left if "lock" in name}
    assert run("build", "--project", folder, "--as-of", "2026-04-09").exit_code == 0
    assert not (folder / ".site.scoutgen-lock").exists()


def test_check_reports_as_text_and_as_json(tmp_path: Path) -> None:
    run("init", tmp_path / "new")
    (tmp_path / "new/data/games.csv").write_text("game,date,away,home,source\ng1,soon,a,b,video\n")
    text = run("check", "--project", tmp_path / "new")
    assert text.exit_code == 1
    assert "data/games.csv:2" in text.stdout
    assert text.stdout.splitlines()[-1].startswith("1 error")
    form = run("check", "--project", tmp_path / "new", "--format", "json")
    assert form.exit_code == 1
    (problem,) = [p for p in json.loads(form.stdout) if p["severity"] == "error"]
    assert problem["file"] == "data/games.csv"
    assert problem["line"] == 2
    assert problem["column"] == "date"


@pytest.mark.parametrize(
    "command", [[], ["build"], ["cards"], ["serve"], ["check"], ["init"], ["new"], ["new", "game"]]
)
def test_help_tells_the_exit_codes_and_loads_nothing_heavy(command: list[str]) -> None:
    code = (
        "import sys; from scoutgen.cli import main\n"
        f"try: main({[*command, '--help']!r})\n"
        "except SystemExit: pass\n"
        "heavy = {'pandas', 'numpy', 'scipy', 'mkdocs', 'altair', 'pydantic', 'yaml', 'zxcvbn'} & set(sys.modules)\n"
        "print('heavy:', sorted(heavy))"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert "heavy: []" in said
    assert "Exit codes:" in said
    assert "3  the site could not be written" in said


def test_the_module_is_the_command_and_the_theme_keeps_quiet(tmp_path: Path) -> None:
    run("init", tmp_path / "new")
    (tmp_path / "new/mkdocs.yml").write_text("site_name: x\nplugins: [scoutgen, nothing-of-this-name]\n")
    clean = {name: value for name, value in os.environ.items() if "MKDOCS" not in name}
    ran = subprocess.run(
        [sys.executable, "-m", "scoutgen", "build", "--project", tmp_path / "new"],
        capture_output=True,
        text=True,
        check=False,
        env=clean,
    )
    assert ran.returncode == 1
    assert "nothing-of-this-name" in ran.stderr
    assert "end of life" not in ran.stderr
    assert "Traceback" not in ran.stderr


def test_where_nobody_can_be_told_no_site_is_said_to_stand(tmp_path: Path) -> None:
    run("init", tmp_path / "new")
    command = [sys.executable, "-u", "-m", "scoutgen", "check", "--project", tmp_path / "new"]
    with Path("/dev/full").open("w") as full:
        ran = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (3, "scoutgen: No space left on device\n")
    gone, listens = os.pipe()
    os.close(gone)
    ran = subprocess.run(command, stdout=listens, stderr=subprocess.PIPE, text=True, check=False)
    os.close(listens)
    assert (ran.returncode, ran.stderr) == (1, "")


def test_serve_builds_again_when_the_input_changes(tmp_path: Path) -> None:
    folder = tmp_path / "new"
    run("init", folder)
    page = folder / "content/pages/night.md"
    page.write_text("# Night\n\nFirst words.\n")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    command = [sys.executable, "-m", "scoutgen", "serve", "--project", str(folder), "--address", address]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True) as server:
        try:
            assert wait_for(f"http://{address}/night/", "First words", server)
            # A copy that a browser kept of this address is taken away.
            assert wait_for(f"http://{address}/worker.js", "registration.unregister()", server)
            page.write_text("# Night\n\nSecond words.\n")
            assert wait_for(f"http://{address}/night/", "Second words", server)
            # MkDocs holds its answers while the input is broken, and goes on once it is mended.
            games = folder / "data/games.csv"
            good = games.read_text()
            games.write_text("game,date\ng1,soon\n")
            time.sleep(3)
            assert server.poll() is None
            page.write_text("# Night\n\nThird words.\n")
            games.write_text(good)
            assert wait_for(f"http://{address}/night/", "Third words", server)
        finally:
            server.terminate()


def wait_for(url: str, words: str, server: subprocess.Popen[str], seconds: int = 60) -> bool:
    """Whether words come to stand at an address before patience or the server ends."""
    end = time.monotonic() + seconds
    while time.monotonic() < end and server.poll() is None:
        with contextlib.suppress(OSError), urllib.request.urlopen(url, timeout=5) as answer:  # noqa: S310 - our own
            if words in answer.read().decode():
                return True
        time.sleep(0.3)
    return False


@pytest.fixture(autouse=True)
def quiet_mkdocs() -> None:
    """Handlers a command added must be gone with it."""
    before = list(logging.getLogger("mkdocs").handlers)
    yield
    assert logging.getLogger("mkdocs").handlers == before


def test_a_configuration_that_is_a_list_is_named(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text("- a\n")
    result = run("build", "--project", tmp_path)
    assert result.exit_code == 1
    assert "mkdocs.yml is not a list of settings" in result.output


HOSTILE_PAGES = {
    "deep.md": ("# A\n\n" + "".join("    " * level + "- a\n" for level in range(300)), 23, "nested deeper than 20"),
    "brackets.md": ("# A\n\n" + "[" * 20_000, 3, "more than 500 opening brackets"),
    "tags.md": ("# A\n\n" + "<" * 20_000, 3, "more than 500 signs <"),
    "images.md": ("# A\n\n" + "![" * 20_000, 3, "more than 500 opening brackets"),
    "quotes.md": ("# A\n\n" + ("> " * 400 + "a\n") * 50, 3, "nested deeper than 20"),
    "swallow.md": ("# A\n\n<textarea>\n\nlost\n", 3, "<textarea> is HTML"),
    "comment.md": ("# A\n\n<!-- lost\n", 3, "a comment begins that is not closed"),
    "settings.md": ("---\ntitel: A\n---\n# A\n", 2, 'titel: is not known here; did you mean "title"?'),
}


def test_no_page_by_hand_stops_or_swallows_the_site(tmp_path: Path) -> None:
    folder = tmp_path / "new"
    run("init", folder)
    for name, (text, _, _) in HOSTILE_PAGES.items():
        (folder / "content/pages" / name).write_text(text)
    ran = run("build", "--project", folder, "--as-of", "2026-04-09")
    assert ran.exit_code == 1
    lines = ran.stderr.splitlines()
    assert len(lines) == len(HOSTILE_PAGES) + 1
    for name, (_, line, said) in HOSTILE_PAGES.items():
        assert [text for text in lines if text.startswith(f"content/pages/{name}:{line}: ") and said in text], name


def test_what_costs_the_parser_nothing_is_built(tmp_path: Path) -> None:
    folder = tmp_path / "new"
    run("init", folder)
    (folder / "content/pages/odd.md").write_text(
        "# A\n\n" + "*" * 20_000 + "\n\n" + "`" * 20_000 + "\n\n" + "_" * 20_000
    )
    ran = run("build", "--project", folder, "--as-of", "2026-04-09")
    assert ran.exit_code == 0, ran.output


def test_two_projects_that_build_into_one_folder_give_one_whole_site(tmp_path: Path) -> None:
    out, folders = tmp_path / "shared", [tmp_path / "one", tmp_path / "two"]
    for folder in folders:
        run("init", folder, "--name", f"Team {folder.name}")
    commands = [
        [sys.executable, "-m", "scoutgen", "build", "--project", folder, "--out", out, "--as-of", "2026-04-09"]
        for folder in folders
    ]
    together = [
        subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) for command in commands
    ]
    said = [build.communicate() for build in together]
    codes = [build.returncode for build in together]
    assert sorted(codes) in ([0, 0], [0, 3])
    for code, (_, error) in zip(codes, said, strict=True):
        assert error == "" if code == 0 else error.startswith(f"scoutgen: another build into {out} is running")
    page = (out / "index.html").read_text()
    assert (out / MARKER).is_file()
    assert "Team one" in page or "Team two" in page
    assert sorted(p.name for p in tmp_path.iterdir()) == ["one", "shared", "two"]


def test_a_bar_that_an_error_cuts_off_gives_the_cursor_back(monkeypatch: pytest.MonkeyPatch) -> None:
    class Screen(io.StringIO):
        def isatty(self) -> bool:
            return True

    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)

    def cut_off() -> None:
        with progress_bars() as step:
            assert step
            step("Writing pages", 27, 27)
            step("Drawing charts", 3, 8)
            raise OSError("full")

    with pytest.raises(OSError, match="full"):
        cut_off()
    hidden, shown = "\x1b[?25l", "\x1b[?25h"
    assert screen.getvalue().count(shown) == 2
    assert screen.getvalue().rindex(shown) > screen.getvalue().rindex(hidden)
