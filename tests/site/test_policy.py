import pytest

from scoutgen.site.policy import POLICY, PolicyError, with_policy


def test_the_policy_is_the_first_thing_in_the_head() -> None:
    page = with_policy("<html><head><meta charset=utf-8></head></html>")
    assert page.startswith('<html><head><meta http-equiv="Content-Security-Policy"')
    assert '<meta name="robots" content="noindex' in page
    assert '<meta name="referrer" content="no-referrer">' in page


def test_nothing_inline_and_nothing_from_elsewhere_may_run() -> None:
    rules = dict(rule.split(" ", 1) for rule in POLICY.split("; "))
    assert rules["default-src"] == "'none'"
    assert rules["script-src"] == "'self'"
    assert not [rule for rule in rules.values() if "http" in rule or "*" in rule or "unsafe-eval" in rule]


@pytest.mark.parametrize("page", ["<html><body></body></html>", "<head></head><head></head>"])
def test_a_page_without_exactly_one_head_is_refused(page: str) -> None:
    with pytest.raises(PolicyError):
        with_policy(page)
