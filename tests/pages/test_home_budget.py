"""The budget of a run home as the demo's running page says it."""

import pytest
from pages.demo import running_page_of, section

from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.records.season import Season


def test_home_on_the_return_throw_has_a_yes_and_a_no_and_its_sum(
    demo_season: Season, demo_findings: Findings, demo_pages: dict[str, Page]
) -> None:
    page = running_page_of(demo_season, demo_findings)
    home = section(demo_pages["running"], "Home on the return throw")
    assert "▲ yes" in home
    assert "✕ no" in home
    assert "signal, answered" in home
    assert "he does not swing" in home
    assert page.home is not None
    parts = page.home.flight_s + page.home.turn_s + page.home.throw_s + page.home.tag_s
    assert page.home.ball_s == pytest.approx(parts)
    for way in page.home.ways:
        assert way.margin_s == pytest.approx(page.home.ball_s - way.run_s)
        # Nobody is told no at a chance that is printed as enough, nor the other way round.
        assert (way.call == "no") == (way.p_safe < page.home.need[2])
    assert f"returned it without a look in {page.home.look_k} of {page.home.look_n} looks" in home
