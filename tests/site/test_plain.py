"""Any text in HTML is that text and nothing else."""

import html

import pytest
from payloads import PAYLOADS

from scoutgen.site.plain import plain, without_openers


@pytest.mark.parametrize("text", [*PAYLOADS.values(), "{{ x }} {% y %} [slot:1]", "\"'<&>"])
def test_it_reads_back_as_it_was_and_opens_nothing(text: str) -> None:
    shown = plain(text)
    assert html.unescape(shown) == html.unescape(html.escape(text))
    assert not set("<>\"'{[") & set(shown)


def test_markup_keeps_its_tags_and_loses_what_looks_like_a_template() -> None:
    assert without_openers("<b>{{ [slot:1]</b>") == "<b>&#123;&#123; &#91;slot:1]</b>"
