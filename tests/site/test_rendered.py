"""Pages rendered before: a build with them gives the same bytes as one without, and trusts only what it wrote."""

import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import sample_book

from scoutgen.pages.book import Book, Page
from scoutgen.site import manuscript, rendered
from scoutgen.site.build import Built
from scoutgen.site.rendered import Rendered, RenderedPage
from scoutgen.site.scan import Scanned

BuildBook = Callable[..., Built]
PAGE = Page("teams/harbor/index", "Harbor", "# Harbor\n\nBuilt 2026-04-09 21:40.\n")
HTML = RenderedPage("<p>Built 2026-04-09 21:40.</p>", Scanned({"a"}, {"../"}))


@pytest.fixture
def kept(tmp_path: Path) -> Rendered:
    made = Rendered(tmp_path / "rendered", "common", ("2026-04-09 21:40",))
    made.keep(made.key(PAGE, ["<svg>"]), HTML)
    return made


def later(folder: Path, common: str | None = "common") -> Rendered:
    return Rendered(folder / "rendered", common, ("2026-04-10 08:00",))


def test_a_page_comes_back_with_the_time_of_this_build(kept: Rendered, tmp_path: Path) -> None:
    assert kept.find(kept.key(PAGE, ["<svg>"])) == HTML
    page = replace(PAGE, markdown=PAGE.markdown.replace("2026-04-09 21:40", "2026-04-10 08:00"))
    new = later(tmp_path)
    assert new.find(new.key(page, ["<svg>"])) == replace(HTML, html="<p>Built 2026-04-10 08:00.</p>")


@pytest.mark.parametrize(
    ("page", "figures", "common"),
    [
        (replace(PAGE, markdown="# Harbor\n\nOther.\n"), ["<svg>"], "common"),
        (replace(PAGE, title="Gannet Harbor"), ["<svg>"], "common"),
        (replace(PAGE, address="teams/other/index"), ["<svg>"], "common"),
        (replace(PAGE, menu=("Teams",)), ["<svg>"], "common"),
        (PAGE, ["<svg >"], "common"),
        (PAGE, [], "common"),
        (PAGE, ["<svg>"], "other settings"),
        (PAGE, ["<svg>"], None),
        (replace(PAGE, markdown="\0"), ["<svg>"], "common"),
    ],
)
def test_another_page_does_not(kept: Rendered, tmp_path: Path, page: Page, figures: list[str], common: str) -> None:
    del kept
    new = Rendered(tmp_path / "rendered", common, ("2026-04-09 21:40",))
    assert new.find(new.key(page, figures)) is None


@pytest.mark.parametrize(
    "damage",
    [lambda text: text[:-1], lambda text: text.replace(b"Built", b"Burnt"), lambda _: b"", lambda _: b"\xff\n\n"],
)
def test_a_damaged_page_is_none(kept: Rendered, tmp_path: Path, damage: Callable[[bytes], bytes]) -> None:
    (place,) = (tmp_path / "rendered").iterdir()
    place.write_bytes(damage(place.read_bytes()))
    assert kept.find(kept.key(PAGE, ["<svg>"])) is None


@pytest.mark.parametrize("text", ["", "garbage", "[1, 2]\n<p>", "[[], []", "3\n", "[[[]], []]\n<p>", "[" * 100_000])
def test_what_is_no_page_is_none(kept: Rendered, text: str) -> None:
    key = kept.key(PAGE, ["<svg>"])
    assert key
    assert kept.find(key)
    kept.kept.put(key, text)
    found = kept.find(key)
    assert found is None or text == "[[[]], []]\n<p>"


def test_what_a_build_did_not_ask_for_is_forgotten(kept: Rendered, tmp_path: Path) -> None:
    other = kept.key(replace(PAGE, title="Other"), [])
    kept.keep(other, HTML)
    (tmp_path / "rendered/half.part").write_text("")
    new = Rendered(tmp_path / "rendered", "common", ("2026-04-09 21:40",))
    assert new.find(other) == HTML
    new.kept.forget_others()
    assert [place.name for place in (tmp_path / "rendered").iterdir()] == [other]


def test_a_folder_that_cannot_be_written_costs_nothing_but_time(tmp_path: Path) -> None:
    (tmp_path / "rendered").write_text("a file")
    made = Rendered(tmp_path / "rendered", "common", ())
    made.keep(made.key(PAGE, []), HTML)
    made.kept.forget_others()
    assert made.find(made.key(PAGE, [])) is None


@pytest.fixture
def parsed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Which pages went through Markdown, by their first lines."""
    found: list[str] = []
    real = manuscript.to_slots

    def to_slots(markdown: str, *rest: object) -> object:
        found.append(markdown.split("\n", 1)[0])
        return real(markdown, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(manuscript, "to_slots", to_slots)
    return found


def files(site: Path) -> dict[str, bytes]:
    return {p.relative_to(site).as_posix(): p.read_bytes() for p in site.rglob("*") if p.is_file()}


def changed(book: Book, heading: str) -> Book:
    """The book with another heading on its first page."""
    first, *rest = book.pages
    _, _, words = first.markdown.partition("\n")
    return replace(book, pages=(replace(first, markdown=f"{heading}\n{words}"), *rest))


def test_a_second_build_renders_what_is_new_and_gives_the_same_bytes(
    build_book: BuildBook, project: Path, parsed: list[str]
) -> None:
    book = sample_book.book()
    build_book(book)
    assert len(parsed) == len(book.pages)
    other = changed(book, "# Quite other")
    parsed.clear()
    quick = files(build_book(other).out)
    assert parsed == ["# Quite other"]
    shutil.rmtree(project / ".scoutgen/rendered")
    assert files(build_book(other).out) == quick


@pytest.mark.parametrize("what", ["menu", "hand", "settings", "program"])
def test_what_all_pages_share_renders_all_anew(
    build_book: BuildBook, project: Path, parsed: list[str], monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    book = sample_book.book()
    build_book(book)
    parsed.clear()
    if what == "menu":
        book = replace(book, pages=(*book.pages, Page("news", "News", "# News\n\nWords.\n", menu=("News",))))
    elif what == "hand":
        (project / "content/pages").mkdir()
        (project / "content/pages/bus.md").write_text("# The bus\n\nAt nine.\n")
    elif what == "settings":
        (project / "mkdocs.yml").write_text("site_name: Another\nplugins: [scoutgen]\n")
    else:
        monkeypatch.setattr(rendered, "program", lambda *_: "another version")
    build_book(book)
    assert len(parsed) == len(book.pages)


def test_where_another_plugin_has_a_hand_in_pages_all_are_rendered(
    build_book: BuildBook, project: Path, parsed: list[str]
) -> None:
    (project / "hook.py").write_text("def on_page_markdown(markdown, **_):\n    return markdown + 'More.'\n")
    (project / "mkdocs.yml").write_text("site_name: Hooked\nplugins: [scoutgen]\nhooks: [hook.py]\n")
    build_book()
    parsed.clear()
    build_book()
    assert len(parsed) == len(sample_book.book().pages)
    assert not (project / ".scoutgen/rendered").exists()
