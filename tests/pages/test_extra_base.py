"""Whom to take the extra base on, as the demo's running page says it."""

import pytest
from pages.demo import running_page_of, section

from scoutgen.measures.extra_bases import PLAYS
from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.records.season import Season


def test_every_number_is_k_of_n_and_traceable_to_the_chart(
    demo_season: Season, demo_findings: Findings, demo_pages: dict[str, Page]
) -> None:
    extra = running_page_of(demo_season, demo_findings).extra
    text = section(demo_pages["running"], "The extra base")
    assert [field.where for field in extra.fields] == ["left field", "center field", "right field"]
    counted = {
        (field.where, play): taken.claim for field in extra.fields for play, taken in field.taken.items() if taken
    }
    for claim in counted.values():
        assert f"{claim.k} of {claim.n}" in text
    pitches = demo_season.pitches
    singles = pitches["play"].eq("single") & pitches["fielder"].eq(9) & pitches["pitcher_team"].eq("harbor")
    on_first = singles & pitches["bases"].astype(str).str.contains("1")
    assert 0 < counted["right field", "first_third"].n <= int(on_first.sum())


def test_outfielders_stand_with_their_throws_and_what_sending_needs(
    demo_season: Season, demo_findings: Findings, demo_pages: dict[str, Page]
) -> None:
    extra = running_page_of(demo_season, demo_findings).extra
    text = section(demo_pages["running"], "The extra base")
    right = extra.fields[2].man
    assert right is not None
    assert "RF" in right.man.positions
    assert f"{right.man.name}, right field: bounces the ball to the cutoff man" in text
    assert list(extra.sendings) == list(PLAYS)
    assert extra.sendings["second_home"].need[2] < extra.sendings["second_home"].need[0]
    for sending in extra.sendings.values():
        assert " ".join(f"{share:.0%}".replace("%", " %") for share in sending.need) in text
    assert extra.sendings["first_third"].need == pytest.approx((0.79, 0.78, 0.93), abs=0.02)
