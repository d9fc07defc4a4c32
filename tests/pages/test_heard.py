"""The calls in words, and the short version on a man's own page."""

import re

from pages.demo import plain

from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.heard import CALL_WORDS, SHORT_CALLS, calls_of, heard
from scoutgen.pages.people import people
from scoutgen.records.season import Season

FRIDAY, CATCHER = "iker-nunez", "ruben-castellane"


def test_the_short_version_stands_with_pitcher_and_catcher(
    demo_season: Season, demo_findings: Findings, demo_pages: dict[str, Page]
) -> None:
    his = plain(demo_pages[f"teams/harbor/players/{FRIDAY}"].markdown)
    assert re.search(
        r"\[Our runners to second\]\(\.\./\.\./\.\./running\.md\), 12 Castellane catching: ▲ go 1 Wrenfield 9\d %", his
    )
    catcher = plain(demo_pages[f"teams/harbor/players/{CATCHER}"].markdown)
    assert catcher.count("Our runners to second") == 3
    men = {person.man.key: person for person in people(demo_season)["harbor"]}
    line = heard(men[FRIDAY], men[CATCHER], men[CATCHER], demo_findings, demo_season)
    assert line is not None
    calls = calls_of(demo_findings.of("calls", "harbor", FRIDAY), CATCHER)
    assert len(line.go) + line.only_if + line.no + line.unknown == sum(base == "2" for _, base in calls)


def test_every_call_has_its_own_shape() -> None:
    for words in (CALL_WORDS, SHORT_CALLS):
        assert set(words) == {"go", "only_if", "no", "unknown"}
        assert len({word[0] for word in words.values()}) == 4


def test_names_stop_where_they_would_bury_the_rest(demo_season: Season, demo_findings: Findings) -> None:
    men = {person.man.key: person for person in people(demo_season)["harbor"]}
    line = heard(men["bexley-tran"], men[CATCHER], men[CATCHER], demo_findings, demo_season)
    assert line is not None
    assert len(line.named) == 4
    assert line.more == len(line.go) - 4 > 0
    shares = [share for _, share in line.go]
    assert shares == sorted(shares, reverse=True)


def test_a_battery_nobody_was_timed_against_says_nothing(demo_season: Season, demo_findings: Findings) -> None:
    teams = people(demo_season)
    stranger = next(person for person in teams["cottersby"] if person.pitches)
    assert heard(stranger, stranger, stranger, demo_findings, demo_season) is None
