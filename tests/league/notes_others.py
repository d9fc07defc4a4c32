"""What our staff wrote down about the other two teams we have a folder on."""

from league.notes import Entry, Observation, seen

TENDENCIES: dict[str, tuple[Observation, ...]] = {
    "slatefield": (
        seen(
            "back picks",
            "Oyelaran throws behind the runner at first on takes.",
            "2026-03-14",
            "DSK",
            "sure",
            source="own_game",
        ),
        seen(
            "middle infield",
            "They break for second as the runner starts. Hit-and-run to the hole.",
            "2026-03-15",
            "DSK",
            "likely",
            source="own_game",
        ),
    ),
    "saltmarsh": (
        seen(
            "corners", "Third baseman plays in. Do not bunt at him.", "2026-03-28", "TMW", "likely", source="own_game"
        ),
        seen(
            "pitchers",
            "Late to cover first on balls to the right side.",
            "2026-03-29",
            "DSK",
            "likely",
            source="own_game",
        ),
    ),
}

ENTRIES: dict[str, dict[str, Entry]] = {
    "slatefield": {
        "abelardo-quint": Entry(
            summary="Fastball and cutter, curve once the order turns. One look at second, every time.",
            observations=(
                seen("looks at second", "One look and home.", "2026-03-13", "DSK", "sure", source="own_game"),
                seen("second time through", "More curves from the fourth inning on.", "2026-03-20", "AJR", "likely"),
            ),
        ),
        "casimir-boudreau-lane": Entry(
            summary="Left-handed reliever, number 27; seen in a few games only.",
            observations=(seen("use", "Came in with men on each time.", "2026-03-21", "TMW", "hunch"),),
        ),
        "hank-oyelaran": Entry(
            summary="Best arm we have seen this year. Throws behind runners.",
            observations=(
                seen(
                    "back picks", "To first after a take, no warning.", "2026-03-13", "DSK", "sure", source="own_game"
                ),
                seen(
                    "back picks", "Only with a right-handed hitter up, as far as I saw.", "2026-03-20", "AJR", "hunch"
                ),
            ),
        ),
        "lorcan-figueroa-bell": Entry(summary="Left-handed power to the pull side."),
    },
    "saltmarsh": {
        "hollis-ramaswamy": Entry(
            summary="Sinker and slider; follows the count closely. Quick to the plate without a slide step.",
            observations=(
                seen(
                    "pickoff", "Throws over when nobody has run yet.", "2026-03-27", "DSK", "likely", source="own_game"
                ),
            ),
        ),
        "andre-villalobos-kerr": Entry(
            summary="Returns the ball from his knees now and then.",
            observations=(
                seen("return throw", "From the knees with nobody on.", "2026-03-27", "DSK", "sure", source="own_game"),
            ),
        ),
        "leopold-ganz-whittier": Entry(
            summary="Leadoff man, number 27. Runs and bunts.",
            observations=(
                seen(
                    "bunt",
                    "Drag bunt in the first inning on the 28th.",
                    "2026-03-28",
                    "TMW",
                    "hunch",
                    source="own_game",
                ),
            ),
        ),
    },
}
