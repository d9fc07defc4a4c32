"""What is true of every pitcher: the planted ones in words, the rest drawn around a type."""

from dataclasses import replace
from functools import cache

from league.chance import stream
from league.rosters import PASSING, ROSTERS
from league.truth import Clocks, PitcherTruth, PitchTruth

P = PitchTruth

#: Kinds of arsenal, the speeds to be moved by a few miles from man to man.
KINDS: dict[str, tuple[PitchTruth, ...]] = {
    "power": (
        P("fastball", 0.56, 0.55, 92.0, 0.15, 2.75),
        P("slider", 0.31, 0.17, 83.5, -0.55, 1.9, 1.3),
        P("change", 0.13, 0.28, 84.0, 0.6, 1.8, 1.15),
    ),
    "sinker": (
        P("sinker", 0.52, 0.44, 89.5, 0.45, 2.1, 0.75),
        P("slider", 0.32, 0.16, 81.0, -0.6, 1.9, 1.2),
        P("change", 0.16, 0.40, 81.5, 0.65, 1.7, 1.15),
    ),
    "four": (
        P("fastball", 0.44, 0.44, 90.0, 0.1, 2.7),
        P("curve", 0.18, 0.22, 76.0, -0.3, 1.8, 1.1),
        P("slider", 0.24, 0.09, 82.0, -0.6, 2.0, 1.2),
        P("change", 0.14, 0.25, 81.5, 0.6, 1.8, 1.1),
    ),
    "soft": (
        P("fastball", 0.46, 0.45, 86.5, -0.2, 2.5, 0.85),
        P("curve", 0.32, 0.17, 73.5, -0.4, 1.9, 1.15),
        P("change", 0.22, 0.38, 77.5, 0.7, 1.8, 1.25),
    ),
    "cutter": (
        P("fastball", 0.36, 0.31, 89.0, 0.3, 2.7),
        P("cutter", 0.34, 0.36, 85.0, -0.5, 2.4),
        P("curve", 0.20, 0.20, 75.5, -0.3, 1.8, 1.15),
        P("splitter", 0.10, 0.13, 80.5, 0.3, 1.6, 1.3),
    ),
    "side": (
        P("sinker", 0.55, 0.62, 85.0, 0.6, 2.1, 0.75),
        P("sweeper", 0.40, 0.20, 75.0, -0.8, 2.1, 1.35),
        P("change", 0.05, 0.18, 78.0, 0.6, 1.8),
    ),
}

#: The planted men. Everything a page of theirs should come to show is written here and nowhere else.
PLANTED: dict[tuple[str, str], PitcherTruth] = {
    # Friday: curve for strike one to left-handers, slider to finish right-handers, change to finish left-handers;
    # leans on the slider from the second time through; loses speed; quick with the slide step, regular at second.
    ("harbor", "iker-nunez"): PitcherTruth(
        throws="R",
        arsenal=(
            P("fastball", 0.52, 0.48, 92.3, 0.2, 2.8),
            P("slider", 0.30, 0.10, 83.8, -0.6, 1.9, 1.35),
            P("curve", 0.10, 0.20, 77.1, -0.3, 2.0),
            P("change", 0.08, 0.22, 84.6, 0.65, 1.8, 1.25),
        ),
        lean=1.25,
        special={
            ("L", "0-0"): {"curve": 2.0, "change": -0.8},
            ("R", "0-0"): {"fastball": 0.45},
            ("L", "1-2"): {"change": 1.6},
            ("L", "0-2"): {"change": 1.6},
            ("L", "2-2"): {"change": 1.4},
        },
        later={"slider": 0.35, "fastball": -0.2},
        drop_mph=0.75,
        clocks=Clocks(
            windup=(1.86, 0.06),
            stretch=(1.44, 0.05),
            slide_step=(1.21, 0.04),
            slide_share=0.28,
            pickoff_share=0.09,
            looks=(0.02, 0.10, 0.86, 0.02),
            hold=(2.2, 0.25),
            windup_with_third=True,
        ),
        strikeout=1.1,
    ),
    # Saturday, left-handed: lives on the change, never seen with a slide step, throws over often and slowly.
    ("harbor", "bexley-tran"): PitcherTruth(
        throws="L",
        arsenal=KINDS["soft"],
        lean=0.8,
        later={"curve": 0.45, "fastball": -0.3},
        clocks=Clocks(
            windup=(1.74, 0.06),
            stretch=(1.52, 0.08),
            slide_step=None,
            slide_share=0.0,
            pickoff=(1.34, 0.09),
            pickoff_share=0.20,
            looks=(0.25, 0.25, 0.25, 0.25),
            hold=(3.4, 1.3),
            behind_mound=0.55,
        ),
    ),
    # Sunday, hits as well: after a swing and a miss he throws the same slider again; after a foul, the fastball.
    ("harbor", "solomon-adeyemi-frost"): PitcherTruth(
        throws="R",
        arsenal=KINDS["power"],
        after={"swinging_strike": {"slider": 1.1}, "foul": {"fastball": 0.7, "change": -0.5}},
        drop_mph=0.3,
        clocks=Clocks(stretch=(1.33, 0.05), slide_step=(1.15, 0.04), slide_share=0.45, looks=(0.3, 0.6, 0.1)),
    ),
    ("harbor", "wendell-achterberg"): PitcherTruth(
        throws="R",
        arsenal=KINDS["side"],
        lean=0.6,
        command_ft=0.72,
        clocks=Clocks(windup=(1.62, 0.05), stretch=(1.30, 0.05), slide_step=(1.12, 0.03), slide_share=0.6),
    ),
    ("harbor", "cormac-otierney"): PitcherTruth(
        throws="R",
        arsenal=(P("fastball", 0.63, 0.60, 94.6, 0.1, 2.9, 1.15), P("splitter", 0.37, 0.40, 86.2, 0.2, 1.6, 1.45)),
        lean=1.4,
        clocks=Clocks(stretch=(1.55, 0.06), slide_step=None, slide_share=0.0, pickoff_share=0.03),
        strikeout=1.25,
    ),
    ("slatefield", "abelardo-quint"): PitcherTruth(
        throws="R",
        arsenal=KINDS["cutter"],
        lean=1.1,
        later={"curve": 0.4},
        drop_mph=0.5,
        clocks=Clocks(looks=(0.05, 0.9, 0.05), hold=(2.0, 0.2), slide_share=0.35),
    ),
    ("saltmarsh", "hollis-ramaswamy"): PitcherTruth(
        throws="R",
        arsenal=KINDS["sinker"],
        lean=1.5,
        clocks=Clocks(stretch=(1.29, 0.04), slide_share=0.1, pickoff_share=0.15),
    ),
}

_RIGHT = ("power", "sinker", "four", "cutter")
_LEFT = ("soft", "four", "power")


def drawn(team: str, key: str, throws: str) -> PitcherTruth:
    """A pitcher around one of the kinds: mix, speeds, command and clocks his own."""
    rng = stream("arm", team, key)
    kinds = _LEFT if throws == "L" else _RIGHT
    kind = kinds[rng.randrange(len(kinds))]
    faster = rng.gauss(0, 1.4) - (3 if throws == "L" and kind != "soft" else 0)
    arsenal = tuple(
        replace(
            pitch,
            same=pitch.same * rng.uniform(0.75, 1.3),
            opposite=pitch.opposite * rng.uniform(0.75, 1.3),
            mph=round(pitch.mph + faster + rng.gauss(0, 0.6), 1),
        )
        for pitch in KINDS[kind]
    )
    stretch = round(rng.uniform(1.28, 1.52), 2)
    clocks = Clocks(
        windup=(round(stretch + rng.uniform(0.3, 0.5), 2), 0.07),
        stretch=(stretch, round(rng.uniform(0.04, 0.08), 3)),
        slide_step=(round(stretch - rng.uniform(0.12, 0.24), 2), 0.04),
        slide_share=round(rng.uniform(0.05, 0.4), 2),
        pickoff=(round(1.3 if throws == "L" else rng.uniform(0.95, 1.15), 2), 0.07),
        pickoff_share=round(rng.uniform(0.03, 0.14), 3),
        hold=(round(rng.uniform(2.0, 3.4), 1), round(rng.uniform(0.4, 1.2), 1)),
    )
    return PitcherTruth(
        throws=throws,
        arsenal=arsenal,
        lean=round(rng.uniform(0.6, 1.5), 2),
        drop_mph=round(rng.uniform(0.05, 0.4), 2),
        command_ft=round(rng.uniform(0.60, 0.74), 2),
        clocks=clocks,
        strikeout=round(rng.uniform(0.85, 1.15), 2),
    )


@cache
def pitchers() -> dict[tuple[str, str], PitcherTruth]:
    """The truth of every pitcher by team and key; the teams that come by have seven each, known by number."""
    found = {
        (team, man.key): PLANTED.get((team, man.key)) or drawn(team, man.key, man.throws)
        for team, men in ROSTERS.items()
        for man in men
        if man.pitches
    }
    for team in PASSING:
        for number in PASSING_ARMS:
            throws = "L" if number in {"28", "45"} else "R"
            found[team, number] = drawn(team, number, throws)
    return found


#: Numbers of the pitchers of a team that comes by: three starters, then the bullpen.
PASSING_ARMS = ("18", "28", "34", "37", "41", "45", "50")
