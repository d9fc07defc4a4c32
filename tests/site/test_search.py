import json
import re

import pytest

from scoutgen.site.search import SEPARATOR, Found, fold, index, sentences


@pytest.mark.parametrize(
    ("written", "typed"),
    [
        ("Iván Núñez", "ivan nunez"),
        ("O’Dea", "odea"),
        ("O'Dea", "odea"),
        ("Łukasz Sørensen", "lukasz sorensen"),
        ("Weiß", "weiss"),
        ("Bjarnason-Þór", "bjarnason-thor"),
        ("#27", "#27"),
    ],
)
def test_folding_leaves_what_any_keyboard_can_type(written: str, typed: str) -> None:
    assert fold(written) == typed
    assert fold(typed) == typed


def docs(*entries: Found) -> list[dict[str, object]]:
    found: list[dict[str, object]] = json.loads(index(entries))["docs"]
    return found


def test_a_title_is_found_without_its_accents() -> None:
    (doc,) = docs(Found("teams/harbor/ivan-nunez/", "Iván Núñez #27 LHP", "fastball", boost=10))
    assert doc == {
        "location": "teams/harbor/ivan-nunez/",
        "title": "Iván Núñez #27 LHP",
        "keys": "ivan nunez",
        "text": "fastball",
        "boost": 10,
    }


def test_a_name_with_an_apostrophe_is_found_in_one_piece() -> None:
    (doc,) = docs(Found("a/", "Otto O’Dea #2 LHP", "", boost=10))
    assert doc["keys"] == "odea"


def test_keys_find_as_a_title_does_each_once_folded_and_without_what_it_says_already() -> None:
    (doc,) = docs(Found("a/", "27 Iker Núñez", "Throws.", keys="Gannet Harbor RHP, harbor Núñez Cañón slider/change"))
    assert doc["keys"] == "nunez gannet harbor rhp canon slider change"
    assert doc["text"] == "Throws.", "they are not shown"


def test_words_of_a_text_are_folded_beside_their_spelling() -> None:
    (doc,) = docs(Found("a/", "A", "Peña throws from Cañada"))
    assert doc["text"] == "Peña throws from Cañada"  # what is shown reads as it was written
    assert doc["also"] == "pena canada"


def test_what_the_worker_writes_into_the_page_is_escaped() -> None:
    (doc,) = docs(Found("a/", "<b>R&D", "<script>x</script>"))
    assert doc["title"] == "&lt;b&gt;R&amp;D"
    assert doc["text"] == "&lt;script&gt;x&lt;/script&gt;"


def test_numbers_hands_and_names_come_apart_from_what_surrounds_them() -> None:
    words = re.split(SEPARATOR, "Núñez, Iván · #27 (LHP) O'Dea/1-2")
    assert words == ["Núñez", "Iván", "27", "LHP", "O", "Dea", "1", "2"]


def test_no_name_is_a_stop_word_and_no_word_is_cut() -> None:
    assert json.loads(index([]))["config"]["pipeline"] == []


def test_a_hand_written_page_is_shown_as_sentences_and_found_by_its_table() -> None:
    page = (
        "<h1>Bus</h1><h2>On the way</h2><p>Read it <em>there</em>.</p><p>[slot:3]</p><ul><li>phones</li></ul>"
        "<table><tr><th>When</th><td>5:30</td></tr></table><p>R&amp;D</p>"
    )
    assert sentences(page) == ("On the way. Read it there. phones. R&D.", "When 5:30")
    (doc,) = docs(Found("bus/", "Bus", "Read it.", also="Peña 5:30"))
    assert (doc["text"], doc["also"]) == ("Read it.", "Peña 5:30 pena")
