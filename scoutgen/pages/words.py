"""How pages say the words that charts are kept in: the one place a coach's word is looked up or changed."""

from collections.abc import Mapping
from typing import Final

# A runner's and a fielder's places.
BASE_WORDS: Final[Mapping[str, str]] = {"1": "first", "2": "second", "3": "third", "home": "home", "all": "any base"}
RUNNER_WORDS: Final[Mapping[str, str]] = {
    "all": "any runners",
    "empty": "bases empty",
    "on": "runners on",
    "scoring": "runner on second or third",
    "1": "runner on first",
    "2": "runner on second",
    "3": "runner on third",
    "12": "first and second",
    "13": "first and third",
    "23": "second and third",
    "123": "bases loaded",
}
# Who is on, in a column headed "On"; in the order of the table.
RUNNER_ON_WORDS: Final[Mapping[str, str]] = {
    "1": "first",
    "2": "second",
    "12": "first, second",
    "3": "third",
    "13": "first, third",
    "23": "second, third",
    "123": "all three",
    "all": "anyone",
}
POSITION_WORDS: Final[Mapping[int, str]] = {
    1: "pitcher", 2: "catcher", 3: "first base", 4: "second base", 5: "third base", 6: "shortstop",
    7: "left field", 8: "center field", 9: "right field",
}  # fmt: skip
FIELDER_WORDS: Final[Mapping[int, str]] = {
    3: "first baseman", 4: "second baseman", 5: "third baseman", 6: "shortstop",
}  # fmt: skip

# Hitters and hands.
SIDE_WORDS: Final[Mapping[str, str]] = {"L": "left-handed hitters", "R": "right-handed hitters"}
# The same as the switch on top of the page has them, within a sentence.
SHORT_SIDES: Final[Mapping[str, str]] = {"L": "lefties", "R": "righties"}
HAND_WORDS: Final[Mapping[str, str]] = {"R": "right-handed pitcher", "L": "left-handed pitcher"}
SHORT_HAND_WORDS: Final[Mapping[str, str]] = {"L": "LHP", "R": "RHP"}
# A switch hitter's two sides, and which side of the field is the pull side and which the other.
BATTING_WORDS: Final[Mapping[str, str]] = {"L": "batting left", "R": "batting right"}
FIELD_SIDE_WORDS: Final[Mapping[str, tuple[str, str]]] = {"L": ("right", "left"), "R": ("left", "right")}
BATS_WORDS: Final[Mapping[str, str]] = {"R": "bats right", "L": "bats left", "S": "switch hitter"}

# What was timed, and how it was done.
MEASURE_WORDS: Final[Mapping[str, str]] = {
    "plate": "To the plate",
    "pickoff_1": "Pickoff to first",
    "pickoff_2": "Pickoff to second",
    "pickoff_3": "Pickoff to third",
    "return_throw": "Return throw",
    "home_first": "Home to first",
    "first_second": "First to second",
    "second_third": "Second to third",
    "third_home": "Third to home",
    "pop": "Pop",
    "exchange": "Exchange",
}
STYLE_WORDS: Final[Mapping[str, str]] = {
    "windup": "windup",
    "stretch": "stretch",
    "slide_step": "slide step",
    "firm": "firm",
    "lob": "lob",
    "knees": "from the knees",
    "full": "full swing",
    "bunt": "bunt",
    "out_of_box": "out of the box",
    "all": "any style",
}
MOVE_WORDS: Final[Mapping[str, str]] = {
    "pickoff": "throws over, any base",
    "pickoff_1": "throws over to first",
    "pickoff_2": "throws to second",
    "pickoff_3": "throws to third",
    "step_off": "steps off",
    "balk": "balks",
}
ACCURACY_WORDS: Final[Mapping[str, str]] = {
    "on_bag": "on the bag",
    "first_side": "first-base side",
    "field_side": "outfield side",
    "high": "high",
    "short_hop": "short hop",
    "dropped": "dropped on the exchange",
}

# When a pitch is thrown, and what became of the one before.
COUNT_WORDS: Final[Mapping[str, str]] = {
    "first pitch": "First pitch",
    "ahead": "He is ahead",
    "even": "Even",
    "behind": "He is behind",
    "two strikes": "Two strikes",
    "full": "Full",
}
BASES_WORDS: Final[Mapping[str, str]] = {"empty": "Empty", "on": "Runner on", "scoring": "On 2nd or 3rd"}
TIMES_WORDS: Final[Mapping[str, str]] = {"1st": "First", "2nd": "Second", "3rd+": "Third+"}
CHANGE_WORDS: Final[Mapping[str, str]] = {"2nd": "Second time through", "3rd+": "Third time through"}
BEFORE_WORDS: Final[Mapping[str, str]] = {
    "any": "",
    "taken ball": " taken for a ball",
    "called strike": " taken for a strike",
    "foul": " fouled off",
    "swinging strike": " swung at and missed",
}

# What a hitter swings at and how the ball comes off the bat.
VALUE_WORDS: Final[Mapping[str, str]] = {
    "all": "All",
    "early": "No or one strike",
    "two": "Two strikes",
    "fastballs": "All fastballs",
    "breaking": "Breaking",
    "off-speed": "Off-speed",
    "other": "Other",
    "in": "In",
    "middle": "Middle",
    "away": "Away",
    "up": "Up",
    "center": "Center",
    "down": "Down",
}
CONTACT_WORDS: Final[Mapping[str, str]] = {
    "ground": "ground balls", "line": "line drives", "fly": "flies", "popup": "popups", "bunt": "bunts",
}  # fmt: skip
# Rows of where his balls go: all, by the pitcher's hand, by strikes.
SPRAY_WORDS: Final[Mapping[tuple[str, str], str]] = {
    ("all", "all"): "All",
    ("hand", "L"): "LHP",
    ("hand", "R"): "RHP",
    ("strikes", "early"): "0-1 strike",
    ("strikes", "two"): "2 strikes",
}

# What a habit opens, and how a game was lawfully seen.
DOOR_WORDS: Final[Mapping[str, str]] = {
    "steal_second": "steal of second",
    "steal_third": "steal of third",
    "steal_home": "steal of home",
    "delayed_steal": "delayed steal",
    "double_steal": "double steal",
    "bigger_lead": "bigger lead",
    "extra_base": "extra base",
    "bunt": "bunt for a hit",
    "hit_and_run": "hit-and-run",
    "dirt_ball": "go on a ball in the dirt",
}
# What a third-base coach sends for: two on a single, the last on a double; in the two lines of a column's head.
EXTRA_WORDS: Final[Mapping[str, tuple[str, str]]] = {
    "first_third": ("First", "to third"),
    "second_home": ("Second", "home"),
    "first_home": ("Double,", "home"),
}
SOURCE_WORDS: Final[Mapping[str, str]] = {
    "video": "video",
    "own_game": "our game",
    "same_site": "same site",
    "on_campus": "on our campus",
    "second_hand": "second hand",
}
