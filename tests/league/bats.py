"""What is true of every hitter, catcher and infield."""

from dataclasses import replace

from league.chance import stream
from league.rosters import PASSING, ROSTERS
from league.truth import CatcherTruth, HitterTruth, InfieldTruth

#: Planted hitters: changes to what chance drew for them.
PLANTED: dict[tuple[str, str], dict[str, float]] = {
    ("harbor", "kofi-brathwaite"): {
        "pull": -0.35, "ground": 0.35, "power": 0.6, "bunt": 0.065, "home_first": 3.95, "first_second": 3.2, "go": 0.10,
    },
    ("harbor", "theo-okonjo"): {"pull": 0.15, "contact": 1.08, "go": 0.03},
    ("harbor", "anders-lindqvist"): {"pull": 0.35, "two_strike_pull": -0.75, "first_swing": 0.22},
    ("harbor", "bram-vandersloot"): {"pull": 0.75, "ground": 0.1, "power": 1.35, "home_first": 4.55, "go": 0.0},
    ("harbor", "gus-tarkowski"): {"pull": 0.8, "power": 1.5, "contact": 0.9, "home_first": 4.7, "go": 0.0},
    ("harbor", "jun-ho-paik"): {"first_swing": 0.52, "pull": 0.2},
    ("harbor", "mateo-quiroga-lamb"): {"chase": 1.35, "pull": 0.05},
    ("harbor", "dario-fontanel"): {"contact": 0.84, "chase": 1.25, "power": 1.1},
    ("slatefield", "deshawn-whitlaw"): {"home_first": 4.1, "first_second": 3.25, "go": 0.08},
    ("slatefield", "lorcan-figueroa-bell"): {"pull": 0.7, "power": 1.5, "home_first": 4.6, "go": 0.0},
    ("saltmarsh", "leopold-ganz-whittier"): {"home_first": 4.0, "first_second": 3.25, "go": 0.08, "bunt": 0.02},
    ("ridge", "jabari-wrenfield"): {"home_first": 3.92, "first_second": 3.18, "go": 0.11, "bunt": 0.02},
    ("ridge", "ozzie-farnsworth-li"): {"home_first": 4.2, "first_second": 3.31, "go": 0.05},
    ("ridge", "nico-baptiste-shaw"): {"home_first": 4.3, "first_second": 3.38, "go": 0.03},
    ("ridge", "grover-mbeki-stone"): {"home_first": 4.6, "first_second": 3.66, "go": 0.0},
}  # fmt: skip

_CATCHER_HABITS = {"returns-without-look": 0.15, "drops-head": 0.15, "back-picks": 0.04, "blocks-away": 0.25}

CATCHERS: dict[tuple[str, str], CatcherTruth] = {
    # The Friday and Saturday catcher: a strong arm to second, a lob back to the mound, no look at third.
    ("harbor", "ruben-castellane"): CatcherTruth(
        pop_2=(1.98, 0.05),
        pop_3=(1.58, 0.05),
        exchange=(0.71, 0.03),
        returns={"firm": 0.24, "lob": 0.66, "knees": 0.10},
        back_pick=0.004,
        habits={**_CATCHER_HABITS, "returns-without-look": 0.78, "drops-head": 0.45, "back-picks": 0.01},
    ),
    # The Sunday catcher: slower, but he looks and throws firmly.
    ("harbor", "haru-winterbourne"): CatcherTruth(
        pop_2=(2.12, 0.07), pop_3=(1.70, 0.07), exchange=(0.80, 0.05), habits={**_CATCHER_HABITS, "blocks-away": 0.45}
    ),
    ("slatefield", "hank-oyelaran"): CatcherTruth(
        pop_2=(1.94, 0.04), exchange=(0.69, 0.03), back_pick=0.03, habits={**_CATCHER_HABITS, "back-picks": 0.30}
    ),
    ("saltmarsh", "andre-villalobos-kerr"): CatcherTruth(
        pop_2=(2.06, 0.06), returns={"firm": 0.55, "lob": 0.15, "knees": 0.30}, habits=_CATCHER_HABITS
    ),
}

_DEPTH = {3: 108.0, 4: 140.0, 5: 105.0, 6: 142.0, 7: 285.0, 8: 318.0, 9: 283.0}
_PLAIN = {
    "soft-return-infield": 0.20, "turns-back": 0.15, "first-behind-runner": 0.15, "middle-late-to-bag": 0.15,
    "middle-breaks-early": 0.20, "third-deep-on-bunt": 0.40, "one-hops-cutoff": 0.30, "misses-cutoff": 0.15,
    "slow-to-charge": 0.20, "slow-to-cover-first": 0.15,
}  # fmt: skip

#: Fielders, a team at a time: a third baseman far off the bag at Gannet Harbor, and a first baseman behind the runner.
INFIELDS: dict[str, InfieldTruth] = {
    "harbor": InfieldTruth(
        habits={
            **_PLAIN, "soft-return-infield": 0.55, "first-behind-runner": 0.62, "turns-back": 0.45,
            "middle-late-to-bag": 0.30, "one-hops-cutoff": 0.50, "third-deep-on-bunt": 0.85,
        },
        feet={"third-off-bag": (25.5, 2.5)},
        depth={**_DEPTH, 5: 112.0},
    ),
    "slatefield": InfieldTruth(
        habits={**_PLAIN, "middle-breaks-early": 0.55}, feet={"third-off-bag": (8.0, 2.0)}, depth=_DEPTH
    ),
    "saltmarsh": InfieldTruth(
        habits={**_PLAIN, "turns-back": 0.40, "slow-to-cover-first": 0.5},
        feet={"third-off-bag": (12.0, 3.0)},
        depth={**_DEPTH, 5: 96.0},
    ),
}  # fmt: skip

#: Numbers of the hitters of a team that comes by, in order; the eighth catches.
PASSING_BATS = ("1", "4", "8", "13", "15", "20", "22", "29", "31")


def drawn(team: str, key: str, bats: str) -> HitterTruth:
    """A hitter around the league's."""
    rng = stream("bat", team, key)
    seconds = rng.gauss(4.38, 0.14) - (0.10 if bats == "L" else 0.0)
    second = rng.gauss(3.45, 0.08)
    return HitterTruth(
        bats=bats,
        contact=round(rng.gauss(1.0, 0.05), 3),
        chase=round(rng.gauss(1.0, 0.15), 3),
        power=round(max(0.4, rng.gauss(1.0, 0.25)), 2),
        first_swing=round(rng.uniform(0.2, 0.42), 2),
        pull=round(rng.gauss(0.1, 0.3), 2),
        ground=round(rng.gauss(0, 0.2), 2),
        two_strike_pull=round(rng.gauss(-0.15, 0.2), 2),
        bunt=round(rng.uniform(0.0, 0.008), 4),
        home_first=round(seconds, 2),
        first_second=round(second, 2),
        go=round(max(0.0, 0.012 + (3.42 - second) * 0.15), 4),
    )


def hitters() -> dict[tuple[str, str], HitterTruth]:
    """The truth of every man who bats, by team and key."""
    found = {
        (team, man.key): replace(drawn(team, man.key, man.bats), **PLANTED.get((team, man.key), {}))  # type: ignore[arg-type]
        for team, men in ROSTERS.items()
        for man in men
        if set(man.positions) != {"P"}
    }
    for team in PASSING:
        for number in PASSING_BATS:
            found[team, number] = drawn(team, number, "L" if number in {"4", "13", "29"} else "R")
    return found


def catcher(team: str, key: str) -> CatcherTruth:
    """The truth of a catcher; one that comes by is the league's."""
    return CATCHERS.get((team, key), CatcherTruth(habits=_CATCHER_HABITS))
