"""The staff's YAML: our program, the opponents' teams and entries, the series."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from pathlib import PurePosixPath

from league import notes_harbor, notes_others
from league.bats import hitters
from league.chance import stream
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

_PROGRAM = """\
# Our own team and every setting of the project.
key: ridge
name: Kestrel Ridge

run_environment:
  runs_per_team_game: 5.3  # our conference this spring, by our own count

policy:
  devices_in_dugout: no

# Beside the usual short forms our charters write these.
pitches:
  - {name: sweeper, aliases: [SW]}

zone: {bottom_ft: 1.6, top_ft: 3.4}

# How sure is sure: half-widths of the 90 % interval, and what we call few.
thresholds: {firm: 0.10, usable: 0.15, lean: 0.20, few_readings: 5, few_games: 2, few_looks: 3, stale_days: 21}
watch_error_s: 0.10

levels:
  infield: 4
  outfield: 3
  step_ft: 2.5
  infield_legend: [straight up, two steps to the pull side, four steps to the pull side, everything to the pull side]
  outfield_legend: [straight up, one shade to the pull side, full shade to the pull side]
  opposite_mark: opp

roster:
"""

_HABITS = """\
# Habits of our own, on top of the usual ones.
habits:
  - key: walks-behind-mound
    position: 1
    question: Does he walk off the back of the mound with a runner on?
    gives: A head start for a runner who leaves while his back is turned.
    page: pitcher
    decision: delayed steal
    opens: delayed_steal
"""


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


def _program() -> str:
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
            ("third_home", f"{his.first_second - 0.02:.2f}" if fast else ""),
        ]
        first = round(rng.uniform(12.5, 14.5) if fast else rng.uniform(10, 12.5), 1)
        leads = [("first_ft", f"{first}"), ("second_ft", f"{first + 6:.1f}" if fast else ""), ("third_ft", f"{first + 2:.1f}")]
        leads.append(("secondary_ft", f"{rng.uniform(9, 12):.1f}"))
        # Times and leads stand inside the same flow mapping.
        lines[-1] = lines[-1][:-1] + f",\n     times: {_flow(times)}, leads: {_flow(leads)}}}"
    return _PROGRAM + "\n".join(lines) + "\n"


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
    lines = [f"summary: {_text(entry.summary)}", *_observations("observations", entry.observations)]
    if entry.grades:
        day, by, body, role, tools = entry.grades
        lines += ["grades:", f"  seen: {day}", f"  by: {by}", f"  body: {_text(body)}", f"  role: {_text(role)}", "  tools:"]
        for tool in tools.split(", "):
            word, grade = tool.split(" ")
            now, _, later = grade.partition("/")
            lines.append(f"    {word}: {{now: {now}, later: {later}}}" if later else f"    {word}: {now}")
    return "\n".join(lines) + "\n"


_SERIES = """\
title: At Gannet Harbor
opponent: harbor
start: 2026-04-10
end: 2026-04-12
where: away

probables:
  - {{game: Friday, date: 2026-04-10, pitcher: iker-nunez}}
  - {{game: Saturday, date: 2026-04-11, pitcher: bexley-tran}}
  - {{game: Sunday, date: 2026-04-12, pitcher: solomon-adeyemi-frost}}

catcher: ruben-castellane
lineup: [{lineup}]

plan:
  - about: hitters
    text: 'Friday, right-handers: look for the fastball early and give up the slider off the plate until he throws it for a strike.'
  - about: hitters
    text: 'Friday, left-handers: the curve comes first. Take it until there is a strike, then be on time for the fastball.'
  - about: hitters
    text: 'Saturday: stay back, use the middle. The change is the pitch.'
  - about: running
    text: 'Runner on third: work the lead off the third baseman, watch the lob. The third-base coach says when.'
  - about: running
    text: 'No straight steal on the slide step.'
  - about: defense
    text: 'Vandersloot and Tarkowski to the pull side; Lindqvist straight up with two strikes.'
  - about: pitching
    text: 'Paik swings early. First pitch off the plate.'
    for: [staff]

bullpen:
{bullpen}
"""

_PAST = """\
title: Slatefield State at home
opponent: slatefield
start: 2026-03-13
end: 2026-03-15
where: home

probables:
  - {game: Friday, date: 2026-03-13, pitcher: 18}
  - {game: Saturday, date: 2026-03-14, pitcher: 30}
  - {game: Sunday, date: 2026-03-15, pitcher: Nils Abernathy-Roy}

catcher: 5
plan:
  - Shorten the secondary lead on takes, their catcher throws behind.
  - Hit-and-run behind the breaking infielder.
"""


def bullpen(played: Sequence[tuple[Fixture, GameLog]], day: date) -> dict[str, str]:
    """State of their relievers by what they threw in the five days before, by key."""
    thrown: dict[str, list[tuple[int, int]]] = {}
    for fixture, log in played:
        ago = (day - fixture.day).days
        if 0 < ago <= 5:
            made = [one.moment.pitcher for one in log.pitches if one.moment.pitcher_team == "harbor"]
            for key in set(made):
                thrown.setdefault(key, []).append((ago, made.count(key)))
    state = {}
    for man in ROSTERS["harbor"]:
        if man.role in {"reliever", "closer"} and man.there(day):
            recent = sum(count for ago, count in thrown.get(man.key, []) if ago <= 2)
            state[man.key] = "no" if recent >= 40 else "limited" if recent >= 20 else "available"
    return state


def content_files(played: Sequence[tuple[Fixture, GameLog]]) -> dict[str, str]:
    """Text by path under content/."""
    files = {"program.yml": _program(), "habits.yml": _HABITS, "series/slatefield-march.yml": _PAST}
    day = date(2026, 4, 8)
    states = "\n".join(f"  - {{player: {key}, state: {word}, as_of: {day}}}" for key, word in bullpen(played, day).items())
    lineup = ", ".join(pair.split(":")[0] for pair in LINEUPS["harbor"].split())
    files["series/gannet-harbor.yml"] = _SERIES.format(lineup=lineup, bullpen=states)
    entries: Mapping[str, Mapping[str, Entry]] = {"harbor": notes_harbor.ENTRIES, **notes_others.ENTRIES}
    tendencies = {"harbor": notes_harbor.TENDENCIES, **notes_others.TENDENCIES}
    for team in SCOUTED:
        files[f"opponents/{team}/team.yml"] = _team(team, tendencies[team])
        for key, entry in entries[team].items():
            files[str(PurePosixPath("opponents", team, "players", f"{key}.yml"))] = _entry(entry)
    return files
