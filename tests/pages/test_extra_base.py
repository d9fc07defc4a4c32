"""Whom to take the extra base on, as the demo's running page says it."""

from itertools import pairwise

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
    # One cell counted by hand, pitch after pitch.
    rows = demo_season.pitches.to_dict("records")
    seen = []
    for hit, then in pairwise(rows):
        to_right = (hit["play"], hit["fielder"], hit["pitcher_team"]) == ("single", 9, "harbor")
        same_half = all(hit[column] == then[column] for column in ("game", "inning", "half"))
        if to_right and same_half and hit["bases"] in ("1", "13") and then["outs"] == hit["outs"]:
            seen.append("3" in then["bases"] or hit["lead"] - then["lead"] > ("3" in hit["bases"]))
    others = [hit for hit in rows if hit["bases"] in ("12", "123") and hit["play"] == "single" and hit["fielder"] == 9]
    right = counted["right field", "first_third"]
    assert sum(seen) <= right.k
    assert len(seen) <= right.n <= len(seen) + len(others)
    assert len(seen) > 5


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
        assert ", ".join(f"{share:.0%}".replace("%", " %") for share in sending.need) in text
    assert extra.sendings["first_third"].need == pytest.approx((0.79, 0.78, 0.93), abs=0.02)
