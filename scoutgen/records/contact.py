"""Does a text hold a way to reach somebody? No evaluation may: the rules on recruiting contact are not ours to test."""

import re
from collections.abc import Iterable

from scoutgen.records.problems import Problem
from scoutgen.records.yamlfile import KeyPath
from scoutgen.records.yamlrecord import YamlSource

# One sign before the @ is enough: to look for all of a word before it would take the square of a long line's time.
_MAIL = re.compile(r"[^\s@,;:<>()]@[^\s@]+\.[^\W\d_]{2,}")
_HANDLE = re.compile(r"(?<![\w@.])@[A-Za-z_][\w.]{2,}")
# Ten digits in threes and four, a country's number before them or not, or any eight and more after a plus. A date, a
# time of a clip and a row of times of a watch have other groups; what is part of an address of the web is none.
_PHONE = re.compile(
    r"(?<![\w/=.+-])(?:\+?1[ .-]?)?(?:\(\d{3}\) ?|\d{3}[ .-]?)\d{3}[ .-]?\d{4}(?![\w/.-]?\d)"
    r"|(?<![\w/=])\+\d(?:[ ().-]{0,2}\d){7,}"
)
NO_CONTACT = "an evaluation holds no contact data: take it out, and ask the compliance staff who may be contacted"
_KINDS = ((_MAIL, "an e-mail address"), (_HANDLE, "an account's name"), (_PHONE, "a phone number"))


def contact_in(text: str) -> str:
    """What kind of contact data a text looks to hold, in words; empty where it holds none."""
    return next((words for pattern, words in _KINDS if pattern.search(text)), "")


def contact_problems(texts: Iterable[tuple[KeyPath, str]], source: YamlSource) -> list[Problem]:
    """Texts of the recruiting edition that tell how to reach somebody; the problem does not repeat what they say.

    Args:
        texts: each with its place in the file.
        source: the file.
    """
    return [
        source.problem(path, f"looks to hold {kind}; {NO_CONTACT}")
        for path, text in texts
        if (kind := contact_in(text))
    ]
