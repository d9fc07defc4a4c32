"""An opponent's share of the book comes back as it was, said to be built now; what cannot is not kept."""

from contextlib import suppress
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.book import Chart, Page, SearchEntry, TeamBook
from scoutgen.pages.said import Saying
from scoutgen.pages.team_text import from_text, to_text

THEN, NOW = "2026-04-09 21:40", "2026-04-10 08:00"
# Ends of lines for one reader or another, marks of JSON, Markdown and HTML, right to left, out of the basic plane.
HOSTILE = 'a"b\\c\r\n\u2028\u2029\x85\x1c</script>&amp;\u202e|[x](y)\U0001f9e2 Núñez\u0301 {{ 0 }} \\u0000 '


def book(text: str = "Words.", built: str = THEN) -> TeamBook:
    return TeamBook(
        pages=(
            Page(
                "teams/harbor/index",
                f"Harbor {text}",
                f"# Harbor\n\n{text}\n\nBuilt {built}, {built}.\n",
                (SearchEntry(text, text, "anchor", 2.5, "keys"), SearchEntry("Other", "")),
                ("Opponents", text),
            ),
            Page("teams/harbor/infield", "", f"{text}{built}"),
        ),
        charts={"a": Chart(f'{{"title": "{built}"}}{text}', text, "described"), "b": Chart("", "", "")},
        facts={"facts/harbor/a.json": f"{text}{built}", "facts/harbor/b.json": ""},
        said={
            "note/a": Saying("note", "Harbor", "Núñez", "delivery", text, "teams/harbor/index#notes"),
            "clock/a": Saying("clock", "Harbor", "Núñez", "home", "1.38 s", "x", n=5, value=1.38, low=1.3, high=1.46),
            "share/a": Saying("number", "Harbor", "Núñez", "0-0", "61 %", "x", "L", 19, 31, 19 / 31, 0.1, 0.9, "lean"),
        },
    )


def test_a_book_comes_back_as_it_was() -> None:
    assert from_text(to_text(book(), THEN), THEN) == book()
    assert from_text(to_text(TeamBook(), THEN), THEN) == TeamBook()


def test_it_comes_back_built_now() -> None:
    kept = to_text(book(), THEN)
    assert THEN not in kept
    assert from_text(kept, NOW) == book(built=NOW)
    # As long as it takes to say it.
    assert from_text(kept, "later") == book(built="later")
    assert to_text(book(built=NOW), NOW) == kept


def test_hostile_characters_survive() -> None:
    assert from_text(to_text(book(HOSTILE), THEN), NOW) == book(HOSTILE, NOW)


@given(st.text(max_size=40).filter(lambda text: THEN not in text and "\0" not in text))
def test_any_text_survives(text: str) -> None:
    assert from_text(to_text(book(text), THEN), NOW) == book(text, NOW)


def with_time_in(where: str, text: str) -> TeamBook:
    """A book in which something that is kept as it is holds a text."""
    made = book()
    first, *others = made.pages
    if where == "title":
        return replace(made, pages=(replace(first, title=text), *others))
    if where == "search":
        return replace(made, pages=(replace(first, search=(SearchEntry("Harbor", text),)), *others))
    if where == "menu":
        return replace(made, pages=(replace(first, menu=(text,)), *others))
    if where == "description":
        return replace(made, charts={"a": Chart("", "", text)})
    return replace(made, said={"note/a": replace(made.said["note/a"], said=text)})


@pytest.mark.parametrize("where", ["title", "search", "menu", "description", "note"])
def test_a_note_that_says_the_time_of_the_build_is_not_kept(where: str) -> None:
    with pytest.raises(ValueError, match="says when the build was"):
        to_text(with_time_in(where, f"Seen {THEN} by the bus"), THEN)
    other = with_time_in(where, f"Seen {NOW} by the bus")
    assert from_text(to_text(other, THEN), THEN) == other


@pytest.mark.parametrize("where", ["markdown", "spec", "facts"])
def test_what_holds_the_mark_already_is_not_kept(where: str) -> None:
    made = {
        "markdown": TeamBook(pages=(Page("a", "A", "a\0b"),)),
        "spec": TeamBook(charts={"a": Chart("a\0b", "", "")}),
        "facts": TeamBook(facts={"a": "a\0b"}),
    }[where]
    with pytest.raises(ValueError, match="says when the build was"):
        to_text(made, THEN)


@given(st.integers(0, 2000), st.text(max_size=4))
def test_what_is_damaged_is_refused_or_still_a_book(at: int, noise: str) -> None:
    whole = to_text(book(), THEN)
    at %= len(whole)
    with suppress(ValueError):
        assert isinstance(from_text(whole[:at] + noise + whole[at + 2 :], NOW), TeamBook)


@pytest.mark.parametrize("text", ["", "garbage", "[]", "{}", "3", '{"pages": 3}', "[" * 100_000, '{"pages": [[]]}'])
def test_what_is_no_head_of_a_book_is_refused(text: str) -> None:
    with pytest.raises(ValueError):  # noqa: PT011 - JSON has words of its own for some
        from_text(text, NOW)
