import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.claims import Claim, claim, claims
from scoutgen.records.program import Thresholds

LIMITS = Thresholds()


def row(k: int = 18, n: int = 29, share: float = 0.62, half: float = 0.1) -> dict[str, object]:
    return {"pitch": "fastball", "k": k, "n": n, "share": share, "low": share - half, "high": share + half}


def said(c: Claim, macro: str) -> str:
    from scoutgen.pages.markdown import _environment

    template = _environment().from_string(f'{{% import "claim.md.j2" as claim %}}{{{{ claim.{macro}(c) }}}}')
    return str(template.render(c=c)).replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize(
    ("half", "sure"), [(0.10, "firm"), (0.101, "usable"), (0.15, "usable"), (0.19, "lean"), (0.21, "thin")]
)
def test_how_sure_goes_by_the_half_width(half: float, sure: str) -> None:
    assert claims([row(half=half)], "pitch", LIMITS)[0].sure == sure


def test_few_looks_are_thin_however_sure_the_estimate() -> None:
    assert claim(row(k=5, n=19, half=0.02), "x", LIMITS).sure == "thin"
    assert claim(row(k=5, n=20, half=0.02), "x", LIMITS).sure == "firm"


def test_a_sure_claim_is_a_percent_with_k_of_n() -> None:
    c = claim(row(), "fastball", LIMITS)
    assert said(c, "short") == "62 % (18 of 29)"
    assert said(c, "said") == "fastball 62 % (18 of 29)"
    assert said(c, "range") == "52 % to 72 %"
    assert said(c, "sure") == "● firm"


def test_a_thin_claim_is_words_and_k_of_n() -> None:
    c = claim(row(k=3, n=5), "fastball", LIMITS)
    assert said(c, "short") == "3 of 5"
    assert said(c, "said") == "mostly fastball, 3 of 5"
    assert said(c, "range") == "–"


def test_never_seen_says_so_with_its_bound_of_three_in_n() -> None:
    c = claim(row(k=0, n=40, share=0.02, half=0.02), "slide step", LIMITS)
    assert said(c, "said") == "slide step not in 40, so under about 8 %"
    # Too few looks for a percent, and looks enough for one that would say nothing.
    few = row(k=0, n=19, share=0.02, half=0.02)
    assert said(claim(few, "slide step", LIMITS), "said") == "slide step not in 19"
    nothing = Thresholds(few_pitches=1, firm=0.1, usable=0.1, lean=0.1)
    assert said(claim(few, "slide step", nothing), "said") == "slide step not in 19"


def test_not_charted_is_no_number_at_all() -> None:
    c = claim({"k": 0, "n": 0, "share": None, "low": None, "high": None}, "fastball", LIMITS)
    assert said(c, "short") == "not charted"
    assert c.sure == "thin"


@given(
    k=st.integers(0, 60),
    extra=st.integers(0, 60),
    share=st.floats(0, 1),
    half=st.floats(0, 0.5),
)
def test_no_percent_ever_stands_beside_a_thin_claim(k: int, extra: int, share: float, half: float) -> None:
    c = claim(row(k=k, n=k + extra, share=share, half=half), "fastball", LIMITS)
    if c.sure == "thin" and c.k:
        assert "%" not in said(c, "short") + said(c, "said") + said(c, "range") + said(c, "cell")
    if c.n:
        assert str(c.n) in said(c, "short")
