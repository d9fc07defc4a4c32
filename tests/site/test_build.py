import html
import os
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import sample_book
from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from scoutgen.pages.book import Book, Page
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.site.build import Built, build_site
from scoutgen.site.editions import EditionError
from scoutgen.site.manuscript import ManuscriptError
from scoutgen.site.output import OutputError, building_place
from scoutgen.site.settings import BuildFailedError

BuildBook = Callable[..., Built]
UseBook = Callable[[Book | Exception], None]


def contents(site: Path) -> dict[str, bytes]:
    return {p.relative_to(site).as_posix(): p.read_bytes() for p in site.rglob("*") if p.is_file()}


def test_a_project_without_mkdocs_yml_and_pages_builds(build_book: BuildBook, project: Path) -> None:
    built = build_book()
    assert built.out == project / "site"
    # Two players of a team have the same clocks in the other team: equal charts are drawn once.
    assert (built.pages, built.charts, built.drawn) == (8, 8, 4)
    names = contents(built.out).keys()
    assert {"index.html", "404.html", "teams/harbor/ivan-nunez/index.html", "search/search_index.json"} <= names
    assert "facts/harbor/ivan-nunez.json" in names
    assert (project / ".scoutgen/markdown/teams/harbor/ivan-nunez.md").read_text().startswith("# Iván Núñez")


def test_a_second_build_gives_the_same_bytes_and_draws_nothing(build_book: BuildBook) -> None:
    first = build_book()
    before = contents(first.out)
    second = build_book()
    assert second.drawn == 0
    assert contents(second.out) == before


def test_only_what_a_page_asks_for_is_in_the_site(build_book: BuildBook) -> None:
    names = contents(build_book().out)
    assert not [n for n in names if n.endswith(".map") or "lunr" in n or "sitemap" in n or "disk-worker" in n]


def test_markdown_of_pages_that_are_no_more_is_removed(build_book: BuildBook, project: Path) -> None:
    build_book()
    book = sample_book.book()
    fewer = replace(book, pages=book.pages[:2], charts={}, facts={})
    fewer = sample_book.with_markdown(fewer, "teams", "# Teams\n")
    fewer = sample_book.with_markdown(fewer, "index", "# Tonight\n")
    build_book(fewer)
    kept = sorted(p.name for p in (project / ".scoutgen/markdown").rglob("*"))
    assert kept == ["index.md", "teams.md"]


PROBLEMS = ProblemsFoundError(
    [Problem("data/games.csv", 3, "date", "is no date"), Problem("content/program.yml", 1, "", "is empty")]
)


@pytest.mark.parametrize(
    ("broken", "error"),
    [
        (PROBLEMS, ProblemsFoundError),
        (sample_book.with_markdown(sample_book.book(), "index", "# A\n\n[chart:gone]\n"), ManuscriptError),
        (sample_book.with_markdown(sample_book.book(), "index", "# A\n\n<b onclick=x>b</b>\n"), BuildFailedError),
        (sample_book.with_markdown(sample_book.book(), "index", "# A\n\n[a](gone.md)\n"), BuildFailedError),
        (sample_book.with_markdown(sample_book.book(), "index", "# A\n\n{{ x }}\n"), BuildFailedError),
        (replace(sample_book.book(), pages=(*sample_book.book().pages, Page("teams", "T", "# T"))), ManuscriptError),
        (replace(sample_book.book(), pages=(*sample_book.book().pages, Page("../t", "T", "# T"))), ManuscriptError),
        (OSError(28, "No space left on device"), OSError),
    ],
    ids=["input", "chart", "handler", "dead-link", "leftover", "twice", "outside", "disk-full"],
)
def test_whatever_is_wrong_the_last_site_stands(
    build_book: BuildBook, project: Path, broken: Book | Exception, error: type[Exception]
) -> None:
    good = contents(build_book().out)
    with pytest.raises(error):
        build_book(broken)
    assert contents(project / "site") == good
    assert sorted(p.name for p in project.iterdir() if p.name.startswith(".site")) in ([], [".site.scoutgen-next"])
    assert not (project / ".scoutgen/lock").exists()
    assert contents(build_book().out) == good


def test_every_problem_of_the_last_look_is_named(build_book: BuildBook) -> None:
    book = sample_book.with_markdown(sample_book.book(), "index", "# A\n\n<b onclick=x>b</b> {{ y }}\n")
    with pytest.raises(BuildFailedError) as stop:
        build_book(book)
    assert ".scoutgen/markdown/index.md: event handler onclick on <b> (in index.html)" in str(stop.value)
    assert ".scoutgen/markdown/index.md: left over: {{ (in index.html)" in str(stop.value)


@pytest.mark.parametrize(
    ("words", "error", "said"),
    [
        ("<b onclick=x>b</b>", BuildFailedError, "event handler onclick on <b> (in night/index.html)"),
        ("[a](#gone)", BuildFailedError, "#gone has no such anchor (in night/index.html)"),
        ("a <textarea> b", BuildFailedError, "<textarea> element (in night/index.html)"),
    ],
)
def test_what_is_wrong_with_a_hand_written_page_is_said_of_its_file(
    build_book: BuildBook, project: Path, words: str, error: type[Exception], said: str
) -> None:
    (project / "content/pages").mkdir(parents=True)
    (project / "content/pages/night.md").write_text(f"# Night\n\n{words}\n")
    with pytest.raises(error) as stop:
        build_book()
    assert f"content/pages/night.md: {said}" in str(stop.value)


def test_what_looks_like_a_mark_on_a_hand_written_page_is_never_followed(build_book: BuildBook, project: Path) -> None:
    marks = (
        "[box:look]",
        "[slot:0]",
        "[slot:7]",
        "[box:end]",
        "[side:L]",
        "[chart:gone]",
        "[table:plain Odds]",
        "[part:Words]",
    )
    (project / "content/pages").mkdir(parents=True)
    (project / "content/pages/night.md").write_text("# Night\n\n" + "\n\n".join(marks) + "\n")
    with pytest.raises(BuildFailedError) as stop:
        build_book()
    assert [mark for mark in marks if f"content/pages/night.md: left over: {mark}" not in str(stop.value)] == []


def test_a_policy_is_shown_as_it_was_written_whatever_it_looks_like(build_book: BuildBook, project: Path) -> None:
    banner = 'No {{ phones }} {% if %} [box:a] [part:b]: "<b onclick=x>&amp;'
    build_book(replace(sample_book.book(), policy=banner))
    page = (project / "site/index.html").read_text()
    said = re.findall(r'<p class="policy-line">(?:<a [^>]*>)?(.*?)(?:</a>)?</p>', page, re.DOTALL)
    assert [html.unescape(text) for text in said] == [banner]
    assert "<b" not in said[0]


def test_an_icon_the_theme_does_not_have_is_named(build_book: BuildBook, project: Path) -> None:
    (project / "content/pages").mkdir(parents=True)
    page = project / "content/pages/bus.md"
    page.write_text("---\nicon: material/omnibus\n---\n# Bus\n")
    with pytest.raises(ManuscriptError, match=r"content/pages/bus\.md: icon: there is no icon 'material/omnibus'"):
        build_book()
    page.write_text("---\nicon: material/bus\n---\n# Bus\n")
    assert "<svg" in (build_book().out / "bus/index.html").read_text()


def test_a_page_nested_too_deep_is_one_clear_error(build_book: BuildBook, project: Path) -> None:
    (project / "content/pages").mkdir(parents=True)
    deep = "".join("    " * level + "- a\n" for level in range(300))
    (project / "content/pages/deep.md").write_text(deep)
    with pytest.raises(BuildFailedError, match="nested deeper than Markdown can follow"):
        build_book()


def test_search_must_not_lead_to_a_heading_that_is_not_there(build_book: BuildBook) -> None:
    book = sample_book.with_markdown(sample_book.book(), "teams/harbor/will-hale", "# Will Hale\n")
    with pytest.raises(BuildFailedError, match="search leads to #clocks"):
        build_book(book)


@pytest.mark.parametrize("name", ["teams/harbor/will-hale.md", "teams/harbor/will-hale/index.md", "Teams.md"])
def test_a_hand_written_page_at_a_generated_address_is_refused(build_book: BuildBook, project: Path, name: str) -> None:
    page = project / "content/pages" / name
    page.parent.mkdir(parents=True)
    page.write_text("# Mine\n")
    with pytest.raises(ManuscriptError, match=re.escape(f"{name}: its address is that of a generated page")):
        build_book()


def test_a_hand_written_page_joins_menu_and_search(build_book: BuildBook, project: Path) -> None:
    (project / "content/pages").mkdir(parents=True)
    (project / "content/pages/phones.md").write_text("# Phones\n\nNone in the dugout. See [teams](teams.md).\n")
    site = build_book().out
    assert 'href="phones/"' in (site / "index.html").read_text()
    assert '"location":"phones/","title":"Phones"' in (site / "search/search_index.json").read_text()
    assert 'href="../teams/"' in (site / "phones/index.html").read_text()


def test_what_mkdocs_yml_asks_against_privacy_is_not_done(build_book: BuildBook, project: Path) -> None:
    (project / "mkdocs.yml").write_text(
        """
site_name: Ours
site_url: https://scouting.invalid/sub/
site_description: tells too much
repo_url: https://code.invalid/us
copyright: us
theme:
  name: material
  font: {text: Inter}
  features: [navigation.instant, search.share, navigation.tabs]
extra:
  generator: true
  social: [{icon: material/baseball, link: "https://social.invalid"}]
  analytics: {provider: google, property: X}
  consent: {title: a, description: b}
plugins:
  - search
  - scoutgen
"""
    )
    site = build_book().out
    for page in site.rglob("*.html"):
        text = page.read_text()
        assert "://" not in text.replace("http://www.w3.org", ""), page
        assert 'name="generator"' not in text
        assert "tells too much" not in text
        assert '"navigation.instant"' not in text
    assert '"location":"teams/harbor/ivan-nunez/"' in (site / "search/search_index.json").read_text()


def test_a_hook_of_the_project_has_its_say(build_book: BuildBook, project: Path) -> None:
    hook = "def on_post_page(html, *, page, config):\n    return html.replace('Plan', 'Plan by hand')\n"
    (project / "hook.py").write_text(hook, encoding="utf-8")
    (project / "mkdocs.yml").write_text("site_name: Ours\nhooks: [hook.py]\nplugins: [scoutgen]\n", encoding="utf-8")
    assert b"Plan by hand" in contents(build_book().out)["index.html"]


def test_mkdocs_itself_builds_the_same_site(
    build_book: BuildBook, use_book: UseBook, project: Path, tmp_path: Path
) -> None:
    (project / "content/pages").mkdir(parents=True)
    config = project / "mkdocs.yml"
    config.write_text("site_name: project\ndocs_dir: content/pages\ntheme: material\nplugins: [scoutgen]\n")
    ours = contents(build_book(out=tmp_path / "ours").out)
    use_book(sample_book.book())
    mkdocs_build(load_config(str(config), strict=True))
    assert contents(project / "site") == ours
    use_book(PROBLEMS)
    with pytest.raises(Abort):
        mkdocs_build(load_config(str(config), strict=True))
    assert contents(project / "site") == ours


def test_what_mkdocs_serves_is_kept_by_no_phone(project: Path, use_book: UseBook) -> None:
    (project / "content/pages").mkdir(parents=True)
    config = project / "mkdocs.yml"
    config.write_text("site_name: project\ndocs_dir: content/pages\ntheme: material\nplugins: [scoutgen]\n")
    registers = "data-worker="
    for address, kept in (("http://127.0.0.1:8123/", False), ("http://127.0.0.1:8000/", True), (None, True)):
        use_book(sample_book.book())
        mkdocs_build(load_config(str(config), strict=True, dev_addr="127.0.0.1:8123", site_url=address))
        site = project / "site"
        assert (registers in (site / "index.html").read_text()) is kept
        assert (site / "on-this-phone/index.html").is_file() is kept
        assert (site / "manifest.webmanifest").is_file() is kept
        # A browser that comes with an old copy is rid of it.
        assert ("importScripts" in (site / "worker.js").read_text()) is kept
        assert ("registration.unregister()" in (site / "worker.js").read_text()) is not kept


def test_what_is_not_ours_is_not_overwritten(build_book: BuildBook, project: Path) -> None:
    (project / "site").mkdir()
    (project / "site/thesis.txt").write_text("mine")
    with pytest.raises(OutputError, match="not made by scoutgen"):
        build_book()
    with pytest.raises(OutputError, match="over the project itself"):
        build_book(out=project)
    assert contents(project / "site") == {"thesis.txt": b"mine"}


def test_a_place_that_cannot_be_written_is_one_clear_error(build_book: BuildBook, project: Path) -> None:
    good = contents(build_book().out)
    (project / "file").write_text("")
    with pytest.raises(OutputError, match="file: is a file, not a folder"):
        build_book(out=project / "file" / "site")
    assert contents(project / "site") == good


def test_a_second_project_does_not_touch_the_folder_another_is_building_into(
    build_book: BuildBook, project: Path, tmp_path: Path
) -> None:
    out = tmp_path / "shared"
    good = contents(build_book(out=out).out)
    half = building_place(out)
    half.mkdir()
    # A build of another project that goes on: another process that is alive holds the folder.
    lock = tmp_path / ".shared.scoutgen-lock"
    lock.write_text(str(os.getppid()))
    with pytest.raises(OutputError, match=f"another build into .*shared is running .process {os.getppid()}"):
        build_book(out=out)
    assert contents(out) == good
    assert half.is_dir()
    assert not (project / ".scoutgen/lock").exists()
    lock.unlink()
    assert contents(build_book(out=out).out) == good


def test_a_site_behind_a_link_is_replaced_where_it_is(build_book: BuildBook, project: Path, tmp_path: Path) -> None:
    (tmp_path / "disk").mkdir()
    (project / "site").symlink_to(tmp_path / "disk")
    build_book()
    good = contents(build_book().out)
    assert (project / "site").is_symlink()
    assert "index.html" in good
    assert sorted(p.name for p in tmp_path.iterdir()) == ["disk", "project"]


def test_a_site_cut_off_in_the_swap_comes_back_even_if_the_input_is_broken(
    build_book: BuildBook, project: Path
) -> None:
    good = contents(build_book().out)
    (project / "site").rename(project / ".site.scoutgen-former")
    with pytest.raises(ProblemsFoundError):
        build_book(PROBLEMS)
    assert contents(project / "site") == good


def test_an_edition_that_is_none_is_refused_before_reading(project: Path) -> None:
    with pytest.raises(EditionError):
        build_site(project, edition="everybody")


def test_the_edition_is_that_of_mkdocs_yml_unless_the_call_names_one(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    (tmp_path / "mkdocs.yml").write_text("site_name: x\nplugins:\n  - scoutgen:\n      edition: players\n")
    built = build_site(tmp_path, as_of="2026-04-09")
    assert (built.edition, built.replaced) == ("players", "")
    assert "players edition, as of" in (built.out / "index.html").read_text()
    again = build_site(tmp_path, as_of="2026-04-09", edition="recruiting")
    assert (again.edition, again.replaced) == ("recruiting", "players")


def test_a_broken_mkdocs_yml_is_one_clear_error(project: Path) -> None:
    (project / "mkdocs.yml").write_text("site_name: [unclosed\n")
    with pytest.raises(BuildFailedError, match=r"mkdocs\.yml cannot be read"):
        build_site(project)


def test_titles_and_menus_cannot_carry_markup(build_book: BuildBook) -> None:
    book = sample_book.book()
    page = Page("odd", "A <img src=x onerror=alert(1)>", "# Odd\n", (), ("B </title><script>alert(1)</script>",))
    text = (build_book(replace(book, pages=(*book.pages, page))).out / "odd/index.html").read_text()
    assert "<title>A &lt;img src=x" in text
    assert "&lt;script&gt;alert(1)" in text
