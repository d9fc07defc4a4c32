from hypothesis import given
from hypothesis import strategies as st

from scoutgen.records.pen_forms import pen_forms, short_forms
from scoutgen.records.vocabulary import DEFAULT_PITCHES

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


def test_every_form_of_a_word_is_known_with_all_that_it_may_mean() -> None:
    forms = short_forms(["called_strike", "clock_strike", "foul", "foul_tip"])
    assert forms["cs"] == ("called_strike", "clock_strike")
    assert forms["cas"] == forms["calleds"] == forms["called_strike"] == ("called_strike",)
    assert forms["f"] == forms["fou"] == forms["foul"] == ("foul",)
    assert forms["ft"] == ("foul_tip",)
    assert "c" not in forms


def test_what_charters_write_for_a_pitch_is_short_for_nothing_else() -> None:
    spelled = {form.casefold() for forms in DEFAULT_PITCHES.values() for form in forms}
    words = ["foul_bunt", "foul", "clock_ball", "single", "slide"]
    assert not spelled & (set(short_forms(words)) - {word.casefold() for word in words})
    assert pen_forms(words) == {"foul_bunt": "fob", "foul": "f", "clock_ball": "clb", "single": "sin", "slide": "sli"}


def test_a_word_is_itself_even_where_it_could_be_short_for_another() -> None:
    assert short_forms(["line", "l"])["l"] == ("l",)
    assert pen_forms(["line", "l", "double", "dot_ball"]) == {
        "line": "li", "l": "l", "double": "d", "dot_ball": "db",
    }  # fmt: skip


@given(WORDS, WORDS)
def test_a_form_on_paper_means_its_word_and_with_more_words_never_another(words: list[str], more: list[str]) -> None:
    grown = short_forms([*words, *more])
    for word, form in pen_forms(words).items():
        assert short_forms(words)[form.casefold()] == (word,)
        # A word that is added may be spelled like a form; that is seen on the sheet, which has it as a word.
        if form.casefold() not in more:
            assert word in grown[form.casefold()]
