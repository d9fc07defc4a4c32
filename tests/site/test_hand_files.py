"""Hand-written pages and the files beside them, as far as one edition may have them."""

from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.structure.files import get_files

from scoutgen.records.hand_pages import HandPage
from scoutgen.site.build import build_site
from scoutgen.site.hand_files import leave_out, linked_from
from scoutgen.site.manuscript import ManuscriptError
from scoutgen.site.settings import BuildFailedError


def page(text: str, address: str = "plans/friday") -> HandPage:
    return HandPage(address, "x", text)


@pytest.mark.parametrize(
    ("text", "targets"),
    [
        ("[a](b.md) ![c](d%20e.png#x) <a href='f.pdf'>", {"plans/b.md", "plans/d e.png", "plans/f.pdf"}),
        ("[a][1]\n\n[1]: ../g.png 'title'", {"g.png"}),
        ("[a](<h.pdf>) <img src=i.png> [b](j.md?x=1#y)", {"plans/h.pdf", "plans/i.png", "plans/j.md"}),
        ("[a](https://example.org/k.pdf) [b](#l) [c](/m.pdf) mailto:n", set()),
        ("[a](&#98;.md)", {"plans/b.md"}),
    ],
)
def test_what_a_page_leads_to(text: str, targets: set[str]) -> None:
    assert linked_from(page(text)) == targets


@pytest.fixture
def project(tmp_path: Path) -> Path:
    pages = tmp_path / "content/pages"
    pages.mkdir(parents=True)
    (pages / "ours.md").write_text("---\nfor: [staff]\n---\n\n# Ours\n\n[sheet](ours.pdf) and [all](both.pdf)\n")
    (pages / "theirs.md").write_text("# Theirs\n\n[all](both.pdf)\n")
    for name in ("ours", "both", "loose"):
        (pages / f"{name}.pdf").write_text(name)
    return tmp_path


def files(site: Path) -> set[str]:
    names = {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
    return {name for name in names if name.startswith(("ours", "theirs", "both", "loose"))}


def test_a_file_is_in_the_editions_whose_pages_link_to_it(project: Path) -> None:
    staff = build_site(project, as_of="2026-04-09").out
    assert files(staff) == {"ours/index.html", "theirs/index.html", "ours.pdf", "both.pdf", "loose.pdf"}
    players = build_site(project, project / "players", as_of="2026-04-09", edition="players").out
    assert files(players) == {"theirs/index.html", "both.pdf"}
    scouts = build_site(project, project / "scouts", as_of="2026-04-09", edition="recruiting").out
    assert files(scouts) == set()


def test_a_menu_of_ones_own_loses_the_ways_and_the_sections_of_what_is_left_out(project: Path) -> None:
    (project / "mkdocs.yml").write_text(
        "site_name: x\ndocs_dir: content/pages\nnav:\n  - Locker Room:\n    - Ours Alone: ours.md\n"
        "  - For All:\n    - ours.md\n    - Everybody: theirs.md\n"
    )
    for edition, shown, hidden in (("staff", ["Locker Room", "For All", "Everybody"], []),
                                   ("players", ["For All", "Everybody"], ["Locker Room", "Ours Alone"])):  # fmt: skip
        out = build_site(project, project / edition, as_of="2026-04-09", edition=edition).out
        every = " ".join(path.read_text() for path in sorted(out.rglob("*.html")))
        assert [words for words in shown if words not in every] == []
        assert [words for words in hidden if words in every] == []


@pytest.mark.parametrize(
    "way",
    ["./ours.md", "x/../ours.md", ".//ours.md", "/ours.md", "ours/", "/ours/", "OURS.md", "ours.html", "ours.md#top",
     "ours/index.html", "ours.md?x=1", "%6Furs.md", "https://example.org/team/ours/", "ours.pdf", "./ours.pdf"],
)  # fmt: skip
def test_a_way_to_what_is_left_out_goes_however_it_is_spelt(project: Path, way: str) -> None:
    config = load_config(
        str(_bare(project)), docs_dir=str(project / "content/pages"), site_url="https://example.org/team/"
    )
    config.nav = [{"Ours Alone": way}, {"In": [way]}, way, {"Everybody": "theirs.md"}, {"Out": "https://example.org/"}]
    theirs = HandPage("theirs", "x", "[all](both.pdf)")
    ours = HandPage("ours", "x", "[sheet](ours.pdf)")
    leave_out(get_files(config), config, kept=[theirs], others=[ours], every_file=False)
    assert config.nav == [{"Everybody": "theirs.md"}, {"Out": "https://example.org/"}]


def _bare(project: Path) -> Path:
    file = project / "mkdocs.yml"
    file.write_text("site_name: x\n")
    return file


def test_a_link_to_what_is_left_out_is_refused_with_both_named(project: Path) -> None:
    (project / "content/pages/theirs.md").write_text("# Theirs\n\nSee [ours](ours.md).\n")
    build_site(project, as_of="2026-04-09")
    with pytest.raises((ManuscriptError, BuildFailedError), match=r"content/pages/theirs\.md: links to ours\.md"):
        build_site(project, project / "players", as_of="2026-04-09", edition="players")
    assert not (project / "players").exists()
