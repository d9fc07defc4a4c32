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


def test_where_nobody_stands_is_asked_about_and_metres_are_known(complaints: Complaints) -> None:
    said = complaints(looks("8,,95,,", "5,,9,,", "7,,460,,", "5,,45,,", "9,,400,,", "6,,,,"))
    begin = "data/positions.csv:{}: warning: depth_ft: {} ft from home plate is {} than position {}"
    assert said == [
        begin.format(2, 95, "nearer", "8 stands, 150 to 430")
        + "; if these are metres, write 312, or unit: m in the map of an import",
        begin.format(3, 9, "nearer", "5 stands, 45 to 150; see that it is right"),
        begin.format(4, 460, "farther", "7 stands, 150 to 400; see that it is right"),
    ]
