from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.pen_forms import pen_forms

WORDS = st.lists(st.from_regex(r"[a-z]{1,9}([_-][a-z0-9]{1,9}){0,3}", fullmatch=True), unique=True, max_size=30)


def test_first_letters_do_where_they_tell_words_apart() -> None:
    assert pen_forms(["ground", "line", "hit_by_pitch", "pickoff_1"]) == {
        "ground": "g",
        "line": "l",
        "hit_by_pitch": "hbp",
        "pickoff_1": "p1",
    }


def test_words_that_would_share_a_form_take_more_letters() -> None:
    assert pen_forms(["called_strike", "clock_strike", "single"]) == {
        "called_strike": "cas",
        "clock_strike": "cls",
        "single": "s",
    }


def test_words_that_are_short_already_stay_as_they_are() -> None:
    assert pen_forms(["", "1", "12", "123"]) == {"": "", "1": "1", "12": "12", "123": "123"}
    assert pen_forms(["L", "R"]) == {"L": "L", "R": "R"}


@given(WORDS)
def test_no_two_words_share_a_form_and_none_gets_longer(words: list[str]) -> None:
    forms = pen_forms(words)
    assert list(forms) == words
    assert len({form.casefold() for form in forms.values()}) == len(words)
    assert all(len(form) <= len(word) for word, form in forms.items())
