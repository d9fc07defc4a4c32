"""What our recruiting staff graded of other teams' men: now, later, what was seen, each on a day he was on the field.

Grades follow what the season holds true, as far as it was charted: about 90 mph is an average fastball, 4.3 s home to
first from the right side and 4.2 s from the left an average runner (common practice).
"""

from collections.abc import Sequence

from league.notes import Graded, Observation, seen

GRADES: dict[str, dict[str, Graded]] = {
    "harbor": {
        "iker-nunez": Graded("2026-04-03", "CV", "video",
            "Lean, long arms, room to add strength.", "Weekend starter", """
            fastball 55/60 Carries at the top of the zone, loses a couple of miles after the fourth.
            slider 55/60 Late, to right-handers off the plate; the pitch he goes to.
            curve 45/50 Gets it over for a first strike, little more yet.
            change 50/55 Same arm, fades from left-handers.
            control 50/55
            overall 50/55
        """),
        "bexley-tran": Graded("2026-04-04", "CV", "video",
            "Slight, loose, may still grow.", "Starter by feel", """
            fastball 40/45 Moves it to both sides, nothing to spare.
            curve 55 Comes up the second time through, in any count.
            change 55/60 Right-handers swing over it all night.
            control 55
            pickoff 55 Slow arm, good angle, never stops throwing over.
            overall 45/50
        """),
        "solomon-adeyemi-frost": Graded("2026-04-05", "CV", "video",
            "Strong lower half, mature.", "Starter, bat as a bonus", """
            fastball 55
            slider 50/55 Better when he is behind than when he is ahead.
            change 45
            control 45/50
            hit 40
            overall 45/50
        """),
        "wendell-achterberg": Graded("2026-04-05", "DSK", "video",
            "Wiry, low slot, repeats it.", "Ground balls in the middle innings", """
            sinker 45 Runs under bats from down there.
            sweeper 55 Right-handers give up on it.
            change 35
            control 45
            overall 45
        """),
        "kenzo-marchetti": Graded("2026-04-05", "DSK", "video",
            "Square, strong legs.", "Reliever, a starter's pitches", """
            fastball 50/55
            cutter 50/55 Late to both sides.
            curve 45/50
            splitter 45/55 Three of them were unhittable, others stayed up.
            control 45/50
            overall 45/50
        """),
        "cormac-otierney": Graded("2026-04-03", "CV", "video",
            "Compact and strong.", "Late innings", """
            fastball 60 Gets it by people at the letters.
            splitter 55/60 Falls off the table when it is down.
            control 50
            overall 50/55
        """),
        "ruben-castellane": Graded("2026-04-03", "CV", "video",
            "Sturdy, moves well.", "Regular catcher", """
            receive 50
            block 50
            throw 55 On the bag from his knees on steals.
            hit 45
            overall 50
        """),
        "anders-lindqvist": Graded("2026-04-05", "CV", "video",
            "Tall for the spot, light on his feet.", "Shortstop, glove first", """
            hit 40/45 Long swing, misses above the belt.
            power 35/40
            run 40
            field 55 Sure hands going to his right.
            arm 55
            overall 45/50
        """),
        "theo-okonjo": Graded("2026-04-04", "DSK", "video",
            "Short, strong forearms.", "Everyday second baseman", """
            hit 50/55 Same swing from both sides.
            power 45/50
            run 60 Out of the box quickly from the left side.
            field 45/50
            arm 45
            overall 50/55
        """),
        "bram-vandersloot": Graded("2026-04-05", "CV", "video",
            "Big, heavy legs.", "First base or the bat alone", """
            hit 45
            power 55 Lifts it to right field.
            run 30
            field 45
            overall 45
        """),
        "kofi-brathwaite": Graded("2026-04-05", "CV", "video",
            "Lean, quick first step.", "Center fielder", """
            hit 50
            power 35
            run 65 Beats out what others roll over.
            field 55
            arm 45
            overall 50
        """),
        "jun-ho-paik": Graded("2026-04-05", "TMW", "video",
            "Broad shoulders, athletic.", "Corner outfielder who hits", """
            hit 50/55 Few misses on the inner half.
            power 50/55
            run 50
            field 50
            arm 50
            overall 50/55
        """),
    },
    "slatefield": {
        "abelardo-quint": Graded("2026-03-20", "CV", "video",
            "Thick, durable.", "Swing man", """
            fastball 45
            cutter 50 Jams left-handers.
            curve 50
            splitter 40
            control 55
            overall 45
        """),
        "tuck-hallworth": Graded("2026-03-21", "CV", "video",
            "Long and loose, much room.", "Front of a rotation", """
            fastball 55/65 Easy, and there is more in it.
            slider 50/60 Sharp when he stays over it.
            change 45/50
            curve 45
            control 55/60
            overall 50/60
        """),
        "oluwaseun-grady": Graded("2026-03-21", "DSK", "video",
            "Tall, still thin.", "Late innings in a year", """
            fastball 55/60
            cutter 45/50
            curve 45/55
            control 50
            overall 45/55
        """),
        "hank-oyelaran": Graded("2026-03-20", "CV", "video",
            "Strong and quick.", "Regular catcher", """
            receive 55
            throw 60 The ball is out before he stands.
            hit 40
            run 45
            overall 50
        """),
        "rafa-delacourt": Graded("2026-03-22", "DSK", "video",
            "Rangy, strong wrists.", "Shortstop or third base", """
            hit 45/50
            power 45/50
            run 45
            field 50/55
            arm 60 Throws from the hole without a step.
            overall 45/55
        """),
        "deshawn-whitlaw": Graded("2026-03-21", "CV", "video",
            "Slim, long stride.", "Center fielder", """
            hit 45
            power 40
            run 65
            field 60 Goes back on the ball as well as he comes in.
            arm 40
            overall 50
        """),
        "lorcan-figueroa-bell": Graded("2026-03-22", "CV", "video",
            "Very strong, slow.", "The bat alone", """
            hit 45
            power 60 Pull side, far.
            run 20
            overall 40
        """),
    },
    "saltmarsh": {
        "hollis-ramaswamy": Graded("2026-04-03", "CV", "video",
            "Medium, repeats well.", "Weekend starter", """
            sinker 50/55 Heavy, at the knees.
            change 55/60 Half the swings at it missed.
            slider 45/50
            control 50
            delivery 55 Quick to the plate, same tempo with a man on.
            overall 50/55
        """),
        "dmitri-calloway-ito": Graded("2026-04-04", "TMW", "video",
            "Tall, high slot.", "Starter", """
            fastball 50
            slider 50
            change 50
            control 50/55
            overall 50
        """),
        "zander-ibekwe": Graded("2026-04-05", "CV", "video",
            "Wiry, quick hands.", "Shortstop", """
            hit 45/55
            power 40/45
            run 45
            field 55/60 The hands are there already.
            arm 50
            overall 45/55
        """),
        "gideon-palu": Graded("2026-04-05", "DSK", "video",
            "Thick, agile for it.", "First base", """
            hit 45
            power 50
            run 45
            field 55
            overall 45
        """),
        "leopold-ganz-whittier": Graded("2026-04-04", "CV", "video",
            "Lean, long legs.", "Center fielder at the top of an order", """
            hit 50/55
            power 45/50
            run 60 Takes the extra base without being told.
            field 55
            arm 45
            overall 50/55
        """),
        "mikko-abara": Graded("2026-04-04", "TMW", "video",
            "Very young body, years to go.", "Outfielder, far away", """
            hit 30/45 Nearly half his swings missed.
            power 35/50
            run 55
            arm 50
            overall 35/50
        """),
    },
}  # fmt: skip

# What was seen for the recruiting edition alone, or for it too.
SEEN: dict[str, dict[str, Sequence[Observation]]] = {
    "harbor": {
        "iker-nunez": (
            seen(
                "poise", "Bases loaded in the fifth, slowed himself down and got out of it.", "2026-04-03", "CV",
                "sure", editions="recruiting", clip="g0403-saltmarsh.mp4 1:21:05",
            ),
            seen(
                "delivery", "Front side flies open when he reaches for more.", "2026-03-20", "CV", "likely",
                editions="recruiting",
            ),
        ),
        "theo-okonjo": (
            seen(
                "both sides", "Quicker bat from the left, more strength from the right.", "2026-04-04", "DSK",
                "likely", editions="recruiting",
            ),
        ),
        "kofi-brathwaite": (
            seen("reads", "Broke in on the first line drive over him, then back at once.", "2026-04-05", "CV", "likely",
                 editions="staff, recruiting"),
        ),
    },
    "slatefield": {
        "tuck-hallworth": (
            seen(
                "competes", "Asked for the ball back after the error and struck out the next two.", "2026-03-21", "CV",
                "sure", editions="recruiting",
            ),
            seen("body", "Has grown since the autumn.", "2026-03-14", "TMW", "hunch", source="own_game",
                 editions="recruiting"),
        ),
        "nils-abernathy-roy": (
            seen(
                "to look at again", "Left-hander who throws strikes; not enough seen for a grade.", "2026-03-22", "CV",
                "hunch", editions="recruiting",
            ),
        ),
    },
    "saltmarsh": {
        "zander-ibekwe": (
            seen(
                "footwork", "Turned two double plays without a wasted step.", "2026-04-05", "CV", "sure",
                editions="recruiting",
            ),
        ),
        "leopold-ganz-whittier": (
            seen(
                "routes", "Straight lines to the gaps, both of them.", "2026-04-04", "CV", "likely",
                editions="recruiting",
            ),
        ),
    },
}  # fmt: skip
