"""Builds that follow each other: what each says has changed, and what it leaves for the next one."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import pytest
from planted import copy_few_games

from scoutgen.records.season import read_season
from scoutgen.site.build import build_site
from scoutgen.site.edition_book import read_book, read_date
from scoutgen.site.memory import State, place, recall

AS_OF = "2026-04-09"
PITCHES = "game,pitcher,bats,balls,strikes,pitch\n"
Small = Callable[[int], Path]


def charted(rows: int) -> str:
    return PITCHES + "g1,Ivo Lind,R,0,0,fastball\n" * rows


def charting(project: Path) -> Small:
    """A function that charts so many pitches of one game in a small project."""
    (project / "data").mkdir(exist_ok=True)
    games = "game,date,away,home,source\ng1,2026-03-06,,harbor,video\n"
    (project / "data/games.csv").write_text(games)

    def chart(rows: int) -> Path:
        (project / "data/pitches.csv").write_text(charted(rows))
        return project

    return chart


@pytest.fixture
def small(tmp_path: Path) -> Small:
    """A small project never built."""
    return charting(tmp_path)


@pytest.fixture(scope="module")
def built_with_five(tmp_path_factory: pytest.TempPathFactory) -> Path:
    project = tmp_path_factory.mktemp("five")
    build_site(charting(project)(5), as_of=AS_OF)
    return project


@pytest.fixture
def begun(built_with_five: Path, tmp_path: Path) -> Small:
    """The small project as its first build, of five pitches, has left it."""
    shutil.copytree(built_with_five, tmp_path, dirs_exist_ok=True)
    return charting(tmp_path)


def page(project: Path, out: str = "site") -> str:
    html = (project / out / "changed/index.html").read_text(encoding="utf-8")
    return " ".join(html.split())


def remembered(project: Path) -> bytes:
    return place(project, "staff").read_bytes()


def test_the_first_build_says_so_and_the_next_what_changed_since(begun: Small) -> None:
    project = begun(5)
    assert "<strong>First build of this edition:</strong> nothing to compare with yet." in page(project)
    # What the last charted day brought stands in for it.
    assert "From Fri 6 Mar 2026 on: <strong>1 new game" in page(project)
    built = json.loads(remembered(project))["now"]["built"]
    build_site(begun(9), as_of=AS_OF)
    assert built[-5:] in page(project)
    assert "First build" not in page(project)
    assert "5 pitches → <strong>9 pitches</strong>" in page(project)
    assert "<strong>1 game changed</strong>" in page(project)
    home = (project / "site/index.html").read_text(encoding="utf-8")
    assert "1 game changed" in home
    assert 'href="changed/"' in home


def test_three_builds_after_one_game_say_the_same(begun: Small) -> None:
    told = []
    for _ in range(3):
        build_site(begun(9), as_of=AS_OF)
        told.append("5 pitches → <strong>9 pitches</strong>" in page(begun(9)))
    assert told == [True] * 3


def test_a_build_that_fails_leaves_what_is_remembered(begun: Small) -> None:
    project = begun(5)
    before = remembered(project)
    (begun(9) / "data/pitches.csv").write_text(charted(9) + "g1,Ivo Lind,R,0,0,slidr\n")
    with pytest.raises(Exception, match="did you mean"):
        build_site(project, as_of=AS_OF)
    assert remembered(project) == before


def test_a_build_whose_finished_pages_are_refused_leaves_what_is_remembered(
    begun: Small, monkeypatch: pytest.MonkeyPatch
) -> None:
    from scoutgen.site.finish import Finished

    project = begun(5)
    before = remembered(project)
    monkeypatch.setattr(Finished, "problems", lambda *_: ["index.html: not fit"])
    with pytest.raises(Exception, match="not fit"):
        build_site(begun(9), as_of=AS_OF)
    assert remembered(project) == before


def test_another_folder_for_the_site_is_the_same_edition(begun: Small) -> None:
    project = begun(5)
    build_site(begun(9), project / "elsewhere", as_of=AS_OF)
    assert "5 pitches → <strong>9 pitches</strong>" in page(project, "elsewhere")


def test_a_build_on_the_side_neither_reads_nor_writes_and_one_that_reads_does_not_write(small: Small) -> None:
    project = small(5)
    build_site(project, as_of=AS_OF, memory="none")
    assert not place(project, "staff").exists()
    assert "was not compared" in page(project)
    build_site(project, as_of=AS_OF)
    before = remembered(project)
    build_site(small(9), project / "side", as_of=AS_OF, memory="none")
    assert "was not compared" in page(project, "side")
    build_site(small(9), project / "side", as_of=AS_OF, memory="read")
    assert "5 pitches → <strong>9 pitches</strong>" in page(project, "side")
    assert remembered(project) == before


def test_what_is_damaged_counts_as_none_with_a_plain_word(begun: Small) -> None:
    """Which files count as damaged, test_memory asks."""
    project = begun(5)
    place(project, "staff").write_text("{")
    built = build_site(project, as_of=AS_OF)
    (warning,) = built.warnings
    assert warning.startswith(
        ".scoutgen/said/staff.json: warning: what the last build said cannot be read; this one is"
    )
    assert "could not be read" in page(project)
    assert build_site(project, as_of=AS_OF).warnings == ()


def test_a_memory_that_cannot_be_written_is_a_warning_and_the_site_stands(small: Small) -> None:
    project = small(5)
    (project / ".scoutgen").mkdir()
    (project / ".scoutgen/said").write_text("a file in the way")
    built = build_site(project, as_of=AS_OF)
    assert (project / "site/index.html").is_file()
    assert len([text for text in built.warnings if "is not kept" in text]) == 1


def test_cards_leave_no_memory(small: Small, monkeypatch: pytest.MonkeyPatch) -> None:
    from scoutgen.site import cards

    project = small(5)
    (project / "content/series").mkdir(parents=True)
    (project / "content/series/opener.yml").write_text("opponent: harbor\nstart: 2026-04-10\n")
    asked: list[str] = []

    def build(*_: object, memory: str, **__: object) -> SimpleNamespace:
        asked.append(memory)
        return SimpleNamespace(edition="staff")

    monkeypatch.setattr(cards, "build_site", build)
    monkeypatch.setattr(cards, "find_browser", lambda: "chromium")
    with pytest.raises(cards.NoCardsError):
        cards.print_cards(project, "opener", as_of=AS_OF)
    assert asked == ["none"]


def test_what_changed_in_the_demo_since_last_night(tmp_path: Path) -> None:
    """As in README.md: Tuesday's charts put aside, a build, put back, a build."""
    copy_few_games(tmp_path, ("0407-harbor", "0407-ridge"))
    tuesday = {file: file.read_bytes() for file in sorted((tmp_path / "data").glob("*/0407-*.csv"))}
    assert len(tuesday) == 5
    for file in tuesday:
        file.unlink()
    first = recall(tmp_path, "staff")
    read = {"as_of": AS_OF, "edition": "staff", "skip_bad_rows": False}
    # Without a look at the day before its last one, which first builds take.
    evening = read_book(tmp_path, **read)  # type: ignore[arg-type]
    memory = first.after(State("2026-04-06 21:40", read_date(AS_OF), evening.book.said))
    for file, rows in tuesday.items():
        file.write_bytes(rows)
    book = read_book(tmp_path, **read, memory=memory).book  # type: ignore[arg-type]
    changed = next(p.markdown for p in book.pages if p.address == "changed").replace("**", "")
    assert "Since the build of Mon 6 Apr 2026, 21:40 (as of Thu 9 Apr): 2 new games," in changed
    games = changed.split("## Games\n")[1]
    assert "[Tue 7 Apr: Cottersby at Gannet Harbor]" in games
    assert "[Tue 7 Apr: Pinewold at Kestrel Ridge]" in games
    assert "New since 6 Apr, 21:40" in book.pages[0].markdown
    pitches = read_season(tmp_path, as_of=read_date(AS_OF)).pitches
    assert f"{(pitches['game'] == 'g0407-ridge').sum()} pitches" in games
