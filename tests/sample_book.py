"""A small made-up book, as the pages room would write one: the site room is tested through it."""

import json
from dataclasses import replace

from scoutgen.pages.book import Book, Chart, Page, SearchEntry
from scoutgen.site.edition_book import EditionBook, read_date

TEAMS = {"harbor": "Harbor State", "mesa": "Mesa Verde Tech"}
PITCHERS = {
    "harbor": [("ivan-nunez", "Iván Núñez", "27", "RHP"), ("will-hale", "Will Hale", "7", "LHP")],
    "mesa": [("otto-odea", "Otto O'Dea", "2", "LHP"), ("sam-brandt", "Sam Brandt", "72", "RHP")],
}


def strip_chart(seed: int) -> Chart:
    values = [
        {
            "seconds": round(1.2 + ((seed * 7919 + i * 13 + i * i * seed) % 401) / 1000, 3),
            "label": ("stretch", "slide step")[i % 2],
        }
        for i in range(24)
    ]
    spec = {
        "$schema": "https://vega.github.io/schema/vega-lite/v6.json",
        "data": {"values": values},
        "mark": {"type": "point", "stroke": "#000", "clip": True},
        "encoding": {
            "x": {"field": "seconds", "type": "quantitative", "scale": {"zero": False}},
            "y": {"field": "label", "type": "nominal", "title": None},
        },
        "width": 210,
        "height": 70,
    }
    return Chart(
        json.dumps(spec, sort_keys=True),
        title=f"Time to the plate, chart {seed}",
        description="24 readings by style; the medians are in the table below.",
    )


COUNTS = ["0-0", "1-0", "2-0", "3-0", "0-1", "1-1", "2-1", "3-1", "0-2", "1-2", "2-2", "3-2"]


def _usage(side: str, seed: int) -> str:
    rows = "\n".join(
        f"| {count} | {40 + (seed + i) % 30} % ({12 + i} of {30 + i}) | {20 + i} % | 9 of 31 | – | {i + 3} "
        f"| **{i} of 9** | 0-{i} |"
        for i, count in enumerate(COUNTS)
    )
    head = "| Count | Fastball | Slider | Change | Curve | n | Swings | Last |\n|---|---:|---:|---:|---:|---:|---:|---|"
    return f"[table:counts Usage by count, {side}]\n\n{head}\n{rows}\n"


def pitcher_markdown(name: str, number: str, hand: str, *, seed: int, charts: tuple[str, ...]) -> str:
    drawn = "\n\n".join(f"[chart:{key}]" for key in charts)
    return f"""# {name} &#35;{number} {hand}

[box:look]

**First pitch** fastball 61 % (19 of 31). **Two strikes** slider, 9 of 14 charted.

[box:end]

[box:thin]

Change-up: 2 of 9 charted. Too few to lean on.

[box:end]

## What to look for

[side:L]

### First pitch, lefties

{_usage("left-handed hitters", seed)}

[side:end]

[side:R]

### First pitch, righties

{_usage("right-handed hitters", seed + 1)}

[side:end]

## Clocks

{drawn}

[table:cards Times]

| Style | Median | Readings | Method | Last seen |
|---|---:|---:|---|---|
| Stretch | 1.38 s | 14 | watch | 28 Mar |
| **Slide step** | 1.24 s | 9 | frames | [2 Apr](../../index.md) |

## Notes

- Falls behind, then comes in with the fastball. *JK, 28 Mar, sure*
- See also [the first page](../../index.md#plan).

[fold:Numbers behind the page]

{_usage("both sides", seed + 2)}

{_usage("men on base", seed + 3)}

[fold:end]
"""


def book() -> Book:
    pages = [
        Page(
            "index",
            "Tonight",
            "# Tonight\n\nFirst: [Iván Núñez](teams/harbor/ivan-nunez.md)\n\n## Plan\n\nAll [teams](teams.md).\n",
            (SearchEntry("Tonight", "series plan probable pitchers"),),
            ("Tonight",),
        ),
        Page(
            "teams",
            "Teams",
            "# Teams\n\n" + "\n".join(f"- [{n}](teams/{k}/index.md)" for k, n in TEAMS.items()) + "\n",
            (SearchEntry("Teams", "opponents"),),
            ("Teams",),
        ),
    ]
    charts: dict[str, Chart] = {}
    facts: dict[str, str] = {}
    for team, team_name in TEAMS.items():
        listing = "\n".join(f"| [{n}]({k}.md) | {no} | {hand} |" for k, n, no, hand in PITCHERS[team])
        pages.append(
            Page(
                f"teams/{team}/index",
                team_name,
                f"# {team_name}\n\n[table:plain Pitchers]\n\n| Name | No. | Hand |\n|---|---|---|\n{listing}\n",
                (SearchEntry(team_name, "team opponent pitchers", boost=5),),
                ("Teams", team_name),
            )
        )
        for seed, (key, name, number, hand) in enumerate(PITCHERS[team]):
            keys = (f"{team}-{key}-a", f"{team}-{key}-b")
            charts |= {k: strip_chart(seed * 2 + i) for i, k in enumerate(keys)}
            markdown = pitcher_markdown(name, number, hand, seed=seed, charts=keys)
            pages.append(
                Page(
                    f"teams/{team}/{key}",
                    f"{name} {number} {hand}",
                    markdown,
                    (
                        SearchEntry(
                            f"{name} #{number} {hand}",
                            f"pitcher {hand} {team_name} fastball slider change",
                            boost=10,
                        ),
                        SearchEntry(f"{name}: clocks", "time to the plate slide step stretch", anchor="clocks"),
                    ),
                    ("Teams", team_name, name),
                )
            )
            facts[f"facts/{team}/{key}.json"] = json.dumps({"player": key})
    return Book(tuple(pages), charts, facts)


def edition_book(made: Book | None = None) -> EditionBook:
    return EditionBook(made or book(), "staff", read_date("2026-04-09"), "2026-04-09 12:00")


def with_markdown(made: Book, address: str, markdown: str) -> Book:
    return replace(made, pages=tuple(replace(p, markdown=markdown) if p.address == address else p for p in made.pages))
