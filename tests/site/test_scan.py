import pytest

from scoutgen.site.scan import Scanned, dead_links, scan_page


@pytest.mark.parametrize(
    ("html", "said"),
    [
        ("<script>alert(1)</script>", "unknown inline script: alert(1)"),
        ("<SCRIPT type=module>x()</SCRIPT >", "unknown inline script"),
        ("<style>p{background:url(//x)}</style>", "inline <style>"),
        ('<p onclick="x()">a</p>', "event handler onclick on <p>"),
        ("<img/onerror=x() src=a.png>", "event handler onerror"),
        ("<svg/onload=x()>", "event handler onload"),
        ("<img src=a.png onerror=x()", "event handler onerror"),
        ('<img title="a"onerror="x()">', "event handler onerror"),
        ('<img " onerror=x()>', "event handler onerror"),
        ("<!--> <script>x</script> -->", "unknown inline script"),
        ("<!-- a --!> <script>x</script> -->", "unknown inline script"),
        ('<a href="javascript:alert(1)">a</a>', "javascript: link"),
        ('<a href="java&#10;script:alert(1)">a</a>', "javascript: link"),
        ('<a href="&#106;avascript:alert(1)">a</a>', "javascript: link"),
        ('<a href=" vbscript:x">a</a>', "vbscript: link"),
        ('<a href="data:text/html,x">a</a>', "data: link"),
        ('<img src="https://example.org/x.png">', "external address https://example.org/x.png"),
        ('<link href="//example.org/x.css">', "external address"),
        ('<a href="http://example.org">a</a>', "external address"),
        ('<form action="https://example.org">', "external address"),
        ('<img srcset="https://example.org/x 2x">', "srcset that may load something"),
        ('<p style="background:url(https://example.org/x)">', "style that may load something"),
        ('<rect fill="url(https://example.org/x#a)"/>', "url() on <rect>"),
        ('<path clip-path="URL( //example.org/x#a)"/>', "url() on <path>"),
        ('<iframe src="a.html"></iframe>', "<iframe> element"),
        ('<object data="a"></object>', "<object> element"),
        ('<base href="/">', "<base> element"),
        ('<meta http-equiv="refresh" content="0;url=a">', "sends readers elsewhere"),
        ("<p>[chart:abc]</p>", "left over: [chart:abc]"),
        ("<p>[table:counts x]</p>", "left over: [table:counts x]"),
        ("<p>[part:Numbers]</p>", "left over: [part:Numbers]"),
        ("<p>[slot:3]</p>", "left over: [slot:3]"),
        ("<p>{{ page.name }}</p>", "left over: {{"),
        ("<p>{% if x %}</p>", "left over: {%"),
        ('<p id="a"></p><p id="a"></p>', "id 'a' stands 2 times"),
        ("<textarea>\n<p>a</p>", "<textarea> element"),
        ("<p><XMP></p>", "<xmp> element"),
        ("<plaintext>", "<plaintext> element"),
        ("<template><p>a</p></template>", "<template> element"),
        ("<noscript>a</noscript>", "<noscript> element"),
        ("<title>a", "<title> element"),
        ("<svg><title>a</title></svg><title>b</title>", "<title> element"),
        ("<style>\n<p>a</p>", "a comment, <script> or <style> that is not closed"),
        ('<p><script src="a.js"></p>', "a comment, <script> or <style> that is not closed"),
        ('<script src="a.js"></script><!-- a', "a comment, <script> or <style> that is not closed"),
    ],
)
def test_what_must_not_be_in_a_page_is_named(html: str, said: str) -> None:
    _, wrong = scan_page(f"<html><head><title>x</title></head><body>{html}</body></html>")
    assert [line for line in wrong if said in line], wrong


@pytest.mark.parametrize(
    "html",
    [
        '<script src="a.js"></script>',
        '<script id="__config" type="application/json">{"a":"<b onclick=x>"}</script>',
        "<p>onclick=&quot;x&quot; javascript:alert(1) https://example.org</p>",
        "<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>",
        "<!-- <script>x</script> -->",
        "<pre>{{ braces in code }}</pre>",
        '<td data-label="onclick=x">a > b</td>',
        '<img src="data:image/png;base64,AA">',
        '<g clip-path="url(#c1n1)"><path d="M0,0" transform="translate(1,2)"/></g>',
        '<a href="#here" id="here">a</a>',
        "<svg><title>a</title></svg> <svg class=x><title>b</title></svg>",
        "<code>&lt;textarea&gt; &lt;!-- &lt;style&gt;</code>",
    ],
)
def test_what_is_harmless_passes(html: str) -> None:
    assert scan_page(f"<html><head><title>x</title></head><body>{html}</body></html>")[1] == []


PAGES = {
    "index.html": Scanned(ids={"plan"}, links={"a/", "a/#top", "#plan", "assets/x.css?v=1"}),
    "a/index.html": Scanned(ids={"top"}, links={"..", "../index.html", "../#plan", "../facts/a.json", "."}),
    "404.html": Scanned(links={"/sub/", "/sub/a/", "/sub/assets/x.css"}),
}
FILES = {"index.html", "a/index.html", "404.html", "assets/x.css", "facts/a.json"}


def test_links_that_lead_somewhere_are_no_matter() -> None:
    assert dead_links(PAGES, FILES, root="/sub/") == []


@pytest.mark.parametrize(
    ("link", "said"),
    [
        ("b/", "nothing is at b/"),
        ("../../", "nothing is at ../../"),
        ("#gone", "#gone has no such anchor"),
        ("../#gone", "../#gone has no such anchor"),
        ("/elsewhere/", "nothing is at /elsewhere/"),
    ],
)
def test_links_that_lead_nowhere_are_named(link: str, said: str) -> None:
    pages = {**PAGES, "a/index.html": Scanned(ids={"top"}, links={link})}
    assert dead_links(pages, FILES, root="/sub/") == [("a/index.html", said)]
