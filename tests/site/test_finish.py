"""A page made final, and what is wrong with it said of the file it was made from."""

from pathlib import Path

from scoutgen.site.finish import Finished, write_search
from scoutgen.site.policy import POLICY
from scoutgen.site.search import Found

PAGE = "<html><head><title>x</title></head><body>{}</body></html>"


def test_a_page_gets_the_policy_and_loses_blank_lines_outside_of_pre() -> None:
    html = Finished().page(PAGE.format("<p>a</p>\n\n   \n<p>b</p>"), "a.html")
    assert POLICY in html
    assert "<p>a</p>\n<p>b</p>" in html
    assert "a\n\n\nb" in Finished().page(PAGE.format("<pre>a\n\n\nb</pre>"), "a.html")


def test_what_is_wrong_names_the_source_and_then_the_page(tmp_path: Path) -> None:
    (tmp_path / "b").mkdir()
    (tmp_path / "b/index.html").write_text("")
    finished = Finished()
    finished.page(PAGE.format("<b onclick=x>b</b><a href='gone/'>c</a>"), "b/index.html", "content/pages/b.md")
    finished.page("<body></body>", "404.html")
    finished.missing_anchor("b/index.html", "clocks")
    assert finished.problems(tmp_path, "/") == [
        "404.html: 0 <head> elements where the policy needs exactly one",
        "content/pages/b.md: event handler onclick on <b> (in b/index.html)",
        "content/pages/b.md: nothing is at gone/ (in b/index.html)",
        "content/pages/b.md: search leads to #clocks, which is not on the page (in b/index.html)",
    ]


def test_the_index_is_a_script_too_where_pages_open_from_disk(tmp_path: Path) -> None:
    entries = [Found("a/", "A", "words")]
    write_search(tmp_path, entries, for_disk=False)
    assert [p.name for p in (tmp_path / "search").iterdir()] == ["search_index.json"]
    write_search(tmp_path, entries, for_disk=True)
    text = (tmp_path / "search/search_index.json").read_text()
    assert (tmp_path / "search/search_index.js").read_text() == f"var __index = {text}"
