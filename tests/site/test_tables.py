import pytest

from scoutgen.site.tables import TableError, framed, inline, table_html


def same(target: str) -> str:
    return target


LINES = ["| Count | Fastball |", "|---|---:|", "| 0-0 | **61 %** (19 of 31) |", "| 1-0 | – |"]


def test_rows_and_columns_are_named_for_screen_readers_and_for_reflow() -> None:
    html = table_html(LINES, kind="counts", label="Usage by count", link=same)
    assert html == (
        '<div class="table-scroll" role="region" aria-label="Usage by count" tabindex="0">'
        '<table class="tbl tbl-counts"><thead><tr><th scope="col">Count</th><th scope="col" class="num">Fastball</th>'
        '</tr></thead><tbody><tr><th scope="row">0-0</th><td data-label="Fastball" class="num">'
        "<strong>61\u00a0%</strong> (19\u00a0of\u00a031)</td></tr>"
        '<tr><th scope="row">1-0</th><td data-label="Fastball" class="num">–</td></tr></tbody></table></div>'
    )


@pytest.mark.parametrize(
    ("cell", "html"),
    [
        ("a &#124; b", "a &#124; b"),
        ("&#60;b&#62;", "&#60;b&#62;"),
        ("<script>x</script>", "&lt;script&gt;x&lt;/script&gt;"),
        ("&lt;b&gt;", "&amp;lt;b&amp;gt;"),
        ("R&D", "R&amp;D"),
        ('say "no"', "say &quot;no&quot;"),
        ("two<br>lines", "two<br>lines"),
        ("[Núñez](../a/nunez.md#clocks)", '<a href="../a/nunez.md#clocks">Núñez</a>'),
        ("**[x](y.md)**", '<strong><a href="y.md">x</a></strong>'),
        ("![x](y.png)", '!<a href="y.png">x</a>'),
        ("{: onclick=alert(1) }", "{: onclick=alert(1) }"),
    ],
)
def test_a_cell_holds_four_marks_and_text(cell: str, html: str) -> None:
    assert inline(cell, same) == html


@pytest.mark.parametrize(
    "target",
    ["javascript:alert", "JaVaScRiPt:x", "https://example.org", "//example.org", "&#106;avascript&#58;x", "\\\\x"],
)
def test_a_link_out_of_the_site_is_refused(target: str) -> None:
    with pytest.raises(TableError, match="leads out of the site"):
        inline(f"[x]({target})", same)


@pytest.mark.parametrize(
    ("lines", "reason"),
    [
        (["| a | b |", "|---|---|", "| 1 |"], "has not 2 cells"),
        (["| a | b |", "| 1 | 2 |"], "no rule of dashes"),
        (["| a |"], "no rule of dashes"),
    ],
)
def test_a_table_that_cannot_be_read_says_why(lines: list[str], reason: str) -> None:
    with pytest.raises(TableError, match=reason):
        table_html(lines, kind="plain", label="x", link=same)


def test_a_column_of_sentences_is_given_room() -> None:
    lines = ["| Who | Question | n |", "|---|---|---:|", "| Paik | Does he lob it back to the mound? | 3 |"]
    html = table_html(lines, kind="plain", label="x", link=same)
    assert html.count('class="txt"') == 2
    assert '<td data-label="Question" class="txt">Does he' in html


@pytest.mark.parametrize("cell", ["fastball 58 %<br>23 of 39, usable", "[Núñez](../../harbor/players/ivan-nunez.md)"])
def test_short_lines_and_links_are_no_sentences(cell: str) -> None:
    assert 'class="txt"' not in table_html(
        ["| A | B |", "|---|---|", f"| a | {cell} |"], kind="p", label="x", link=same
    )


def test_a_table_written_by_hand_gets_a_frame_of_its_own_name() -> None:
    page = framed("<p>x</p><table><tr><td>1</td></tr></table><table>2</table>")
    assert page.count('role="region"') == page.count('tabindex="0"') == page.count("</table></div>") == 2
    assert page.count('aria-label="Table 1 of this page"') == page.count('aria-label="Table 2 of this page"') == 1
    assert page.startswith('<p>x</p><div class="table-scroll"')


@pytest.mark.parametrize("page", ["<p>no table</p>", '<table class="tbl tbl-go"><tr></tr></table>', "<table>open"])
def test_what_needs_no_frame_stays_as_it_is(page: str) -> None:
    assert framed(page) == page
