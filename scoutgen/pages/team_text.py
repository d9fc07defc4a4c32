"""An opponent's share of the book as one text, so that it can be kept and found again by what it comes from."""

import json
from collections.abc import Iterable, Iterator
from typing import Any, Final, Protocol

from scoutgen.pages.book import Chart, Page, SearchEntry, TeamBook
from scoutgen.pages.said import Saying

#: Stands for when the build was; no page holds one, since readers of YAML and CSV refuse it.
_MARK: Final = "\0"


class Shelf(Protocol):
    """Where books are kept between builds, by a name that says all that they come from."""

    def get(self, name: str) -> str | None:
        """What is kept under a name; None where there is nothing whole."""

    def put(self, name: str, text: str) -> None:
        """Keep something; where that cannot be, it is made again next time."""

    def use(self, name: str) -> None:
        """Go on keeping what a copy of this process has put there."""


def to_text(book: TeamBook, built: str) -> str:
    """A line of JSON about the parts, and the parts behind it; when the build was is left open.

    Raises:
        ValueError: a text that is not a part says when the build was.
    """
    parts: list[str] = []

    def part(text: str) -> int:
        parts.append(text.replace(built, _MARK))
        return len(parts[-1])

    head = {
        "pages": [[p.address, p.title, [vars(s) for s in p.search], p.menu, part(p.markdown)] for p in book.pages],
        "charts": [[key, c.title, c.description, part(c.spec)] for key, c in book.charts.items()],
        "facts": [[address, part(text)] for address, text in book.facts.items()],
        "said": [[key, vars(saying)] for key, saying in book.said.items()],
    }
    line = json.dumps(head, ensure_ascii=False)
    if built in line or any(_MARK in text for text in (line, *_texts(book))):
        raise ValueError("a text that is kept as it is says when the build was")
    return "\n".join([line, "".join(parts)])


def from_text(text: str, built: str) -> TeamBook:
    """The other way round.

    Args:
        text: as `to_text` wrote it.
        built: when this build is.

    Raises:
        ValueError: it is nothing that `to_text` writes.
    """
    try:
        return _book(text, built)
    except (TypeError, KeyError, AttributeError, RecursionError) as wrong:
        raise ValueError(f"no book: {wrong}") from wrong


def _book(text: str, built: str) -> TeamBook:
    line, _, rest = text.partition("\n")
    head: dict[str, Any] = json.loads(line)
    at = 0

    def part(length: int) -> str:
        nonlocal at
        at += length
        return rest[at - length : at].replace(_MARK, built)

    def entries(some: Iterable[dict[str, Any]]) -> tuple[SearchEntry, ...]:
        return tuple(SearchEntry(**entry) for entry in some)

    return TeamBook(
        pages=tuple(
            Page(address, title, part(length), entries(search), tuple(menu))
            for address, title, search, menu, length in head["pages"]
        ),
        charts={key: Chart(part(length), title, words) for key, title, words, length in head["charts"]},
        facts={address: part(length) for address, length in head["facts"]},
        said={key: Saying(**one) for key, one in head["said"]},
    )


def _texts(book: TeamBook) -> Iterator[str]:
    yield from (page.markdown for page in book.pages)
    yield from (chart.spec for chart in book.charts.values())
    yield from book.facts.values()
