"""content/pages: hand-written markdown joins as it is, under an address and title that can do no harm."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

import errno
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from yaml_projects import said, write

from scoutgen.records.hand_pages import first_heading, read_hand_pages


def test_pages_keep_their_text(tmp_path: Path) -> None:
    root = write(
        tmp_path,
        {"content/pages/b.md": "# Travel plan\n\n`{{ x }} {% y %}` <b>\n", "content/pages/sub/a-1.md": "no heading\n"},
    )
    (root / "content/pages/c.md").write_bytes(b"\xef\xbb\xbfintro\r\n\r\n# Bus #\r\n")
    pages, problems = read_hand_pages(root)
    assert problems == []
    assert [(p.address, p.title) for p in pages] == [("b", "Travel plan"), ("c", "Bus"), ("sub/a-1", "A 1")]
    assert pages[0].text == "# Travel plan\n\n`{{ x }} {% y %}` <b>\n"
    assert pages[1].text == "intro\n\n# Bus #\n"


def test_no_folder_no_pages(tmp_path: Path) -> None:
    assert read_hand_pages(tmp_path) == ((), [])


def test_addresses_and_titles_that_cannot_be(tmp_path: Path) -> None:
    root = write(
        tmp_path,
        {
            "content/pages/My Notes.md": "x\n",
            "content/pages/index.md": "x\n",
            "content/pages/teams/harbor.md": "x\n",
            "content/pages/a.md": "text\n\n# <script>alert(1)</script>\n",
            "content/pages/.draft.md": "# <b>\n",
            "content/pages/picture.png": "x",
        },
    )
    _, problems = read_hand_pages(root)
    assert said(problems) == [
        "content/pages/My Notes.md: the path in content/pages is the page's address, and \"My Notes\" is not a key; lower-case letters, digits and hyphens can stand in one; write 'my-notes'; rename it",
        "content/pages/a.md:3: <script> is HTML that can swallow the rest of the page; take it out, or put it in backquotes to show it: `<script>`",
        'content/pages/a.md:3: the first heading is the page\'s title, and "<script>alert(1)</script>" holds <, which a name or title cannot; letters (accents too), digits, spaces, apostrophes, hyphens, periods and commas can',
        "content/pages/index.md: the address 'index' belongs to the pages that are made; choose another name",
        "content/pages/teams/harbor.md: the address 'teams' belongs to the pages that are made; choose another name",
    ]


def test_a_page_that_is_no_text(tmp_path: Path) -> None:
    folder = tmp_path / "content" / "pages"
    folder.mkdir(parents=True)
    (folder / "a.md").write_bytes(b"one\ntwo \xe9\n")
    pages, problems = read_hand_pages(tmp_path)
    assert pages == ()
    assert said(problems) == ["content/pages/a.md:2: is not UTF-8 text; save the file with the encoding UTF-8"]


def test_no_file_beside_the_pages_can_run_or_lead_elsewhere(tmp_path: Path) -> None:
    names = ["a.html", "b.JS", "sub/c.svg", "d.markdown", "e.MD", "ok.png", "ok.pdf", ".hidden.html", "f.html/ok.png"]
    root = write(tmp_path, {f"content/pages/{name}": "x" for name in names})
    (root / "content/pages/passwords.txt").symlink_to("/etc/passwd")
    (root / "content/pages/round").symlink_to(".")
    link = "is a link, and what it leads to would be copied into the site; copy the file itself here"
    runs = "would run in the reader's browser as it is; write a page in markdown, or save a drawing as PNG"
    assert said(read_hand_pages(root)[1]) == [
        f"content/pages/a.html: {runs}",
        f"content/pages/b.JS: {runs}",
        "content/pages/d.markdown: is not read as a page; pages are files <address>.md; rename it",
        "content/pages/e.MD: is not read as a page; pages are files <address>.md; rename it",
        f"content/pages/passwords.txt: {link}",
        f"content/pages/round: {link}",
        f"content/pages/sub/c.svg: {runs}",
    ]


def test_no_page_vanishes_in_a_folder_that_cannot_be_looked_into(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    names = ["a.md", "away/b.md", "open/c.md", "shut/d.md", ".git/e.md"]
    root = write(tmp_path, {f"content/pages/{name}": "x\n" for name in names})
    pages = root / "content/pages"
    iterdir = Path.iterdir

    def refusing(folder: Path) -> Iterator[Path]:
        if folder.name in closed:
            raise PermissionError(errno.EACCES, "Permission denied", str(folder))
        return iterdir(folder)

    closed = {"shut", "away", ".git"}
    monkeypatch.setattr(Path, "iterdir", refusing)
    found, problems = read_hand_pages(root)
    assert [page.address for page in found] == ["a", "open/c"]
    assert said(problems) == [
        "content/pages/away: cannot be looked into: Permission denied",
        "content/pages/shut: cannot be looked into: Permission denied",
    ]
    closed = {pages.name}
    assert said(read_hand_pages(root)[1]) == ["content/pages: cannot be looked into: Permission denied"]


def test_no_page_vanishes_in_a_folder_of_which_names_alone_are_seen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = write(tmp_path, {"content/pages/sub/deep/a.md": "x\n"})
    lstat = Path.lstat

    def refusing(path: Path) -> os.stat_result:
        if path.name == "deep":
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return lstat(path)

    monkeypatch.setattr(Path, "lstat", refusing)
    assert said(read_hand_pages(root)[1]) == ["content/pages/sub/deep: cannot be looked into: Permission denied"]


def test_settings_give_the_title_and_their_lines_are_counted(tmp_path: Path) -> None:
    root = write(
        tmp_path,
        {
            "content/pages/a.md": "---\ntitle: The bus\n# a remark\n---\n# Other\n",
            "content/pages/b.md": "---\ntags: [bus]\n---\n\n# <b>\n\n<style>\n",
        },
    )
    pages, problems = read_hand_pages(root)
    assert [page.title for page in pages] == ["The bus", "<b>"]
    assert [(problem.file, problem.line) for problem in sorted(problems)] == [
        ("content/pages/b.md", 5),
        ("content/pages/b.md", 7),
    ]


# ATX headings and fenced code: CommonMark 0.31, sections 4.2 and 4.5.
@pytest.mark.parametrize(
    ("text", "heading"),
    [
        ("# A\n# B", (1, "A")),
        ("\n   # A ##  \n", (2, "A")),
        ("    # code\n# A", (2, "A")),
        ("```\n# code\n```\n# A", (4, "A")),
        ("~~~ py\n# code\n```\n~~~\n# A", (5, "A")),
        ("````\n```\n# code\n````\n# A", (5, "A")),
        ("```\n# never closed", (0, "")),
        ("#no space\n## second level\ntext # A", (0, "")),
        ("", (0, "")),
    ],
)
def test_the_first_heading(text: str, heading: tuple[int, str]) -> None:
    assert first_heading(text) == heading


@pytest.mark.parametrize(("text", "title"), [("# #", ""), ("# a#", "a#"), ("#\ta ## ", "a"), ("#  # a\t#", "# a")])
def test_signs_that_close_a_heading(text: str, title: str) -> None:
    assert first_heading(text) == (1, title)


@pytest.mark.parametrize("filling", [" ", " #", "# ", "\t"])
def test_a_heading_of_any_length_is_gone_through_once(filling: str) -> None:
    # By the square of its length it would take an hour.
    assert first_heading(f"# a{filling * 150_000}x")[0] == 1
