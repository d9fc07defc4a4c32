"""The charting list in the hand of whoever has the pencil."""

import io
from collections.abc import Callable
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser


@pytest.mark.browser
def test_the_list_for_the_next_game_is_one_sheet_of_paper(
    browser: Browser, serve: Callable[[Path], str], demo_site: Path
) -> None:
    page = browser.new_page()
    page.goto(serve(demo_site) + "not-known-yet/harbor/")
    paper = pypdf.PdfReader(io.BytesIO(page.pdf(format="Letter", prefer_css_page_size=True)))
    page.close()
    assert len(paper.pages) == 1
    text = " ".join(paper.pages[0].extract_text().split())
    for words in ("27 Iker Núñez, Friday", "Steal of second: open for", "Their lineup", "Who may come in", "no watch."):
        assert words in text
    assert "Other lists" not in text
