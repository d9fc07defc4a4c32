"""A season of three opponents with seven men each: small enough to be built often.

It has more pages than it takes for several processors to share the work, charts and pages written by hand.
"""

from datetime import date
from pathlib import Path

from yaml_projects import write

AS_OF = date(2026, 4, 9)
TEAMS = {"cedarholm": "Cedarholm", "lowmarsh": "Lowmarsh Tech", "stonebury": "Stonebury"}
_MEN = (
    ("ada", "P", "R"),
    ("bo", "P", "L"),
    ("cal", "C", "R"),
    ("dov", "SS", "R"),
    ("eli", "2B", "L"),
    ("fox", "CF", "R"),
    ("gil", "1B", "L"),
)
GRADES = """grades:
  seen: 2026-04-01
  source: video
  by: AB
  tools: {fastball: 50, control: 45, overall: 45}
"""
_PITCHES = ("fastball", "fastball", "slider", "change")


def write_small_season(root: Path) -> Path:
    """Write the project, and give its folder back."""
    files = {
        "content/program.yml": "key: ridge\nname: Kestrel Ridge\n",
        "content/pages/bus.md": "# The bus home\n\nAt nine.\n",
        "content/pages/meals.md": "Titled by its name.\n",
        "content/series/at-cedarholm.yml": """
            title: At Cedarholm
            opponent: cedarholm
            start: 2026-04-10
            end: 2026-04-11
            where: away
            probables:
              - {game: Friday, date: 2026-04-10, pitcher: bo-cedarholm}
            catcher: cal-cedarholm
            lineup: [dov-cedarholm, eli-cedarholm]
            """,
        "mkdocs.yml": """
            site_name: Kestrel Ridge scouting
            docs_dir: content/pages
            theme: {name: material}
            plugins:
              - scoutgen: {as_of: 2026-04-09}
            """,
    }
    games, pitches, times = ["game,date,away,home,source"], [], []
    for number, (team, name) in enumerate(TEAMS.items(), 1):
        roster = "\n".join(
            f"  - {{key: {man}-{team}, number: {place}, name: {man.title()} {team.title()}, positions: [{position}], "
            f"bats: {hand}, throws: {hand}}}"
            for place, (man, position, hand) in enumerate(_MEN, 1)
        )
        files[f"content/opponents/{team}/team.yml"] = f"name: {name}\nroster:\n{roster}\n"
        files[f"content/opponents/{team}/players/ada-{team}.yml"] = note(f"Holds his glove high, {name}.") + GRADES
        game = f"g040{number}-{team}"
        games.append(f"{game},2026-04-0{number},ridge,{team},video")
        for turn in range(48):
            pitcher = ("ada", "bo")[turn % 2]
            pitches.append(
                f"{game},{turn // 12 + 1},{pitcher}-{team},{'RL'[turn % 3 == 0]},{turn % 4},{turn % 3},{turn % 3},"
                f"{_PITCHES[(turn * number + turn // 3) % 4]}"
            )
            seconds = 1.2 + (turn * 7 * number % 40) / 100
            times.append(f"{game},{turn // 12 + 1},{pitcher}-{team},plate,stretch,1,{turn % 3},{seconds:.2f},watch")
    files["data/games.csv"] = "\n".join(games) + "\n"
    head = "game,inning,pitcher,bats,balls,strikes,outs,pitch"
    files["data/pitches/spring.csv"] = "\n".join([head, *pitches]) + "\n"
    head = "game,inning,player,measure,style,bases,outs,seconds,method"
    files["data/times/spring.csv"] = "\n".join([head, *times]) + "\n"
    return write(root, files)


def note(text: str) -> str:
    """What the file of a man says whom we noted one thing of."""
    return (
        "observations:\n  - about: delivery\n"
        f"    text: {text}\n    seen: 2026-04-01\n    source: video\n    by: AB\n    confidence: sure\n"
    )
