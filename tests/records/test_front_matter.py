"""The settings of a hand-written page are checked like names in records: the theme prints them as they are."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

import pytest
from mkdocs.utils.meta import get_data

from scoutgen.records.front_matter import FrontMatter, split_page


def told(text: str) -> list[str]:
    return [str(problem) for problem in split_page(text, "p.md")[2]]


def test_good_settings_are_read_and_the_page_begins_after_them() -> None:
    text = "---\ntitle: Bus to Gannet Harbor\ndescription: When and where\ntags: [bus, road]\nicon: material/bus\nhide: [toc]\n---\n# Bus\n"
    settings, begins, problems = split_page(text, "p.md")
    assert problems == []
    assert settings == FrontMatter(
        title="Bus to Gannet Harbor",
        description="When and where",
        tags=("bus", "road"),
        icon="material/bus",
        hide=("toc",),
    )
    assert text[begins:] == "# Bus\n"


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ("title: <b>x</b>", 'p.md:2: title: "<b>x</b>" holds <, which a name or title cannot'),
        ('title: "a\\u202eb"', 'p.md:2: title: "a\\u202eb" holds the invisible character U+202E'),
        (f"title: {'a' * 81}", "p.md:2: title: is too long (81 characters); at most 80 are read"),
        ("title: [a, b]", "p.md:2: title: is a list; a text is meant here"),
        ("title:\n  a: b", "p.md:2: title: is a block of keys; a text is meant here"),
        ("title: 2027", 'p.md:2: title: "2027" is read as a number, a date or yes and no here; put quotes around it'),
        ("title: 012", 'p.md:2: title: "012" is read as a number'),
        ("title: no", 'p.md:2: title: "no" is read as a number, a date or yes and no'),
        ("description: 'x\" onload=\"y'", "which a name or title cannot"),
        ("tags: [ok, <i>]", 'p.md:2: tags[2]: "<i>" holds <'),
        ("tags: [7]", 'p.md:2: tags: "7" is read as a number'),
        ("tags: bus", 'p.md:2: tags: is "bus"; a list is meant here'),
        (
            "icon: ../../../etc/passwd",
            'p.md:2: icon: "../../../etc/passwd" is not an icon; write its set and name, like material/baseball',
        ),
        ("icon: bus", 'p.md:2: icon: "bus" is not an icon'),
        (
            "hide: [tocs]",
            'p.md:2: hide[1]: "tocs" is not allowed; write navigation, toc, footer, path or tags; did you mean "toc"?',
        ),
        ("titel: x", 'p.md:2: titel: is not known here; did you mean "title"?'),
        (
            "a: 1\ntemplate: x.html",
            "p.md:3: template: is not known here; known are title, description, tags, icon, hide",
        ),
        ("title: &a x\ndescription: *a", '"&a" marks a place to repeat, which is refused'),
        ("title: x\ntitle: y", 'p.md:3: the key "title" stands twice (first in line 2)'),
        ("title: [", "p.md:"),
    ],
)
def test_settings_that_cannot_be_are_named_with_their_line(settings: str, said: str) -> None:
    lines = told(f"---\n{settings}\n---\n# A\n")
    assert any(said in line for line in lines), lines


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "Bus: 5 pm\n\n# A\n",
            'p.md:1: "Bus:" in the first line is taken for a setting, not for text; begin the page with a # heading or a blank line',
        ),
        (
            "title: A\n",
            'p.md:1: "title:" in the first line is taken for a setting, not for text; write it between two lines of ---',
        ),
        ("---\ntitle: A\n# B\n", "p.md:1: the settings that begin here are not closed; write a line --- after them"),
    ],
)
def test_what_only_looks_like_text_or_settings_is_named(text: str, said: str) -> None:
    assert told(text) == [said]


@pytest.mark.parametrize(
    "text",
    ["", "# A: b\n", "\nBus: 5 pm\n", "---\n\nA rule above.\n", "---\nwords\n---\n", "***\nx: y\n", "- Bus: 5\n"],
)
def test_text_stays_text(text: str) -> None:
    assert split_page(text, "p.md") == (FrontMatter(), 0, [])
    assert get_data(text)[1] == {}
