"""Who is meant: by key, name or number, by half inning, roster and date."""

from collections.abc import Callable

import pytest

from scoutgen.records.season import Season

Complaints = Callable[..., list[str]]
Read = Callable[..., Season]

CONTENT = {
    "content/program.yml": "key: ridge\nname: Ridge\nroster:\n"
    "  - {key: bo-ray, number: 27, name: Bo Ray, positions: P}\n"
    "  - {key: cy-dale, number: 8, name: Cy Dale, positions: C}\n",
    "content/opponents/harbor/team.yml": "name: Harbor\nroster:\n"
    "  - {key: ivan-nunez, number: 27, name: Iván Núñez, positions: P}\n"
    "  - {key: jo-smith, number: 12, name: Jo Smith, positions: SS, until_date: 2026-03-01}\n"
    "  - {key: al-smith, number: 12, name: Al Smith, positions: C, from_date: 2026-03-02}\n",
}
GAMES = "game,date,away,home,source\n"


def project(rows: str, games: str = "g1,2026-03-06,harbor,ridge,video\n", **tables: str) -> dict[str, str]:
    header = "game,half,pitcher,batter,catcher,balls,strikes,pitch\n"
    lines = "".join(f"{row},0,0,FB\n" for row in rows.split())
    more = {f"data/{name}.csv": text for name, text in tables.items()}
    return {**CONTENT, "data/games.csv": GAMES + games, "data/pitches.csv": header + lines.replace("_", " "), **more}


def men(season: Season) -> list[tuple[str, ...]]:
    columns = ["pitcher", "pitcher_team", "batter", "batter_team", "catcher"]
    return [tuple(row) for row in season.pitches[columns].astype("object").fillna("").itertuples(index=False)]


@pytest.mark.parametrize(
    ("row", "answer"),
    [
        ("g1,bottom,27,27,12", ("ivan-nunez", "harbor", "bo-ray", "ridge", "al-smith")),
        ("g1,top,27,#27,8", ("bo-ray", "ridge", "ivan-nunez", "harbor", "cy-dale")),
        ("g1,bottom,IVAN_NUNEZ,Bo_Ray,al-smith", ("ivan-nunez", "harbor", "bo-ray", "ridge", "al-smith")),
        ("g1,bottom,Iván_Núñez,,", ("ivan-nunez", "harbor", "", "", "")),
        # Half blank: from the one roster that has him; his catcher is his team's, the batter the other's.
        ("g1,,ivan-nunez,27,12", ("ivan-nunez", "harbor", "bo-ray", "ridge", "al-smith")),
    ],
)
def test_one_row_by_roster_and_half(season: Read, row: str, answer: tuple[str, ...]) -> None:
    assert men(season(project(row))) == [answer]


def test_a_number_worn_by_two_men_goes_by_the_date(season: Read) -> None:
    games = "g1,2026-02-20,harbor,ridge,video\ng2,2026-03-06,harbor,ridge,video\n"
    assert [row[4] for row in men(season(project("g1,bottom,27,,12 g2,bottom,27,,12", games)))] == [
        "jo-smith",
        "al-smith",
    ]


@pytest.mark.parametrize(
    ("row", "column", "words"),
    [
        (
            "g1,bottom,Ivan_Nunes,,",
            "pitcher",
            (
                '"Ivan Nunes" is not on the roster of Harbor; did you mean "ivan-nunez" (Iván Núñez)? '
                "If not, add him to content/opponents/harbor/team.yml"
            ),
        ),
        (
            "g1,,Jo_Smit,,",
            "pitcher",
            (
                '"Jo Smit" is not on the rosters of Harbor and Ridge; did you mean "jo-smith" (Jo Smith)? '
                "If not, add him to content/opponents/harbor/team.yml or content/program.yml"
            ),
        ),
        ("g1,bottom,27,99,", "batter", '"99" is not on the roster of Ridge; add him to content/program.yml'),
        (
            "g1,,27,,",
            "pitcher",
            '"27" is on the rosters of Harbor and Ridge; fill in half, or write his key or full name',
        ),
    ],
)
def test_a_man_who_cannot_be_found(complaints: Complaints, row: str, column: str, words: str) -> None:
    assert complaints(project(row)) == [f"data/pitches.csv:2: {column}: {words}"]


def test_on_a_team_without_a_roster_any_text_is_a_man(season: Read) -> None:
    games = "g1,2026-03-06,Salt Marsh,ridge,video\n"
    read = season(project("g1,bottom,Åsa_Öberg,8,#31 g1,bottom,asa__oberg,8,31", games))
    assert [row[0] for row in men(read)] == ["asa-oberg", "asa-oberg"]
    team = read.teams["salt-marsh"]
    assert (team.name, team.own, team.listed) == ("Salt Marsh", False, False)
    assert [(man.key, man.name, man.number, man.positions) for man in team.roster] == [
        ("31", "#31", "31", ("C",)),
        ("asa-oberg", "Åsa Öberg", None, ("P",)),
    ]


def test_two_texts_with_one_address_are_refused_unless_they_are_one_man(complaints: Complaints) -> None:
    games = "g1,2026-03-06,Marsh,ridge,video\n"
    assert complaints(project("g1,bottom,J._Poe,, g1,bottom,J_Poe,, g1,bottom,j_POE,,", games)) == [
        f'data/pitches.csv:{line}: pitcher: "{text}" and "J. Poe" on Marsh would share the address "j-poe"; '
        "write the man one way, or give the team a roster"
        for line, text in ((3, "J Poe"), (4, "j POE"))
    ]


def test_teams_are_found_by_key_and_name_and_a_near_miss_is_warned_of(season: Read) -> None:
    games = "g1,2026-03-06,HARBOR,Ridge,video\ng2,2026-03-06,harbour,ridge,video\n"
    read = season(project("", games))
    assert read.games["away"].tolist() == ["harbor", "harbour"]
    assert read.games["home"].tolist() == ["ridge", "ridge"]
    assert [str(warning) for warning in read.warnings] == [
        (
            'data/games.csv:3: warning: away: no team file is called "harbour"; did you mean "harbor"? '
            "It is taken for a team of its own"
        )
    ]


def test_of_two_teams_without_rosters_the_one_common_to_all_his_games(season: Read) -> None:
    games = "g1,2026-03-06,Marsh,Mere,video\ng2,2026-03-07,Marsh,Fallow,video\ng3,2026-03-08,,Fallow,video\n"
    times = "game,player,measure,seconds,method\ng1,Ace,plate,1.3,watch\ng1,Bat,home_first,4.2,watch\n"
    read = season(project("g1,,Ace,Bat, g2,,Ace,, g1,,Once,, g3,,Solo,,", games, times=times))
    assert [row[:4] for row in men(read)] == [
        ("ace", "marsh", "bat", "mere"),
        ("once", "unlisted", "", ""),
        ("ace", "marsh", "", ""),
        ("solo", "fallow", "", ""),
    ]
    assert read.times[["player", "team"]].astype("object").to_numpy().tolist() == [["ace", "marsh"], ["bat", "mere"]]


def test_with_one_team_named_the_other_side_is_unlisted_unless_a_roster_has_him(season: Read) -> None:
    games = "g1,2026-03-06,,Marsh,video\n"
    read = season(project("g1,top,A,B, g1,bottom,C,D, g1,,E,Bo_Ray, g1,,E,27,", games))
    assert [row[:4] for row in men(read)] == [
        ("a", "marsh", "b", "unlisted"),
        ("c", "unlisted", "d", "marsh"),
        ("e", "marsh", "bo-ray", "ridge"),
        ("e", "marsh", "27", "unlisted"),
    ]


def test_catcher_pitcher_and_runner_of_a_throw(season: Read) -> None:
    throws = "game,catcher,pitcher,runner,to\ng1,12,27,27,2\ng1,al-smith,,bo-ray,3\n"
    read = season(project("g1,bottom,27,,", throws=throws))
    with_ambiguous_number = read.throws[["catcher", "team", "pitcher", "runner"]].astype("object").fillna("")
    assert with_ambiguous_number.to_numpy().tolist() == [
        ["al-smith", "harbor", "ivan-nunez", "bo-ray"],
        ["al-smith", "harbor", "", "bo-ray"],
    ]


def test_a_team_that_does_not_play_in_the_game(complaints: Complaints) -> None:
    positions = "game,team,position,player\ng1,Marsh,6,\ng1,ridge,6,\ng1,harbor,6,jo-smith\n"
    assert complaints(project("", positions=positions)) == [
        'data/positions.csv:2: team: "Marsh" does not play in this game; "harbor" and "ridge" do'
    ]


@pytest.mark.parametrize("path", ["content/program.yml", "content/opponents/harbor/team.yml"])
def test_a_slip_in_a_roster_is_told_once_and_not_of_every_row(complaints: Complaints, path: str) -> None:
    files = project("g1,bottom,ivan-nunez,bo-ray,12 g1,bottom,Iván_Núñez,Bo_Ray,12 g1,top,Cy_Dale,27,cy-dale")
    files[path] = files[path].replace("positions: P", "positions: Pitcher")
    said = complaints(files)
    assert len(said) == 1
    assert said[0].startswith(f"{path}:")
