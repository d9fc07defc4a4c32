"""Skeletons read without a problem as they are and with every key switched on, and never write over anything."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

import csv
import re
import typing
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import pytest
import yaml
from pydantic import BaseModel
from yaml_projects import said, write

from scoutgen.records.habit_kinds import read_habit_kinds, usual_habit_kinds
from scoutgen.records.opponents import read_opponents
from scoutgen.records.program import Program, read_program
from scoutgen.records.schemas import MODELS, schema_text
from scoutgen.records.season import read_season
from scoutgen.records.series import read_series
from scoutgen.records.skeleton_texts import TABLES, header
from scoutgen.records.skeletons import (
    SkeletonError,
    init_project,
    new_game,
    new_player,
    new_series,
    new_team,
)

START = date(2026, 4, 10)
GAME = {"away": "harbor", "home": "ridge", "source": "own_game", "charted_by": "AJR"}
LATER = date.max - timedelta(days=1)
ROSTER = """
    name: Gannet Harbor
    roster:
      - {key: ivan-nunez, number: 27, name: Iván Núñez, positions: P}
      - {key: ray-tolliver, number: 12, name: Ray Tolliver, positions: C}
"""


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A project from scratch with a team that has men."""
    init_project(tmp_path, "ridge", "Kestrel Ridge")
    return write(tmp_path, {"content/opponents/harbor/team.yml": ROSTER})


def switched_on(text: str) -> str:
    """A skeleton with the # in front of every key taken away; explanations have a space after theirs."""
    return re.sub(r"(?m)^#(?=\S|  )", "", text)


def keys_of(model: type[BaseModel]) -> set[str]:
    """Every key that may stand anywhere in a file of this kind."""
    keys: set[str] = set()

    def look(annotation: object) -> None:
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            for name, field in annotation.model_fields.items():
                keys.add(field.alias or name)
                look(field.annotation)
        for part in typing.get_args(annotation):
            look(part)

    look(model)
    return keys


def keys_in(tree: object) -> set[str]:
    """Every key of a tree."""
    if isinstance(tree, dict):
        return set(tree).union(*map(keys_in, tree.values()))
    return set().union(*map(keys_in, tree)) if isinstance(tree, list) else set()


def test_a_project_from_scratch_is_whole_and_has_no_problem(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "project"
    written = init_project(folder, "ridge", "O'Brien & Sons: Ridge")
    assert sorted(written) == sorted(path for path in folder.rglob("*") if path.is_file())
    season = read_season(folder, as_of=START)
    assert season.warnings == ()
    assert (season.program.key, season.program.name) == ("ridge", "O'Brien & Sons: Ridge")
    for table in TABLES:
        assert len(getattr(season, table)) == 0
    config = yaml.safe_load((folder / "mkdocs.yml").read_text(encoding="utf-8"))
    assert config["site_name"] == "O'Brien & Sons: Ridge scouting"
    assert (folder / config["docs_dir"]).is_dir()
    assert "/site/" in (folder / ".gitignore").read_text(encoding="utf-8").split()


def test_data_starts_with_headers_of_the_charting_format(project: Path) -> None:
    for table in TABLES:
        with (project / "data" / f"{table}.csv").open(encoding="utf-8", newline="") as stream:
            assert list(csv.reader(stream)) == [header(table)]
    # Charting format, version 1: every column that must be filled, and the notation of a chart kept by hand.
    assert header("games") == ["game", "date", "away", "home", "source", "charted_by", "clip", "note"]
    assert {"game", "pitcher", "balls", "strikes", "pitch", "height", "side", "field"} <= set(header("pitches"))
    assert not {"speed_kph", "plate_x_ft", "plate_z_ft", "direction_deg"} & set(header("pitches"))


def test_editors_find_the_schema_from_every_skeleton(project: Path) -> None:
    new_player(project, "harbor", "27")
    new_series(project, "april", "harbor", START)
    new_team(project, "slate", "Slatefield")
    kinds = {
        "program": "content/program.yml",
        "habits": "content/habits.yml",
        "team": "content/opponents/slate/team.yml",
        "player": "content/opponents/harbor/players/ivan-nunez.yml",
        "series": "content/series/april.yml",
    }
    for kind, file in kinds.items():
        first = (project / file).read_text(encoding="utf-8").split("\n", 1)[0]
        place = first.removeprefix("# yaml-language-server: $schema=")
        assert (project / file).parent.joinpath(place).read_text(encoding="utf-8") == schema_text(kind)


def all_on(path: Path, model: type[BaseModel]) -> None:
    """Switch a skeleton on in place, and see that nothing of the record is left unmentioned."""
    text = switched_on(path.read_text(encoding="utf-8"))
    path.write_text(text, encoding="utf-8")
    loaded = keys_in(yaml.safe_load(text))
    missing = keys_of(model) - loaded
    assert not missing, f"{path.name} does not mention {missing}"


def test_every_key_of_every_skeleton_can_be_switched_on(project: Path) -> None:
    new_team(project, "slate", "Slatefield")
    new_player(project, "harbor", "Iván Núñez")
    new_series(project, "april", "harbor", START)
    # Before: nothing but what must be there.
    assert read_program(project)[0] == Program(key="ridge", name="Kestrel Ridge")
    assert read_habit_kinds(project)[0] == usual_habit_kinds()
    opponents, problems = read_opponents(project, LATER)
    assert (problems, opponents.teams["slate"].roster) == ([], ())
    assert opponents.entries["harbor", "ivan-nunez"].observations == ()
    assert read_series(project, opponents, LATER)[1] == []
    for kind, file in (
        ("program", "content/program.yml"),
        ("habits", "content/habits.yml"),
        ("team", "content/opponents/slate/team.yml"),
        ("player", "content/opponents/harbor/players/ivan-nunez.yml"),
        ("series", "content/series/april.yml"),
    ):
        all_on(project / file, MODELS[kind][0])
    program, problems = read_program(project)
    assert said(problems) == []
    assert len(program.roster) == 2
    kinds, problems = read_habit_kinds(project)
    assert (said(problems), len(kinds)) == ([], len(usual_habit_kinds()) + 1)
    opponents, problems = read_opponents(project, LATER)
    assert said(problems) == []
    assert opponents.teams["slate"].roster[0].name == "Example Pitcher"
    assert opponents.entries["harbor", "ivan-nunez"].grades is not None
    (series,), problems = read_series(project, opponents, LATER)
    assert said(problems) == []
    assert (series.probables[0].pitcher, series.catcher, series.end) == (
        "ivan-nunez",
        "ray-tolliver",
        date(2026, 4, 12),
    )


def test_what_a_switched_off_setting_shows_is_what_counts_anyway(project: Path) -> None:
    all_on(project / "content/program.yml", Program)
    program, _ = read_program(project)
    default = Program()
    assert program.thresholds == default.thresholds
    assert program.watch_error_s == default.watch_error_s
    assert program.zone.half_width_ft == pytest.approx(default.zone.half_width_ft, abs=0.001)
    assert (program.zone.bottom_ft, program.zone.top_ft) == (default.zone.bottom_ft, default.zone.top_ft)
    assert program.run_environment.runs_per_team_game == default.run_environment.runs_per_team_game
    assert program.policy.devices_in_dugout is default.policy.devices_in_dugout
    levels, usual = program.levels, default.levels
    assert (levels.infield, levels.outfield, levels.step_ft) == (usual.infield, usual.outfield, usual.step_ft)


def test_the_habits_skeleton_names_every_usual_habit(project: Path) -> None:
    text = (project / "content/habits.yml").read_text(encoding="utf-8")
    assert [key for key in usual_habit_kinds() if key not in text] == []


def test_games_are_added_one_after_the_other(project: Path) -> None:
    video, own = {**GAME, "source": "video"}, {**GAME, "charted_by": "DSK, AJR"}
    games, written = new_game(project, "0301-harbor", date(2026, 3, 1), **video)
    new_game(project, "0302-harbor", date(2026, 3, 2), **own)
    assert games == project / "data/games.csv"
    assert [path.relative_to(project).as_posix() for path in written] == [
        "data/pitches/0301-harbor.csv", "data/times/0301-harbor.csv", "data/holds/0301-harbor.csv",
        "data/throws/0301-harbor.csv", "data/habits/0301-harbor.csv", "data/positions/0301-harbor.csv",
    ]  # fmt: skip
    season = read_season(project, as_of=START)
    assert list(season.games["game"]) == ["0301-harbor", "0302-harbor"]
    assert list(season.games["source"]) == ["video", "own_game"]
    assert list(season.games["charted_by"]) == ["AJR", "DSK, AJR"]
    assert [str(problem) for problem in season.warnings] == []


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_games_table_keeps_its_columns_and_line_ends(project: Path, end: str) -> None:
    games = project / "data/games.csv"
    games.write_bytes(
        f'source,charted_by,game,home,note,away,date{end}video,,a,x,"two{end}lines",y,2026-02-01'.encode()
    )
    new_game(project, "b", date(2026, 3, 1), **GAME)
    added = (
        f'source,charted_by,game,home,note,away,date{end}video,,a,x,"two{end}lines",y,2026-02-01{end}'
        f"own_game,AJR,b,ridge,,harbor,2026-03-01{end}"
    )
    assert games.read_bytes() == added.encode()


@pytest.mark.parametrize("empty", [False, True])
def test_without_a_games_table_one_is_started(tmp_path: Path, *, empty: bool) -> None:
    if empty:
        write(tmp_path, {"data/games.csv": "\n"})
    new_game(tmp_path, "a", date(2026, 3, 1), **GAME)
    rows = (tmp_path / "data/games.csv").read_text(encoding="utf-8").splitlines()
    assert rows == ["game,date,away,home,source,charted_by,clip,note", "a,2026-03-01,harbor,ridge,own_game,AJR,,"]


def snapshot(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


DAY = date(2026, 3, 1)


def test_an_opponent_may_play_anybody_and_be_called_by_his_name(project: Path) -> None:
    new_game(project, "a", DAY, **{**GAME, "home": "oakum"})
    new_game(project, "b", DAY, **{**GAME, "away": "Gannet Harbor"})
    assert list(read_season(project, as_of=START).games["away"]) == ["harbor", "harbor"]


@pytest.mark.parametrize(
    ("act", "answer"),
    [
        (
            init_project,
            "mkdocs.yml, README.md, .gitignore, content/program.yml and content/habits.yml are there already; nothing was written",
        ),
        (
            lambda p: new_team(p, "harbor", "X"),
            "content/opponents/harbor/team.yml is there already; nothing was written",
        ),
        (lambda p: new_team(p, "ridge", "X"), "'ridge' is our own team; our men stand in content/program.yml"),
        (
            lambda p: new_team(p, "../x", "X"),
            "the key \"../x\" is not a key; lower-case letters, digits and hyphens can stand in one; write 'x'",
        ),
        (lambda p: new_team(p, "x", " "), "the name is blank; fill it in or take it out"),
        (
            lambda p: new_player(p, "harbr", "27"),
            "'harbr' is not a team in content/opponents; did you mean \"harbor\"?",
        ),
        (
            lambda p: new_player(p, "zzz", "27"),
            "'zzz' is not a team in content/opponents; make it with: scoutgen new team zzz NAME",
        ),
        (
            lambda p: new_player(p, "harbor", "Dane Okafor"),
            "content/opponents/harbor/team.yml: \"Dane Okafor\" is not on the roster; give a key, a full name or a number; write him there first, e.g. '  - {key: dane-okafor, name: ...}' under roster",
        ),
        (
            lambda p: new_series(p, "A B", "harbor", DAY),
            "the key \"A B\" is not a key; lower-case letters, digits and hyphens can stand in one; write 'a-b'",
        ),
        (
            lambda p: new_series(p, "a", "harbor", DAY, date(2026, 2, 1)),
            "the end 2026-02-01 is before the start 2026-03-01",
        ),
        (lambda p: new_game(p, "a", DAY, **{**GAME, "away": "ridge"}), "'ridge' cannot play itself; give two teams"),
        (
            lambda p: new_game(p, "a", DAY, **{**GAME, "source": "tv"}),
            "'tv' is not a source; write video, own_game, same_site, on_campus or second_hand",
        ),
        (
            lambda p: new_game(p, "a", DAY, **{**GAME, "charted_by": " "}),
            "charted_by is blank; fill it in or take it out",
        ),
        (
            lambda p: new_game(p, "a", DAY, **{**GAME, "away": "habor"}),
            "'habor' is not a team of this project; did you mean \"harbor\"? If not, a new team is made with: scoutgen new team habor NAME",
        ),
        (
            lambda p: new_game(p, "a", DAY, **{**GAME, "home": "Kestrel Rigde"}),
            "'Kestrel Rigde' is not a team of this project; did you mean \"Kestrel Ridge\"? If not, a new team is made with: scoutgen new team kestrel-rigde NAME",
        ),
        (
            lambda p: new_game(p, "a", DAY, **{**GAME, "home": "tern", "away": "oakum"}),
            "neither 'oakum' nor 'tern' is a team of this project; teams are ridge and harbor; a new team is made with: scoutgen new team oakum NAME",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence_and_changes_nothing(
    project: Path, act: Callable[[Path], object], answer: str
) -> None:
    before = snapshot(project)
    with pytest.raises(SkeletonError, match=rf"^{re.escape(answer)}$"):
        act(project)
    assert snapshot(project) == before


def test_a_game_is_refused_where_one_of_its_files_or_its_key_is_there(project: Path) -> None:
    (project / "data" / "throws").mkdir()
    (project / "data" / "throws" / "a.csv").write_text("mine\n", encoding="utf-8")
    before = snapshot(project)
    with pytest.raises(SkeletonError, match=r"^data/throws/a\.csv is there already; nothing was written$"):
        new_game(project, "a", DAY, **GAME)
    assert snapshot(project) == before
    new_game(project, "b", DAY, **GAME)
    before = snapshot(project)
    with pytest.raises(
        SkeletonError, match=r"^data/games\.csv: the game 'b' is there already; give the new one another key$"
    ):
        new_game(project, "b", DAY, **GAME)
    assert snapshot(project) == before


def test_a_games_table_that_lacks_a_column_or_is_no_text_stays_as_it_is(project: Path) -> None:
    games = project / "data/games.csv"
    games.write_text("game,date,away,home\n", encoding="utf-8")
    with pytest.raises(
        SkeletonError, match=r"^data/games\.csv: there is no column source and charted_by; add it to the header$"
    ):
        new_game(project, "a", DAY, **GAME)
    games.write_bytes(b"game,\xe9\n")
    with pytest.raises(SkeletonError, match=r"^data/games\.csv:1: is not UTF-8 text"):
        new_game(project, "a", DAY, **GAME)
    assert not (project / "data" / "pitches").exists()


def test_a_team_with_errors_is_named_before_anything_is_made_from_it(project: Path) -> None:
    path = project / "content/opponents/harbor/team.yml"
    path.write_text("name: A\nroster: [{name: B, bats: X}]\n", encoding="utf-8")
    with pytest.raises(
        SkeletonError, match=r'^content/opponents/harbor/team\.yml:2: roster\[1\]\.bats: "X" is not allowed'
    ):
        new_player(project, "harbor", "27")


def test_a_dangling_link_is_not_written_through(project: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    outside = tmp_path_factory.mktemp("outside") / "team.yml"
    (project / "content/opponents/slate").mkdir()
    (project / "content/opponents/slate/team.yml").symlink_to(outside)
    with pytest.raises(SkeletonError, match="is there already"):
        new_team(project, "slate", "Slatefield")
    assert not outside.exists()
