"""A page by hand that would stop the parser or swallow what follows it is named with its line; no other is."""

import markdown
import pytest

from scoutgen.records.markdown_limits import MOST_IN_A_BLOCK, MOST_LEVELS, unfit_markdown


def nested(levels: int, mark: str = "- ") -> str:
    return "".join("    " * level + mark + "a\n" for level in range(levels))


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        (nested(300), MOST_LEVELS + 1, "nested deeper than 20 levels"),
        (nested(300, "12. "), MOST_LEVELS + 1, "nested deeper than 20 levels"),
        ("".join("\t" * level + "* a\n" for level in range(40)), MOST_LEVELS + 1, "nested deeper than 20 levels"),
        ("a\n\n" + "- " * 2_000, 3, "nested deeper than 20 levels"),
        ("a\n\n" + "> " * 400 + "b\n", 3, "nested deeper than 20 levels"),
        ("> " * 21 + "b\n" * 500, 1, "nested deeper than 20 levels"),
        (">" * 20_000, 1, "nested deeper than 20 levels"),
        ("a\n" + "[" * 20_000, 2, "more than 500 opening brackets without a blank line between"),
        ("![" * 20_000, 1, "more than 500 opening brackets"),
        ("[a](\n" * 600, 501, "more than 500 opening brackets"),
        (("[" * 400 + "\n\n") * 10, 15, "more than 3,000 opening brackets on one page"),
        ("<" * 20_000, 1, "more than 500 signs <"),
        ("<a " * 20_000, 1, "more than 500 signs <"),
        ("# a\n" * 8_000, 1_001, "at most 1,000 are read"),
        ("~~~x\n" * 8_000, 1_001, "at most 1,000 are read"),
        ("word " * 100_000, 0, "500,000 characters long; at most 300,000 are read"),
    ],
)
def test_what_would_stop_the_parser_is_refused_with_its_line(text: str, line: int, said: str) -> None:
    (found,) = unfit_markdown(text)
    assert found[0] == line
    assert said in found[1]


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("a\n\n<textarea>\n\nb", 3, "<textarea> is HTML that can swallow the rest of the page"),
        ("a <TEXTAREA rows=2> b </textarea>", 1, "<TEXTAREA> is HTML"),
        ("<title>x", 1, "<title>"),
        ("<style>\nb { }\n</style>", 1, "<style>"),
        ("a\n<script>", 2, "<script>"),
        ("<xmp>", 1, "<xmp>"),
        ("a\n\n<plaintext>\n", 3, "<plaintext>"),
        ("a\n</article>\n", 2, "</article>"),
        ("<template\nid=x>", 1, "<template>"),
        ("a <![CDATA[ b", 1, "<!["),
        ("a\n<!-- b\n\nc", 2, "a comment begins that is not closed"),
        ("<!-- a --> <!-- b", 1, "a comment begins that is not closed"),
        ("a\n<details><summary>b</summary>\n", 2, "<details> is not closed"),
        ("~~~\n<style>\n", 2, "<style>"),  # a fence that is never closed is none
        ("```\na\n```\n<style>", 4, "<style>"),
        ("`a\n\n<style>`", 3, "<style>"),  # a blank line ends what backquotes hold
        (r"\`<style>`", 1, "<style>"),
    ],
)
def test_html_that_swallows_the_page_is_refused_with_its_line(text: str, line: int, said: str) -> None:
    (found,) = unfit_markdown(text)
    assert found[0] == line
    assert said in found[1]


@pytest.mark.parametrize(
    "text",
    [
        "",
        nested(MOST_LEVELS),
        "> " * MOST_LEVELS + "b\n",
        "[a](b.md) " * MOST_IN_A_BLOCK,
        ("[a](b.md) " * 100 + "\n\n") * 30,
        "* " * 5 + "a\n",
        "`<textarea>` and ``<style> ` <b>`` and\n`<xmp>\n<title>`\n",
        "```html\n<textarea>\n```\n\n~~~\n```\n<style>\n~~~\n",
        "a\n\n    <style>\n\n    <!-- b\n",
        "\t<script>\n",
        "<!-- a remark\n<style> -->\n",
        "<b>a</b> <titles> <styled-thing>",
        "<details><summary>a</summary>\n\nb\n\n</details>\n<video src='a.mp4' controls></video> <svg/>",
        "a < b, 3 <- 4, R&D\n",
        "[side: the left](a.md) [box:x][b] [fold]: [chart] `[slot:1]` {a} {#b}\n\n    {% raw %}\n",
        "|a|b|\n|-|-|\n" + "|c|[d](e.md)|\n" * MOST_IN_A_BLOCK,
        "# a\n\n" * 1_000,
        "\\" * 20_000 + "`" * 20_000 + "*" * 20_000 + "_" * 20_000,
        " ".join("`" * (i % 50 + 1) + "a" for i in range(5_000)),
    ],
)
def test_an_ordinary_page_passes(text: str) -> None:
    assert unfit_markdown(text) == []


@pytest.mark.parametrize(
    "mark", ["[side:L]", "[slot:7]", "[part:Words]", "[chart:gone", "[box:a] b](c.md)", "{{ x }}", "{% raw %}"]
)
def test_what_only_made_pages_hold_is_refused_with_its_line(mark: str) -> None:
    ((line, why),) = unfit_markdown(f"# A\n\nb\n{mark}\n")
    assert line == 4
    assert why.endswith(" is kept for the pages that are made; put it in backquotes to show it")
    assert mark.startswith(why.split()[0])


def test_the_parser_gets_through_what_is_allowed() -> None:
    for text in (nested(MOST_LEVELS), "- " * MOST_LEVELS + "a", "> " * MOST_LEVELS + "a", ("[" * 500 + "\n\n") * 6):
        assert unfit_markdown(text) == []
        assert markdown.markdown(text, extensions=["toc", "tables", "fenced_code"]).startswith("<")
