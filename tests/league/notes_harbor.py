"""What our staff wrote down about Gannet Harbor, in its own words; every claim follows what the season holds true."""

from league.notes import Entry, Observation, seen

TENDENCIES: tuple[Observation, ...] = (
    seen(
        "bunt",
        "Close game from the sixth on, nobody out: a light hitter bunts the man over.",
        "2026-03-22",
        "AJR",
        "likely",
    ),
    seen("running", "Brathwaite goes on his own. The rest wait for a count.", "2026-04-05", "AJR", "sure"),
    seen(
        "bullpen",
        "First man out of the bullpen changes from night to night; O'Tierney comes when they lead late.",
        "2026-04-03",
        "AJR",
        "likely",
    ),
    seen(
        "pitching changes",
        "Quick to go to the bullpen on Sundays. Make Adeyemi-Frost work early.",
        "2026-03-22",
        "CV",
        "hunch",
        editions="staff",
    ),
)

ENTRIES: dict[str, Entry] = {
    "iker-nunez": Entry(
        summary="Fastball to start; finishes right-handers with the slider, mixes the change in to left-handers.",
        observations=(
            seen(
                "first pitch",
                "Starts left-handed hitters with the curve far more than right-handed ones. It is a strike.",
                "2026-03-20",
                "AJR",
                "likely",
                clip="g0320-harbor.mp4 0:18:40",
            ),
            seen(
                "looks at second",
                "Two looks, then he goes. Same tempo every time.",
                "2026-04-03",
                "AJR",
                "sure",
                clip="g0403-saltmarsh.mp4 0:52:10",
            ),
            seen(
                "looks at second",
                "Not always two: I had a single look more than once on the 6th. Do not leave on the count alone.",
                "2026-03-06",
                "TMW",
                "likely",
            ),
            seen(
                "slide step",
                "Only with first occupied and second open. With two on he stays in the full stretch.",
                "2026-03-20",
                "AJR",
                "likely",
            ),
            seen(
                "speed late", "Fastball loses a couple of miles after the fourth inning.", "2026-04-03", "AJR", "sure"
            ),
            seen(
                "tempo",
                "Worked very quickly, hitters stepped out on him.",
                "2026-02-20",
                "TMW",
                "hunch",
                source="same_site",
                expires="2026-03-20",
            ),
            seen(
                "after a walk",
                "Rushes after a leadoff walk: first pitch to the next man is in the zone. Keep it here until Friday.",
                "2026-04-03",
                "CV",
                "likely",
                editions="staff",
            ),
        ),
    ),
    "bexley-tran": Entry(
        summary="Curve to left-handers, change to right-handers, more curves once the order turns; throws over often.",
        observations=(
            seen(
                "pickoff",
                "Throws over a lot with first occupied, most of them with no strikes. Slow arm, good angle.",
                "2026-03-21",
                "TMW",
                "sure",
            ),
            seen("slide step", "Have not seen one. He lifts the leg fully every time.", "2026-04-04", "TMW", "likely"),
            seen(
                "after a throw over",
                "Walks off the back of the mound with a runner on and turns around late.",
                "2026-03-07",
                "TMW",
                "likely",
            ),
            seen(
                "second time through",
                "Curve comes up, fastball goes down once the order has turned.",
                "2026-04-04",
                "TMW",
                "likely",
            ),
        ),
    ),
    "solomon-adeyemi-frost": Entry(
        summary="Sunday starter and Saturday's designated hitter. Quick to the plate; slider to finish right-handers.",
        observations=(
            seen(
                "sequence",
                "Swing and a miss brings the same slider again.",
                "2026-03-22",
                "AJR",
                "likely",
                clip="g0322-harbor.mp4 0:44:05",
            ),
            seen("slide step", "Uses it half the time with a man on first.", "2026-04-05", "AJR", "sure"),
            seen(
                "at bat",
                "Left-handed bat on the days he does not pitch; hits in the fifth spot.",
                "2026-04-04",
                "TMW",
                "sure",
            ),
        ),
    ),
    "wendell-achterberg": Entry(
        summary="Sidearm right-hander. Sinker in on right-handers, sweeper away; left-handers see it well.",
        observations=(
            seen(
                "arm slot",
                "True sidearm, steps toward third. Ball runs back over the plate to left-handers.",
                "2026-03-21",
                "TMW",
                "sure",
            ),
            seen(
                "time to the plate",
                "Quick from the stretch and quicker with the slide step. Not the man to run on.",
                "2026-04-05",
                "AJR",
                "likely",
            ),
        ),
    ),
    "mats-lindqvist": Entry(
        summary="Left-handed reliever; Anders at short is another Lindqvist. Comes in for left-handed hitters.",
        observations=(seen("use", "Warms up when our left-handed hitters are due.", "2026-04-04", "AJR", "hunch"),),
    ),
    "kenzo-marchetti": Entry(
        summary="Joined the roster in March and wears 31 since; look at the date of any chart that says 31.",
    ),
    "cormac-otierney": Entry(
        summary="Closer with two pitches: fastball up, splitter under. Slow to the plate.",
        observations=(
            seen(
                "two strikes",
                "Splitter under the zone when he is ahead. Make him bring it up.",
                "2026-04-03",
                "AJR",
                "sure",
            ),
            seen(
                "runner on second",
                "One look at most with a man on second, often none. Too few seen to time him by.",
                "2026-04-03",
                "AJR",
                "sure",
            ),
        ),
    ),
    "ruben-castellane": Entry(
        summary="Good arm to second; lobs it back to the mound and seldom looks at the runner on third.",
        observations=(
            seen(
                "return throw",
                "Lobs it, standing, most of the time. With a runner on third he does not look first.",
                "2026-03-20",
                "AJR",
                "sure",
                clip="g0320-harbor.mp4 1:06:30",
            ),
            seen(
                "return throw",
                "Firm ones when the count got deep; the lob is a between-hitters thing for me.",
                "2026-04-04",
                "TMW",
                "hunch",
            ),
            seen(
                "throw to second", "On the bag or on the runner's side. Quick exchange.", "2026-04-03", "AJR", "likely"
            ),
        ),
    ),
    "haru-winterbourne": Entry(
        summary="Sunday's catcher. Slower to second than Castellane, returns the ball firmly and looks first.",
        observations=(
            seen(
                "dirt", "Ball in the dirt gets away from him. Be ready on two strikes.", "2026-03-22", "AJR", "likely"
            ),
        ),
    ),
    "mateo-quiroga-lamb": Entry(
        summary="Third baseman who plays well off the bag with a runner on third.",
        observations=(
            seen(
                "runner on third",
                "A good twenty-five feet off, both hands of hitter. The lead is there.",
                "2026-03-22",
                "AJR",
                "sure",
            ),
            seen("chase", "Swings at the slider off the plate when behind.", "2026-04-05", "AJR", "likely"),
        ),
    ),
    "bram-vandersloot": Entry(
        summary="Left-handed pull hitter with power; plays behind the runner at first.",
        observations=(seen("ground balls", "Nearly all of them to the right side.", "2026-04-04", "TMW", "likely"),),
    ),
    "kofi-brathwaite": Entry(
        summary="Their fastest man. Bunts for a hit and runs on his own.",
        observations=(
            seen("bunt", "Looks for the bunt toward third with nobody on.", "2026-03-07", "TMW", "likely"),
            seen("lead", "Long lead, goes back late. Worth a throw.", "2026-04-05", "AJR", "likely"),
        ),
    ),
    "anders-lindqvist": Entry(
        summary="Shortstop. Shortens up with two strikes and goes the other way.",
        observations=(seen("two strikes", "Chokes up, hits it where it is pitched.", "2026-03-20", "AJR", "sure"),),
    ),
    "gus-tarkowski": Entry(
        summary="Right-handed power, all of it to the pull side.",
        observations=(
            seen("first pitch", "Hunts the fastball early.", "2026-02-13", "AJR", "hunch", expires="2026-03-31"),
            seen("defense", "Give him the pull side with nobody on.", "2026-04-03", "AJR", "likely"),
        ),
    ),
    "theo-okonjo": Entry(summary="Switch hitter, steady from both sides; second baseman."),
    "jun-ho-paik": Entry(
        summary="Swings at the first pitch more than anybody on their team.",
        observations=(seen("first pitch", "Start him off the plate.", "2026-04-03", "AJR", "likely"),),
    ),
}
