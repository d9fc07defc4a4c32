"""What readers type and the page that must come first: one list, asked online, offline, from a folder, in WebKit."""

import re
from collections.abc import Callable, Sequence

HARBOR = "teams/harbor/"
MAN = HARBOR + "players/{}/"
NUNEZ, TRAN, FROST, CASTELLANE, OTIERNEY = (
    MAN.format(key)
    for key in ("iker-nunez", "bexley-tran", "solomon-adeyemi-frost", "ruben-castellane", "cormac-otierney")
)
# Addresses end with a slash; "" is the home page.
QUERIES: tuple[tuple[str, str], ...] = (
    # Numbers: tonight's starter before his namesakes of every other team.
    ("27", NUNEZ),
    ("#27", NUNEZ),
    ("19", TRAN),
    ("#44", FROST),
    ("12", CASTELLANE),
    ("#52", MAN.format("paulo-kealohanui")),
    ("8", MAN.format("theo-okonjo")),
    ("#1", MAN.format("kofi-brathwaite")),
    ("#27 slatefield", "teams/slatefield/players/casimir-boudreau-lane/"),
    # Names, with and without accents and apostrophes, whole and begun.
    ("nunez", NUNEZ),
    ("Núñez", NUNEZ),
    ("iker nuñez", NUNEZ),
    ("27 nunez", NUNEZ),
    ("tran", TRAN),
    ("adeyemi", FROST),
    ("Adeyemi-Frost", FROST),
    ("castel", CASTELLANE),
    ("otierney", OTIERNEY),
    ("O'Tierney", OTIERNEY),
    ("O’Tierney", OTIERNEY),
    ("anders lindqvist", MAN.format("anders-lindqvist")),
    ("lindqvist 21", MAN.format("mats-lindqvist")),
    ("quiroga", MAN.format("mateo-quiroga-lamb")),
    ("jun-ho", MAN.format("jun-ho-paik")),
    ("vander", MAN.format("bram-vandersloot")),
    # Hands and roles.
    ("LHP", TRAN),
    ("lefty", TRAN),
    ("lefty harbor", TRAN),
    ("rhp nunez", NUNEZ),
    ("switch hitter harbor", MAN.format("theo-okonjo")),
    ("closer harbor", OTIERNEY),
    ("sidearm harbor", MAN.format("wendell-achterberg")),
    # Pitches, clocks, habits.
    ("nunez slider", NUNEZ),
    ("tran curve", TRAN),
    ("sweeper harbor", MAN.format("wendell-achterberg")),
    ("slide step frost", FROST),
    ("pop second", CASTELLANE),
    ("lobs it back", CASTELLANE),
    ("turns his back", MAN.format("anders-lindqvist")),
    # Teams.
    ("harbor", HARBOR),
    ("slatefield", "teams/slatefield/"),
    ("saltmarsh tech", "teams/saltmarsh/"),
    ("dunmere", "teams/dunmere/"),
    ("harbor infield", HARBOR + "infield/"),
    # Pages.
    ("tonight", ""),
    ("bullpen", ""),
    ("probable pitchers", ""),
    ("who can go", "running/"),
    ("steal of home", "running/"),
    ("wrenfield", "running/"),
    ("where to stand", "levels/"),
    ("cards", "cards/gannet-harbor/"),
    ("base coaches", "cards/gannet-harbor/base-coaches/"),
    ("what changed", "changed/"),
    ("last night", "changed/"),
    ("not known yet", "not-known-yet/harbor/"),
    ("what to chart", "not-known-yet/harbor/"),
    ("charting sheet times", "charting/times/"),
    ("phone policy", "cautions/"),
    ("travel plan", "travel-plan/"),
    ("glossary", "glossary/"),
    # A man's evaluation comes when it is asked for; his name alone brings what he does in a game.
    ("evaluations", "evaluations/"),
    ("nunez evaluation", "evaluations/harbor/iker-nunez/"),
    ("hallworth", "teams/slatefield/players/tuck-hallworth/"),
)
MOST_WRONG = 1
WITHIN = 3
# What stands among the results: every page once, in their order.
LINKS = "return [...document.querySelectorAll('.md-search-result__item a')].map(a => a.href)"


def pages(links: Sequence[str], base: str) -> list[str]:
    """The addresses of results from the site's root, each once, as QUERIES has them."""
    bare = (re.sub(r"[?#].*", "", link).removeprefix(base) for link in links)
    return list(dict.fromkeys(re.sub(r"(^|/)(?:index)?\.html$|\.html$", r"\1", one) for one in bare))


def asked(ask: Callable[[str], list[str]], third: int | None = None) -> list[str]:
    """Ask every query; what is wrong, in words: nothing where at most MOST_WRONG is second or third.

    Args:
        ask: from a query to the addresses of the pages found, in their order.
        third: only every third query, from this one on: 0, 1 or 2.
    """
    second, wrong = [], []
    for query, expected in QUERIES if third is None else QUERIES[third::3]:
        found = ask(query)
        if found[:1] == [expected]:
            continue
        line = f"{query!r}: {expected!r} is not first: {found[:WITHIN]}"
        (second if expected in found[:WITHIN] else wrong).append(line)
    return wrong + (second if len(second) > MOST_WRONG else [])
