import markdown
import pytest

from scoutgen.site.marks import MarkError, fill, to_slots

PAGE = """# Núñez

[box:look]

**First pitch** fastball.

[box:end]
[side:L]

## Lefties

[table:counts Usage, left]

| Count | FB |
|---|---|
| 0-0 | 1 of 3 |

[side:end]

Text with [brackets] stays.

[chart:strip]

[fold:Numbers &#60;behind&#62;]

[table:plain Usage, left]
| a |
|---|
| b |

[fold:end]
"""


def same(target: str) -> str:
    return target


def test_markdown_never_sees_what_a_mark_stands_for() -> None:
    text, slots = to_slots(PAGE, {"strip": "<figure>drawn</figure>"}, same)
    assert "0-0" not in text
    assert "chart" not in text
    page = fill(markdown.markdown(text), slots)
    assert "[slot:" not in page
    assert page.index('<div class="box box-look">') < page.index("<strong>First pitch</strong>") < page.index("</div>")
    side = page[page.index('<div class="side" data-side="L">') :]
    assert side.index("Left-handed hitters") < side.index("<h2>Lefties</h2>") < side.index('<th scope="row">0-0</th>')
    assert "[brackets]" in page
    assert "<figure>drawn</figure>" in page
    assert "<summary><span>Numbers &#60;behind&#62;</span></summary>" in page


def test_two_tables_of_one_name_are_told_apart() -> None:
    _, slots = to_slots(PAGE, {"strip": ""}, same)
    labels = [slot.split('aria-label="')[1].split('"')[0] for slot in slots if "aria-label" in slot]
    assert labels == ["Usage, left", "Usage, left (2)"]


@pytest.mark.parametrize(
    ("page", "reason"),
    [
        ("[chart:gone]", "no chart 'gone'"),
        ("[table:plain x]\n\nwords", "no table follows"),
        ("[table:Bad! x]\n| a |\n|---|", "a kind is"),
        ("[side:S]\n\n[side:end]", "sides are L and R"),
        ("[side:L]\n\nwords", "not closed"),
        ("[side:end]", "closes nothing"),
        ("[box:look]\n\n[side:end]\n\n[box:end]", "closes nothing"),
        ("[box:<b>]\n\n[box:end]", "a kind is"),
    ],
)
def test_a_mark_that_cannot_be_followed_says_why(page: str, reason: str) -> None:
    with pytest.raises(MarkError, match=reason):
        to_slots(page, {}, same)


def test_marks_inside_a_line_are_text() -> None:
    text, slots = to_slots("see [chart:strip] there\n", {"strip": "x"}, same)
    assert text == "see [chart:strip] there\n"
    assert slots == []


def test_a_part_that_opens_can_be_linked_to_and_no_name_stands_twice() -> None:
    text = "[fold:9 Ana **Vee**]\n\nx\n\n[fold:end]\n\n[fold:9 Ana Vee]\n\ny\n\n[fold:end]\n"
    _, slots = to_slots(text, {}, str)
    words = "<summary><span>9 Ana <strong>Vee</strong></span></summary>"
    assert slots[0] == f'<details class="fold" id="at-9-ana-vee">{words}<div>'
    assert slots[2] == '<details class="fold"><summary><span>9 Ana Vee</span></summary><div>'


def test_a_part_that_is_printed_says_so_and_closes_as_it_was_opened() -> None:
    _, slots = to_slots("[part:A: Ahead]\n\nx\n\n[part:end]\n", {}, str)
    assert slots == [
        '<details class="fold fold-printed" id="at-a-ahead"><summary><span>A: Ahead</span></summary><div>',
        "</div></details>",
    ]
    with pytest.raises(MarkError, match="closes nothing"):
        to_slots("[part:A]\n\nx\n\n[fold:end]\n", {}, str)
