"""Everything the pages room hands to the site: pages in markdown, charts to draw, facts, and what search finds."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from scoutgen.pages.said import Saying


@dataclass(frozen=True)
class SearchEntry:
    """One thing a reader can find.

    Attributes:
        anchor: heading id on the page, empty for the page itself.
        title: shown as the result.
        text: what the result shows under its title; its words find it too.
        keys: words that find it as its title does and are not shown: what a reader types who wants just this page.
        boost: weight against other entries; a player's own page is worth more than a mention.
    """

    title: str
    text: str
    anchor: str = ""
    boost: float = 1.0
    keys: str = ""


@dataclass(frozen=True)
class Page:
    """One page.

    Attributes:
        address: where it stands in the site without suffix, e.g. `teams/harbor/ivan-nunez`; unique.
        title: plain text, already restricted to harmless characters.
        markdown: the whole page, front matter excluded. A chart stands as a line `[chart:KEY]`.
        search: what search finds on it.
        menu: the way to it in the menu, outermost first; empty for pages reached by links only.
    """

    address: str
    title: str
    markdown: str
    search: tuple[SearchEntry, ...] = ()
    menu: tuple[str, ...] = ()


@dataclass(frozen=True)
class Chart:
    """A chart to draw: `spec` is Vega-Lite JSON with sorted keys, so that equal charts have equal bytes."""

    spec: str
    title: str
    description: str


@dataclass(frozen=True)
class TeamBook:
    """What a book has of one opponent; fields as in `Book`."""

    pages: tuple[Page, ...] = ()
    charts: Mapping[str, Chart] = field(default_factory=dict)
    facts: Mapping[str, str] = field(default_factory=dict)
    said: Mapping[str, Saying] = field(default_factory=dict)


@dataclass(frozen=True)
class Book:
    """All that one edition of the site says.

    Attributes:
        pages: in the order of the menu.
        charts: by the KEY that stands in the markdown.
        facts: JSON text by address in the site, e.g. `facts/harbor/ivan-nunez.json`.
        said: what the pages say, thing by thing, for the next build to be compared with.
        policy: the policy on devices in a line, for the top of every page; empty for none.
        asked: addresses of the pages that were asked for; None for all of them.
    """

    pages: tuple[Page, ...]
    charts: Mapping[str, Chart] = field(default_factory=dict)
    facts: Mapping[str, str] = field(default_factory=dict)
    said: Mapping[str, Saying] = field(default_factory=dict)
    policy: str = ""
    asked: frozenset[str] | None = None
