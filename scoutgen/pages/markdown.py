"""Templates to markdown, in which no text of the staff can be more than text."""

import re
from collections.abc import Callable
from datetime import date
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup

from scoutgen.pages.compiled import Compiled

# A mark is left as it stands only where no markdown dialect gives it a meaning: inside a line, between letters,
# digits and spaces. Everything else becomes a numeric character reference, which held against every hostile
# text tried (tests/site/test_hostile_text.py); backslashes did not.
_HARMLESS_INSIDE = set("-.,'%/()?;")
# A colon between digits is a clock's, one after a word and before a space a sentence's.
_PUNCTUATION = re.compile(r"(?!(?<=\d):\d|(?<=\w): )[!-/:-@\[-`{-~]")
_SPACE = re.compile(r"[\s\x00-\x1f\x7f\u2028\u2029]+")
# What would open a list, a rule, a heading or a definition at the start of a line.
_OPENER = re.compile(r"^(?:\d+[.)]|[^\w]+)")
_WEB_WORD = re.compile(r"\bwww\.|://|--", re.IGNORECASE)


@lru_cache(maxsize=100_000)
def escape(text: str) -> Markup:
    """Any text as markdown that reads as exactly that text, on one line.

    White space collapses to single spaces, so that no text can start a line of its own.
    """
    flat = _SPACE.sub(" ", text).strip()
    opener = _OPENER.match(flat)
    safe_from = opener.end() if opener else 0
    keep_inside = not _WEB_WORD.search(flat)

    def reference(match: re.Match[str]) -> str:
        mark = match.group()
        harmless = keep_inside and match.start() >= safe_from and mark in _HARMLESS_INSIDE
        return mark if harmless else f"&#{ord(mark)};"

    return Markup(_PUNCTUATION.sub(reference, flat))  # noqa: S704 - escaped just above; this is the one door


def percent(rate: float) -> Markup:
    """A rate of 0-1 as whole per cent, never rounded to a certainty it does not have, never broken over two lines."""
    whole = round(rate * 100)
    if whole == 0 and rate > 0:
        return Markup("under\N{NO-BREAK SPACE}1\N{NO-BREAK SPACE}%")
    if whole == 100 and rate < 1:
        return Markup("over\N{NO-BREAK SPACE}99\N{NO-BREAK SPACE}%")
    return Markup(f"{whole}\N{NO-BREAK SPACE}%")  # noqa: S704 - made of digits


def percents(low: float, high: float) -> Markup:
    """An interval of rates with one sign for both ends where both are whole: "84 to 94 %"."""
    ends = [str(percent(rate)) for rate in (low, high)]
    sign = "\N{NO-BREAK SPACE}%"
    first = ends[0].removesuffix(sign) if ends[0][0].isdigit() and ends[1][0].isdigit() else ends[0]
    return Markup(f"{first} to {ends[1]}")  # noqa: S704 - made of digits


def day(value: date | None) -> Markup:
    """A date as people say it, with the year, since sites outlive seasons."""
    return Markup("date unknown" if value is None else f"{value:%a} {value.day} {value:%b %Y}")  # noqa: S704 - a date


def short_day(value: date | None) -> Markup:
    """The same in a table: without the day of the week, never broken over two lines."""
    gap = "\N{NO-BREAK SPACE}"
    return Markup("date unknown" if value is None else f"{value.day}{gap}{value:%b}{gap}{value:%Y}")  # noqa: S704 - a date


def fixed(value: float | None, digits: int = 2) -> Markup:
    """A number to so many digits behind the point: times to hundredths, since readings are no finer."""
    return Markup("–" if value is None else f"{value:.{digits}f}")  # noqa: S704 - made of digits


def signed(value: float, digits: int = 1) -> Markup:
    """A difference with its sign."""
    written = f"{value:+.{digits}f}"
    if not float(written):
        written = written[1:]  # neither more nor less
    return Markup(written.replace("-", "−"))  # noqa: S704 - made of digits


def points(part: float) -> float:
    """A rate, or a difference of two, in points of a hundred; what is left to say is how many digits."""
    return part * 100


def whole(value: float) -> Markup:
    """A number to the nearest whole one: feet and miles an hour."""
    return Markup(f"{value:.0f}")  # noqa: S704 - made of digits


def uncapitalized(text: str) -> str:
    """A statement within a sentence: its first letter small."""
    return text[:1].lower() + text[1:]


def anchor(heading: str) -> str:
    """The id a heading gets in the finished page."""
    return re.sub(r"[^a-z0-9]+", "-", heading.lower()).strip("-")


def link(from_address: str, to_address: str) -> str:
    """A relative link between two pages' markdown files."""
    ups = from_address.count("/")
    here, there = from_address.split("/")[:-1], to_address.split("/")
    shared = 0
    while shared < min(len(here), len(there) - 1) and here[shared] == there[shared]:
        shared += 1
    suffix = "" if there[-1].endswith(".json") else ".md"
    return "../" * (ups - shared) + "/".join(there[shared:]) + suffix


def _finalize(value: Any) -> Any:  # noqa: ANN401 - whatever a template expression yields
    """Escape every plain string a template prints; markup made by templates and numbers pass."""
    if isinstance(value, Markup) or not isinstance(value, str):
        return value
    return escape(value)


@cache
def _environment() -> jinja2.Environment:
    environment = jinja2.Environment(
        loader=jinja2.PackageLoader("scoutgen.pages"),
        # How they are compiled is said in this file alone.
        bytecode_cache=Compiled(Path(__file__).read_text(encoding="utf-8")),
        # Autoescape makes macros and includes return Markup; the escaping itself is `_finalize`.
        autoescape=True,
        finalize=_finalize,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        # Templates do not change under a running build; asking the disk at every include takes as long as filling in.
        auto_reload=False,
    )
    filters: dict[str, Callable[..., Any]] = {
        "percent": percent,
        "day": day,
        "short_day": short_day,
        "seconds": fixed,
        "fixed": fixed,
        "signed": signed,
        "points": points,
        "whole": whole,
        "anchor": anchor,
        "uncapitalized": uncapitalized,
    }
    environment.filters.update(filters)
    environment.globals["percents"] = percents
    environment.globals["link"] = lambda here, there: Markup(link(here, there))  # noqa: S704 - made of keys
    return environment


def render(template: str, **values: object) -> str:
    """A template filled in; runs of blank lines collapse to one.

    Raises:
        jinja2.UndefinedError: a template names what its page does not have.
    """
    text = _environment().get_template(template).render(**values)
    return re.sub(r"\n{3,}", "\n\n", text).strip() + "\n"
