"""The staff's YAML: our program, the opponents' teams and entries, the series."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from pathlib import PurePosixPath
from statistics import mean

from league import evaluations, notes_harbor, notes_others
from league.bats import hitters
from league.chance import stream
from league.handwritten import HABITS, PAST_SERIES, PROGRAM, SERIES
from league.log import GameLog
from league.notes import Entry, Observation
from league.rosters import LINEUPS, NAMES, OWN, ROSTERS, Man
from league.season import SCOUTED, Fixture

_PARKS = {
    "harbor": ("Breakwater Park", (328, 362, 392, 366, 322), (8, 8, 8, 8, 16), 52, "grass",
               ("Wind comes in from right after sundown.", "Short fence and high wall down the right-field line.")),
    "slatefield": ("Old Kiln Field", (335, 370, 405, 370, 335), (8, 8, 8, 8, 8), 60, "turf",
                   ("Turf is quick; ground balls through the middle get there.",)),
    "saltmarsh": ("Reedbank Grounds", (320, 358, 388, 360, 325), (10, 10, 10, 10, 10), 45, "grass",
                  ("Slow infield after rain.", "Backstop is close and lively.")),
}  # fmt: skip


def _text(value: str) -> str:
    """A YAML scalar; quoted wherever a plain one could be read as something else."""
    plain = value and value[0].isalnum() and not any(mark in value for mark in (": ", " #", ",", "[", "]", "{", "}"))
    return value if plain and not value.endswith(":") else "'" + value.replace("'", "''") + "'"


def _flow(pairs: Iterable[tuple[str, str]]) -> str:
    return "{" + ", ".join(f"{key}: {value}" for key, value in pairs if value) + "}"


def _man(man: Man) -> list[tuple[str, str]]:
    return [
        ("key", man.key),
        ("number", man.number),
        ("name", _text(man.name)),
        ("positions", f"[{', '.join(man.positions)}]"),
        ("bats", man.bats),
        ("throws", man.throws),
        ("class", man.class_year),
        ("role", man.role),
        ("from_date", man.from_date.isoformat() if man.from_date else ""),
        ("until_date", man.until_date.isoformat() if man.until_date else ""),
    ]


def _program(runs: float) -> str:
    truth = hitters()
    lines = []
    for man in ROSTERS[OWN]:
        lines.append(f"  - {_flow(_man(man))}")
        if man.pitches:
            continue
        his, rng = truth[OWN, man.key], stream("leads", man.key)
        fast = his.first_second < 3.35
        times = [
            ("home_first", f"{his.home_first:.2f}"),
            ("first_second", f"{his.first_second:.2f}"),
            ("second_third", f"{his.first_second - 0.12:.2f}" if fast else ""),
            ("third_home", f"{his.first_second - 0.07:.2f}" if fast else ""),
        ]
        first = round(rng.uniform(12.6, 13.4) if fast else rng.uniform(11.4, 12.4), 1)
        leads = [
            ("first_ft", f"{first}"),
            ("second_ft", f"{first + 6:.1f}" if fast else ""),
            ("third_ft", f"{first + 2:.1f}"),
        ]
        leads.append(("secondary_ft", f"{rng.uniform(9, 12):.1f}"))
        # Times and leads stand inside the same flow mapping.
        lines[-1] = lines[-1][:-1] + f",\n     times: {_flow(times)}, leads: {_flow(leads)}}}"
    return PROGRAM.format(runs=f"{runs:.1f}", roster="\n".join(lines))


def _observations(key: str, observations: Sequence[Observation]) -> list[str]:
    lines = [f"{key}:"] if observations else []
    for one in observations:
        lines.append(f"  - about: {_text(one.about)}")
        lines.append(f"    text: {_text(one.text)}")
        lines.append(f"    seen: {one.day}")
        lines.append(f"    source: {one.source}")
        lines.append(f"    by: {one.by}")
        lines.append(f"    confidence: {one.confidence}")
        lines += [f"    for: [{one.editions}]"] if one.editions else []
        lines += [f"    clip: {_text(one.clip)}"] if one.clip else []
        lines += [f"    expires: {one.expires}"] if one.expires else []
    return lines


def _team(team: str, tendencies: Sequence[Observation]) -> str:
    name, distances, heights, backstop, surface, words = _PARKS[team]
    lines = [f"name: {NAMES[team]}", "", "park:", f"  name: {name}", "  fences:"]
    bearings = (-45, -22, 0, 22, 45)
    for bearing, distance, height in zip(bearings, distances, heights, strict=True):
        lines.append(f"    - {{bearing_deg: {bearing}, distance_ft: {distance}, height_ft: {height}}}")
    lines += [f"  backstop_ft: {backstop}", f"  surface: {surface}", "  notes:"]
    lines += [f"    - {_text(word)}" for word in words]
    lines += ["", *_observations("tendencies", tendencies), "", "roster:"]
    lines += [f"  - {_flow(_man(man))}" for man in ROSTERS[team]]
    return "\n".join(lines) + "\n"


def _entry(entry: Entry) -> str:
    lines = [f"summary: {_text(entry.summary)}"] if entry.summary else []
    lines += _observations("observations", entry.observations)
    if entry.grades:
        his = entry.grades
        lines += [
            "grades:",
            f"  seen: {his.day}",
            f"  source: {his.source}",
            f"  by: {his.by}",
            f"  body: {_text(his.body)}",
            f"  role: {_text(his.role)}",
            "  tools:",
        ]
        for line in filter(None, map(str.strip, his.tools.split("\n"))):
            tool, grade, saw = f"{line}  ".split(" ", 2)
            now, _, later = grade.partition("/")
            pairs = [("now", now), ("later", later), ("saw", saw.strip() and _text(saw.strip()))]
            lines.append(f"    {tool}: {_flow(pairs)}" if later or saw.strip() else f"    {tool}: {now}")
    return "\n".join(lines) + "\n"


def _entries(team: str) -> dict[str, Entry]:
    """What the staff wrote on its men, the recruiting staff's part with it, by key."""
    written = {"harbor": notes_harbor.ENTRIES, **notes_others.ENTRIES}[team]
    graded, noted = evaluations.GRADES.get(team, {}), evaluations.SEEN.get(team, {})
    found = {}
    for key in dict.fromkeys((*written, *graded, *noted)):
        entry = written.get(key, Entry())
        observations = (*entry.observations, *noted.get(key, ()))
        found[key] = replace(entry, observations=observations, grades=graded.get(key))
    return found


def bullpen(played: Sequence[tuple[Fixture, GameLog]], day: date) -> dict[str, str]:
    """State of their relievers by what they threw in the two days before, by key."""
    thrown: dict[str, int] = {}
    for fixture, log in played:
        ago = (day - fixture.day).days
        if 0 < ago <= 2:
            made = [one.moment.pitcher for one in log.pitches if one.moment.pitcher_team == "harbor"]
            for key in set(made):
                thrown[key] = thrown.get(key, 0) + made.count(key)
    state = {}
    for man in ROSTERS["harbor"]:
        if man.role in {"reliever", "closer"} and man.there(day):
            recent = thrown.get(man.key, 0)
            state[man.key] = "no" if recent >= 45 else "limited" if recent >= 25 else "available"
    return state


def content_files(played: Sequence[tuple[Fixture, GameLog]]) -> dict[str, str]:
    """Text by path under content/."""
    runs = mean(runs for _, log in played for runs in log.runs.values())
    files = {"program.yml": _program(runs), "habits.yml": HABITS, "series/slatefield-march.yml": PAST_SERIES}
    day = date(2026, 4, 8)
    states = "\n".join(
        f"  - {{player: {key}, state: {word}, as_of: {day}}}" for key, word in bullpen(played, day).items()
    )
    lineup = ", ".join(pair.split(":")[0] for pair in LINEUPS["harbor"].split())
    files["series/gannet-harbor.yml"] = SERIES.format(lineup=lineup, bullpen=states)
    tendencies = {"harbor": notes_harbor.TENDENCIES, **notes_others.TENDENCIES}
    for team in SCOUTED:
        files[f"opponents/{team}/team.yml"] = _team(team, tendencies[team])
        for key, entry in _entries(team).items():
            files[str(PurePosixPath("opponents", team, "players", f"{key}.yml"))] = _entry(entry)
    return files
