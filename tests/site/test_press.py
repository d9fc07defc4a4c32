"""Pages made ahead on all processors are those MkDocs makes on one, and what is wrong with one is said all the same."""

import re
import shutil
import sys
from collections.abc import Callable
from pathlib import Path

import jinja2
import pytest
import sample_book
from small_builds import files

from scoutgen.pages.compiled import Compiled
from scoutgen.records import side_by_side
from scoutgen.site import press
from scoutgen.site.build import BuildFailedError, Built
from scoutgen.site.manuscript import ManuscriptError

BuildBook = Callable[..., Built]


# That a build on one processor gives the same bytes is in test_part.py, where one is made.
def test_a_build_by_the_command_line_shares_the_work(small_site: Path) -> None:
    said = (small_site.parent / "said.txt").read_text().splitlines()
    assert said[:2] == ["pages made ahead in 12 runs", "Staff edition: 52 pages, 6 charts (6 drawn anew), 0 warnings"]


def test_pages_written_by_hand_stand_in_the_menu_of_pages_made_ahead_under_their_titles(small_site: Path) -> None:
    page = (small_site / "teams/cedarholm/index.html").read_text(encoding="utf-8")
    labels = [words.strip() for words in re.findall(r'<span class="md-ellipsis">\s*([^<]*)', page)]
    assert {"The bus home", "Meals", "Cedarholm"} <= set(labels)
    assert "None" not in labels


@pytest.fixture
def ahead(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Makes pages ahead, however few they are, in two runs one after the other; and says which were."""
    made: list[str] = []
    real = press.Press._make

    def make(self: press.Press, *rest: object) -> list[tuple[str, object]]:
        pages = real(self, *rest)  # type: ignore[arg-type]
        made.extend(address for address, _ in pages)
        return pages  # type: ignore[return-value]

    monkeypatch.setattr(press, "_WORTH_A_COPY", 0)
    monkeypatch.setattr(press, "shares", lambda pages, *_, **__: [list(pages[:3]), list(pages[3:])] if pages else [])
    monkeypatch.setattr(side_by_side, "processors", lambda: 1)
    monkeypatch.setattr(press.Press, "_make", make)
    return made


def test_pages_made_ahead_are_those_mkdocs_makes(
    build_book: BuildBook, project: Path, tmp_path: Path, ahead: list[str]
) -> None:
    (project / "content/pages").mkdir()
    (project / "content/pages/bus.md").write_text("# The bus home\n\nAt nine.\n")
    one = files(build_book(None).out)
    assert len(ahead) == len(set(ahead)) == len(sample_book.book().pages)
    shutil.rmtree(project / ".scoutgen")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(press, "_WORTH_A_COPY", 1000)
        ahead.clear()
        other = files(build_book(None, out=tmp_path / "other").out)
    assert ahead == []
    assert one == other
    # Found by the next build.
    assert files(build_book(None).out) == one
    assert ahead == []


@pytest.mark.parametrize(
    ("wrong", "said"), [("[chart:nobody]", "nobody"), ("[away](gone.md)", "nothing is at gone.md")]
)
def test_what_is_wrong_with_a_page_is_said_as_mkdocs_meets_it(
    build_book: BuildBook, ahead: list[str], wrong: str, said: str
) -> None:
    made = sample_book.with_markdown(sample_book.book(), "teams/mesa/sam-brandt", f"# Brandt\n\n{wrong}\n")
    with pytest.raises((ManuscriptError, BuildFailedError), match=said):
        build_book(made)
    assert len(ahead) == len(made.pages) - 1


def test_where_another_plugin_has_a_hand_in_pages_none_is_made_ahead(
    build_book: BuildBook, project: Path, ahead: list[str]
) -> None:
    (project / "hook.py").write_text("def on_page_markdown(markdown, **_):\n    return markdown + 'More.'\n")
    (project / "mkdocs.yml").write_text("site_name: Hooked\nplugins: [scoutgen]\nhooks: [hook.py]\n")
    assert len(files(build_book(None).out)) > len(sample_book.book().pages)
    assert ahead == []


def test_a_damaged_page_is_made_anew(build_book: BuildBook, project: Path, ahead: list[str]) -> None:
    whole = files(build_book(None).out)
    for place in (project / ".scoutgen/rendered/staff").iterdir():
        place.write_bytes(place.read_bytes()[:-9])
    ahead.clear()
    assert files(build_book(None).out) == whole


def test_the_themes_templates_are_compiled_once_for_all_builds(
    build_book: BuildBook, project: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(press, "_compiled_theme", lambda _: Compiled("", tmp_path / "kept"))
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    compiled: list[str] = []
    real = jinja2.Environment._compile

    def noted(self: jinja2.Environment, source: str, filename: str) -> object:
        compiled.append(filename)
        return real(self, source, filename)

    monkeypatch.setattr(jinja2.Environment, "_compile", noted)
    first = files(build_book(None).out)
    assert any(name.endswith("material/templates/base.html") for name in compiled)
    assert any((tmp_path / "kept").iterdir())
    shutil.rmtree(project / ".scoutgen" / "rendered")
    compiled.clear()
    assert files(build_book(None).out) == first
    assert [name for name in compiled if "material" in name] == []


def test_where_another_plugin_has_a_hand_in_templates_none_is_kept_compiled(
    build_book: BuildBook, project: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(press, "_compiled_theme", lambda _: Compiled("", tmp_path / "kept"))
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    (project / "hook.py").write_text("def on_env(env, **_):\n    env.filters['title'] = str.upper\n    return env\n")
    (project / "mkdocs.yml").write_text("site_name: Hooked\nplugins: [scoutgen]\nhooks: [hook.py]\n")
    build_book(None)
    assert not (tmp_path / "kept").exists()
