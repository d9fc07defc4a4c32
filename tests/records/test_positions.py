"""Where fielders stood: positions 3 to 9 and plain feet."""

from collections.abc import Callable

from scoutgen.records.season import Season

Complaints = Callable[..., list[str]]
Read = Callable[..., Season]


def looks(*rows: str) -> dict[str, str]:
    header = "game,team,position,bases,depth_ft,off_bag_ft,toward\n"
    return {"data/positions.csv": header + "".join(f"g1,harbor,{row}\n" for row in rows)}


def test_good_rows(season: Read) -> None:
    read = season(looks("6,-,140,,middle", "5,3,90.5,12,line"))
    assert read.positions["position"].tolist() == [6, 5]
    assert read.positions["depth_ft"].tolist() == [140.0, 90.5]
    assert read.positions["bases"].tolist() == ["", "3"]


def test_bad_rows(complaints: Complaints) -> None:
    assert complaints(looks("2,,,,", "SS,,140 ft,,in")) == [
        'data/positions.csv:2: position: "2" is too small; allowed are 3 to 9',
        'data/positions.csv:3: depth_ft: "140 ft" is not a number; write 140 alone',
        'data/positions.csv:3: position: "SS" is not a whole number',
        'data/positions.csv:3: toward: "in" is not allowed; did you mean "line"? Write line or middle',
    ]
