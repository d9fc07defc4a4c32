import html
import re
from datetime import date

import markdown
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.markdown import day, escape, fixed, link, percent, percents, points, render, signed, whole

# Everything a site may have switched on; the text must read as itself under all of it.
EXTENSIONS = ["tables", "toc", "attr_list", "md_in_html", "footnotes", "def_list", "abbr", "admonition", "fenced_code"]
TAG = re.compile(r"<[^>]*>")


def as_read(source: str) -> str:
    """What a reader sees of a piece of markdown."""
    return html.unescape(TAG.sub("", markdown.markdown(source, extensions=EXTENSIONS))).strip()


def flat(text: str) -> str:
    return re.sub(r"[\s\x00-\x1f\x7f\u2028\u2029]+", " ", text).strip()


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "[click](javascript:alert(1))",
        "![x](https://example.org/x.png)",
        "a | b | c",
        "1. first",
        "1) first",
        "- item",
        "# heading",
        "    code",
        "--8<-- 'secret.md'",
        "{{ 7 * 7 }} {% raw %}",
        "{: onclick=alert(1) }",
        "text {: .cls }",
        "*bold* _it_ `code`",
        "[^1]: note",
        "*[HTML]: abbreviation",
        "term\n: definition",
        "</title><script>x</script>",
        "&lt;script&gt;",
        "www.example.org and https://example.org",
        "a\n\n# b",
        "--- --",
        "!!! note",
        "[chart:0123]",
        "[table:counts x]",
        "[side:L]",
        "~~gone~~ ^up^ ==mark==",
        ":smile:",
        "[[wiki]]",
    ],
)
def test_hostile_text_reads_as_itself(text: str) -> None:
    assert as_read(str(escape(text))) == flat(text)
    assert "<" not in str(escape(text))
    # In a cell it stays in its cell.
    row = markdown.markdown(f"| a | b |\n|---|---|\n| {escape(text)} | end |", extensions=EXTENSIONS)
    assert row.count("<td>") == 2
    assert "<td>end</td>" in row


@given(st.text(max_size=60))
def test_any_text_reads_as_itself(text: str) -> None:
    # Markdown itself drops the two characters it uses as marks of its own (STX, ETX), which `flat` folds away.
    seen = as_read("x " + str(escape(text)) + " x")
    assert flat(seen) == flat("x " + flat(text) + " x")


@given(st.text(alphabet="-.,'%/()?; a1*_[]{}<>|&#`\\:!\"~+=^@$", max_size=30))
def test_any_punctuation_at_the_start_of_a_line_opens_nothing(text: str) -> None:
    assert as_read(str(escape(text))) == flat(text)


def test_plain_words_stay_readable_in_the_markdown() -> None:
    assert escape("O'Tierney, J. lobs it (2 of 3), 0-2 count; 50%") == "O'Tierney, J. lobs it (2 of 3), 0-2 count; 50%"


@pytest.mark.parametrize(
    ("rate", "said"),
    [(0.0, "0 %"), (0.004, "under 1 %"), (0.62, "62 %"), (0.996, "over 99 %"), (1.0, "100 %")],
)
def test_a_percent_never_claims_more_certainty_than_the_rate(rate: float, said: str) -> None:
    assert percent(rate).replace("\N{NO-BREAK SPACE}", " ") == said


def test_numbers_and_dates_as_people_write_them() -> None:
    assert fixed(1.3) == "1.30"
    assert fixed(None) == "–"
    assert signed(-1.25) == "−1.2"
    assert fixed(points(0.0125), 1) == "1.2"
    assert signed(points(-0.08), 0) == "−8"
    assert whole(21.6) == "22"
    assert day(date(2026, 4, 3)) == "Fri 3 Apr 2026"
    assert day(None) == "date unknown"


@pytest.mark.parametrize(
    ("here", "there", "written"),
    [
        ("index", "teams/a/index", "teams/a/index.md"),
        ("teams/a/index", "teams/a/players/x", "players/x.md"),
        ("teams/a/players/x", "teams/a/infield", "../infield.md"),
        ("teams/a/players/x", "facts/a/x.json", "../../../facts/a/x.json"),
        ("teams/a/players/x", "teams/b/index", "../../b/index.md"),
    ],
)
def test_links_are_relative(here: str, there: str, written: str) -> None:
    assert link(here, there) == written


def test_a_name_the_page_does_not_have_stops_the_build() -> None:
    import jinja2

    with pytest.raises(jinja2.UndefinedError):
        render("data-quality.md.j2", page={"skipped": ()})


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [(0.84, 0.94, "84 to 94 %"), (0.001, 0.2, "under 1 % to 20 %"), (0.9, 0.9999, "90 % to over 99 %")],
)
def test_an_interval_has_one_sign_where_both_ends_are_whole(low: float, high: float, said: str) -> None:
    assert percents(low, high).replace("\N{NO-BREAK SPACE}", " ") == said
