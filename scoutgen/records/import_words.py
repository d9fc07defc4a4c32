"""Which words of the trade do charters put over a column, and into its cells, for each column of ours?

Words that any coach would use, in the singular forms of their own scorebooks; no file's own inventions.
"""

from collections.abc import Mapping

# By column of ours, over all tables; compared without capitals, signs and units.
HEADERS: Mapping[str, tuple[str, ...]] = {
    "game": ("game", "game key", "game name"),
    "date": ("date", "day", "game date", "game day"),
    "away": ("away", "visitor", "visitors", "road team", "away team"),
    "home": ("home", "hosts", "home team"),
    "source": ("source", "seen"),
    "charted_by": ("charted by", "charter", "scout", "by"),
    "inning": ("inning", "inn", "ing"),
    "half": ("half", "top bottom", "top bot", "t b", "tb", "half inning"),
    "outs": ("outs", "out"),
    "bases": ("bases", "runners", "runners on", "men on", "on base", "baserunners"),
    "lead": ("lead", "score difference", "run difference", "score diff", "run diff", "diff"),
    "pitcher": ("pitcher", "pitcher name", "p", "arm", "on the mound"),
    "batter": ("batter", "hitter", "batter name", "hitter name"),
    "catcher": ("catcher", "c", "catcher name"),
    "bats": ("bats", "hits", "stance", "batter hand", "hitter hand", "bat side", "lefty righty", "hand", "l r", "r l"),
    "balls": ("balls", "ball"),
    "strikes": ("strikes", "strike"),
    "pitch": ("pitch", "pitch type", "type", "pitch thrown", "thrown"),
    "speed_mph": ("speed", "velo", "velocity", "pitch speed", "gun", "radar"),
    "height": ("height", "up down", "zone height"),
    "side": ("side", "in out", "zone side"),
    "plate_x_ft": ("plate x", "horizontal", "x"),
    "plate_z_ft": ("plate z", "vertical", "z"),
    "result": ("result", "call", "pitch result", "outcome", "pitch outcome"),
    "play": ("play", "at bat result", "ab result", "pa result", "at bat", "event"),
    "contact": ("contact", "batted ball", "kind of contact", "hit type"),
    "direction_deg": ("direction", "bearing", "angle", "spray angle", "spray"),
    "field": ("field", "hit to", "where hit"),
    "distance_ft": ("distance", "dist", "how far", "depth"),
    "fielder": ("fielder", "fielded by"),
    "player": ("player", "man", "name"),
    "measure": ("measure", "what", "timed"),
    "style": ("style", "delivery", "motion"),
    "seconds": ("seconds", "time", "sec", "reading", "stopwatch"),
    "method": ("method", "how"),
    "warmup": ("warmup", "warm up"),
    "looks": ("looks", "number of looks"),
    "hold_seconds": ("hold", "hold time", "held"),
    "then": ("then", "did", "what then"),
    "to": ("to", "base", "throw to", "bag", "to base", "base thrown to"),
    "pop_seconds": ("pop", "pop time"),
    "exchange_seconds": ("exchange", "transfer", "exchange time", "exch"),
    "accuracy": ("accuracy", "where thrown", "throw"),
    "runner": ("runner", "baserunner"),
    "team": ("team", "club"),
    "habit": ("habit", "tell", "tendency"),
    "seen": ("seen", "yes no", "did he"),
    "feet": ("feet",),
    "position": ("position", "pos"),
    "depth_ft": ("depth", "how deep"),
    "off_bag_ft": ("off bag", "off the bag"),
    "toward": ("toward", "shaded", "shade"),
    "clip": ("clip", "video", "link"),
    "note": ("note", "notes", "comment", "comments", "remarks", "remark"),
}
# Headers that go for another column too, and which, the cells tell: a side of the plate is a batter's or the zone's.
EITHER: Mapping[str, tuple[str, ...]] = {"side": ("bats",), "result": ("play",), "outcome": ("play",)}
# Columns that say most surely which table a file is; the rest stand in several.
TELLING: Mapping[str, tuple[str, ...]] = {
    "games": ("away", "home", "source", "date"),
    "pitches": ("pitch", "count", "result", "batter", "speed_mph", "play"),
    "times": ("measure", "seconds", "method"),
    "holds": ("looks", "hold_seconds", "then"),
    "throws": ("pop_seconds", "exchange_seconds", "accuracy", "runner"),
    "habits": ("habit", "seen"),
    "positions": ("depth_ft", "off_bag_ft", "toward"),
}
# A column for each base, first to third, filled where a runner is.
BASES = (
    ("1st", "2nd", "3rd"), ("1b", "2b", "3b"), ("first", "second", "third"), ("on 1st", "on 2nd", "on 3rd"),
    ("on first", "on second", "on third"), ("runner 1st", "runner 2nd", "runner 3rd"), ("r1", "r2", "r3"),
    ("runner on 1st", "runner on 2nd", "runner on 3rd"), ("runner on first", "runner on second", "runner on third"),
    ("on 1b", "on 2b", "on 3b"), ("runner 1", "runner 2", "runner 3"), ("man on 1st", "man on 2nd", "man on 3rd"),
)  # fmt: skip
# Headers that say what was timed, by the measure; their cells are the readings.
TIMED: Mapping[str, tuple[str, ...]] = {
    "plate": (
        "to plate", "to the plate", "time to plate", "time to the plate", "home to plate", "to home", "time to home",
        "plate time", "delivery time",
    ),
    "return_throw": ("return throw", "return time"),
    "home_first": ("home to first", "home to 1st", "time to first", "time to 1st"),
    "first_second": ("first to second", "1st to 2nd"),
    "second_third": ("second to third", "2nd to 3rd"),
    "third_home": ("third to home", "3rd to home"),
}  # fmt: skip
# Whose time it is, as headers call him where there is no column of the man timed.
TIMED_MAN: Mapping[str, tuple[str, ...]] = {
    "plate": ("pitcher",), "return_throw": ("catcher",), "home_first": ("batter", "runner"),
    "first_second": ("runner", "batter"), "second_third": ("runner", "batter"), "third_home": ("runner", "batter"),
}  # fmt: skip
COUNT = ("count", "ball strike", "balls strikes", "b s", "the count")
_POSITIONS = {
    "p": "1", "pitcher": "1", "c": "2", "catcher": "2", "1b": "3", "first base": "3", "2b": "4", "second base": "4",
    "3b": "5", "third base": "5", "ss": "6", "short": "6", "shortstop": "6", "lf": "7", "left field": "7",
    "cf": "8", "center field": "8", "rf": "9", "right field": "9",
}  # fmt: skip
# By column: what stands in cells, folded, and our word for it. Short forms that say two things are left out.
VALUES: Mapping[str, Mapping[str, str]] = {
    "half": {"t": "top", "b": "bottom", "bot": "bottom", "away": "top", "home": "bottom"},
    "bats": {"left": "L", "right": "R", "lh": "L", "rh": "R", "lhh": "L", "rhh": "R", "lefty": "L", "righty": "R"},
    "pitch": {
        "four seam": "fastball", "4 seam": "fastball", "four seamer": "fastball", "heater": "fastball",
        "two seam": "sinker", "2 seam": "sinker", "two seamer": "sinker", "curveball": "curve",
        "changeup": "change", "change up": "change", "split": "splitter",
        "knuckler": "knuckleball", "slide": "slider",
    },
    "result": {
        "b": "ball", "called": "called_strike", "looking": "called_strike", "strike looking": "called_strike",
        "called strike": "called_strike", "cs": "called_strike", "swinging": "swinging_strike",
        "strike swinging": "swinging_strike", "swinging strike": "swinging_strike", "ss": "swinging_strike",
        "whiff": "swinging_strike", "miss": "swinging_strike", "foul ball": "foul", "f": "foul",
        "foul tip": "foul_tip", "foul bunt": "foul_bunt", "in play": "in_play", "ip": "in_play",
        "put in play": "in_play", "hit by pitch": "hit_by_pitch", "hbp": "hit_by_pitch", "pitch out": "pitchout",
    },
    "play": {
        "1b": "single", "2b": "double", "3b": "triple", "hr": "home_run", "homer": "home_run", "home run": "home_run",
        "bb": "walk", "base on balls": "walk", "k": "strikeout", "so": "strikeout", "strike out": "strikeout",
        "hbp": "hit_by_pitch", "hit by pitch": "hit_by_pitch", "e": "error", "roe": "error",
        "fc": "fielders_choice", "fielders choice": "fielders_choice", "fielder s choice": "fielders_choice",
        "sac": "sacrifice", "dp": "double_play", "double play": "double_play",
    },
    "contact": {
        "gb": "ground", "ground ball": "ground", "grounder": "ground", "ld": "line", "line drive": "line",
        "liner": "line", "fb": "fly", "fly ball": "fly", "pop": "popup", "pop up": "popup", "pu": "popup",
    },
    "field": {
        "lf": "left", "left field": "left", "lc": "left_center", "left center": "left_center", "cf": "center",
        "center field": "center", "middle": "center", "rc": "right_center", "right center": "right_center",
        "rf": "right", "right field": "right",
    },
    "fielder": _POSITIONS,
    "position": _POSITIONS,
    "style": {"slide": "slide_step", "wind up": "windup", "full windup": "windup"},
    "measure": {
        "to the plate": "plate", "home": "plate", "time to plate": "plate", "pick to first": "pickoff_1",
        "pickoff": "pickoff_1", "return": "return_throw", "return throw": "return_throw", "home to first": "home_first",
        "first to second": "first_second", "second to third": "second_third", "third to home": "third_home",
    },
    "method": {"stopwatch": "watch", "hand": "watch", "video": "frames", "frame": "frames"},
    "then": {"pitched": "pitch", "pick": "pickoff_1", "pickoff": "pickoff_1", "stepped off": "step_off",
             "step off": "step_off"},
    "to": {"first": "1", "second": "2", "third": "3", "plate": "home", "1b": "1", "2b": "2", "3b": "3"},
    "accuracy": {
        "on the bag": "on_bag", "good": "on_bag", "first base side": "first_side", "1st base side": "first_side",
        "outfield side": "field_side", "hop": "short_hop", "bounced": "short_hop", "drop": "dropped",
    },
    "seen": {"y": "yes", "n": "no", "x": "yes", "1": "yes", "0": "no", "true": "yes", "false": "no"},
    "warmup": {"y": "yes", "x": "yes", "1": "yes", "true": "yes"},
    "toward": {"foul line": "line", "up the middle": "middle"},
    "source": {"film": "video", "our game": "own_game", "live": "same_site", "hearsay": "second_hand"},
}  # fmt: skip
