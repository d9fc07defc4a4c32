"""What search shows under a title must read as sentences, and answer what is typed on a bench."""

import re

from scoutgen.pages.book import Book, Page

STARTER = "teams/harbor/players/iker-nunez"


def shown(demo_pages: dict[str, Page], address: str) -> str:
    return demo_pages[address].search[0].text


def test_every_entry_is_made_of_whole_sentences(demo_book: Book) -> None:
    entries = [entry for page in demo_book.pages for entry in page.search]
    assert len(entries) > 100
    for entry in entries:
        for sentence in re.split(r"(?<=[.?!]) ", entry.text):
            assert re.match(r"[\"A-Z0-9]", sentence), entry
            assert sentence[-1] in ".?!", entry
        assert not re.search(r"[\[\]|*<>]|  |&#", entry.text), entry


def test_a_pitcher_answers_what_is_typed_in_a_hurry(demo_pages: dict[str, Page]) -> None:
    text = shown(demo_pages, STARTER)
    assert text.startswith("RHP, right-handed starter, of Gannet Harbor.")
    assert "Throws fastball, curve, change, slider." in text
    assert re.search(r"Lefties: first pitch \w+, two strikes \w+", text)
    assert re.search(r"Slide step \d\.\d\d s \(\d+ \w+\)\.", text)
    assert re.search(r"Balks: (none|\d+) in \d+ sets\.", text)


def test_what_a_few_pitches_say_is_not_said_without_their_tally(demo_pages: dict[str, Page]) -> None:
    assert "first pitch" not in shown(demo_pages, "teams/harbor/players/paulo-kealohanui")


def test_a_catcher_and_a_hitter_are_found_by_their_times_and_habits(demo_pages: dict[str, Page]) -> None:
    assert re.search(r"Pop to second \d\.\d\d s", shown(demo_pages, "teams/harbor/players/ruben-castellane"))
    assert re.search(r"Home to first \d\.\d\d s", shown(demo_pages, "teams/harbor/players/theo-okonjo"))
