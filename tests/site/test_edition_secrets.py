"""What an edition leaves out is nowhere in its output: a word in every restricted field, and every byte is read.

The demo's question is answered here by bytes: a player's edition cannot show a recruiting grade.
"""

import json
import re
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

import planted
import pytest
from planted import Planted, search
from small_builds import measured_once

from scoutgen.site.build import build_all, build_site
from scoutgen.site.editions import KNOWN


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("planted") / "project"


@pytest.fixture(scope="module")
def words(project: Path) -> Planted:
    project.mkdir()
    return planted.plant(project)


@pytest.fixture(scope="module")
def sites(project: Path, words: Planted) -> Mapping[str, Path]:
    assert words.may
    # What the staff's charts say is worked out once: no measure asks for what an edition hides, and if one did, the
    # players' pages would have it of the staff's.
    with measured_once():
        return {built.edition: built.out for built in build_all(project, project / "sites", skip_bad_rows=True)}


def test_every_edition_has_a_folder_of_its_own(project: Path, sites: Mapping[str, Path]) -> None:
    assert sites == {edition: project / "sites" / edition for edition in KNOWN}
    for edition, site in sites.items():
        assert json.loads((site / ".scoutgen-site").read_text())["edition"] == edition


@pytest.mark.parametrize("edition", KNOWN)
def test_no_word_kept_from_an_edition_is_in_any_byte_of_it(
    edition: str, words: Planted, sites: Mapping[str, Path], record_property: Callable[[str, object], None]
) -> None:
    secrets = words.kept_from(edition)
    found, size = search(sites[edition], secrets)
    record_property("measured", f"{edition} edition: {len(secrets)} secrets in none of {size:,} bytes")
    assert [(words.where[word], place) for word, place in found] == []
    # The staff has all but comments and the columns that stand on no page.
    assert len(secrets) >= (20 if edition == "staff" else 30)
    assert size > 300_000


@pytest.mark.parametrize("edition", KNOWN)
def test_what_an_edition_shows_is_found_by_the_same_search(
    edition: str, words: Planted, sites: Mapping[str, Path]
) -> None:
    shown = words.shown_by(edition)
    found = {word for word, _ in search(sites[edition], shown, first=True)[0]}
    assert sorted(words.where[word] for word in shown if word not in found) == []
    assert len(shown) >= 15


def test_nothing_of_an_evaluation_is_in_the_players_edition_but_the_word(sites: Mapping[str, Path]) -> None:
    """No page, no fact, no script of the list; grades are numbers, so their names are looked for."""
    players = sites["players"]
    names = [place.relative_to(players).as_posix() for place in players.rglob("*")]
    assert [name for name in names if "evaluation" in name or "grade" in name] == []
    for place in players.glob("facts/**/*.json"):
        assert "grades" not in json.loads(place.read_text())
    index = json.loads((players / "search/search_index.json").read_text())
    assert [doc["title"] for doc in index["docs"] if re.search(r"\b(?:overall|evaluation)", doc["text"].lower())] == []


def test_in_the_staffs_edition_no_page_about_a_game_has_a_grade(words: Planted, sites: Mapping[str, Path]) -> None:
    """Who reads a scouting page aloud in the dugout reads no grade."""
    graded = [word for word, where in words.where.items() if where.startswith("grades ")]
    found = search(sites["staff"], graded)[0]
    assert {word for word, _ in found} == {*graded}
    assert {place.split("/")[0] for _, place in found} <= {"evaluations", "facts", "search", "changed"}


def test_another_edition_over_a_site_leaves_nothing_of_the_first(
    project: Path, words: Planted, sites: Mapping[str, Path]
) -> None:
    place = project / "one"
    shutil.copytree(sites["staff"], place)
    assert search(place, words.kept_from("players"), first=True)[0]
    built = build_site(project, place, edition="players", skip_bad_rows=True)
    assert (built.replaced, built.edition) == ("staff", "players")
    assert search(place, words.kept_from("players"))[0] == []
    beside = {path.name for path in project.iterdir()}
    assert beside == {"content", "data", "mkdocs.yml", "sites", "one", ".scoutgen"}
    # File for file what the edition is elsewhere; the list for phones is named by its content, the time included.
    names, usual = (
        {re.sub(r"/list\.\w+\.js$", "/list.js", path.relative_to(site).as_posix()) for path in site.rglob("*")}
        for site in (place, sites["players"])
    )
    assert names == usual


def test_working_folders_are_an_editions_own(project: Path, words: Planted, sites: Mapping[str, Path]) -> None:
    assert set(sites) == set(KNOWN)
    work = project / ".scoutgen"
    for folder, edition in (
        ("markdown", "staff"),
        ("markdown-players", "players"),
        ("markdown-recruiting", "recruiting"),
    ):
        assert search(work / folder, words.kept_from(edition))[0] == []
        assert any((work / folder).rglob("*.md"))


def test_a_search_finds_a_word_in_every_spelling(tmp_path: Path) -> None:
    """The search itself is held against what could hide a word from it."""
    word = "zq999secret"
    for number, form in enumerate(planted.spellings(word)):
        (tmp_path / f"{number}.bin").write_bytes(b"<p>x" + form + b"y</p>")
    (tmp_path / f"{word}.txt").write_text("")
    (tmp_path / "escaped.html").write_text("".join(f"&amp;#{ord(c)};" for c in word))
    (tmp_path / "upper.html").write_text(word.upper())
    (tmp_path / "other.html").write_text("nothing of the kind")
    found, _ = search(tmp_path, [word])
    assert {place for _, place in found} == {path.name for path in tmp_path.iterdir()} - {"other.html"}
