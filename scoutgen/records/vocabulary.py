"""Which words and numbers may stand in a charting table, each read from the text in its cell?

A type here reads one text, refuses what is not meant with a plain sentence, and carries its limits, so that tables,
messages and documents all take them from one place.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Annotated, Literal, TypeAlias

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo

from scoutgen.records.check import listed, nearest, quoted, whole_hint
from scoutgen.records.fields import why_not_a_name, why_not_a_text
from scoutgen.records.pen_forms import short_forms
from scoutgen.records.sentences import said

# A pitch's usual names and the short forms charters write. A project adds its own in content/program.yml.
DEFAULT_PITCHES: dict[str, tuple[str, ...]] = {
    "fastball": ("FB",),
    "sinker": ("SI",),
    "cutter": ("CT",),
    "slider": ("SL",),
    "sweeper": (),
    "curve": ("CB",),
    "change": ("CH",),
    "splitter": ("SPL",),
    "knuckleball": (),
    "other": (),
}
LONGEST_CELL = 200
# Nothing charted is older than video; a year before it is a slip of the finger.
EARLIEST_YEAR = 1950
_PLAIN = re.compile(r"[+-]?(\d{1,9}(\.\d{0,25})?|\.\d{1,25})", re.ASCII)


class Row(BaseModel):
    """What one row of a table holds: every column declared once, read from text, frozen."""

    model_config = ConfigDict(frozen=True, extra="forbid")


@dataclass(frozen=True)
class Names:
    """A vocabulary that a project adds to: every spelling and the one name it stands for.

    Attributes:
        short: what a short form may mean, in small letters; empty where only spellings count.
    """

    noun: str
    by_spelling: Mapping[str, str]
    where: str
    short: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, noun: str, names: Mapping[str, Iterable[str]], where: str, *, shortened: bool = False) -> "Names":
        """Build from name → other spellings; names that may be `shortened` need none."""
        spellings = {name: name for name in names}
        for name, aliases in names.items():
            for alias in aliases:
                spellings.setdefault(alias, name)
        return cls(noun, spellings, where, short_forms(names) if shortened else {})

    def read(self, text: str) -> str:
        """The name a text stands for; capitals do not count."""
        for spelling, name in self.by_spelling.items():
            if spelling.casefold() == text.casefold():
                return name
        meant = self.short.get(text.casefold(), ())
        if len(meant) > 1:
            raise said(f"{quoted(text)} may be {listed(meant)}; write it out")
        if not meant:
            raise said(self.unknown(text))
        return meant[0]

    def unknown(self, text: str) -> str:
        """What to say of a word that is none of ours."""
        close = nearest(text, self.by_spelling)
        known = listed(dict.fromkeys(self.by_spelling.values()), "and")
        if not close:
            return f"{quoted(text)} is not a {self.noun}; known are {known}; add others in {self.where}"
        name = self.by_spelling[close[0]]
        meaning = f" ({name})" if name != close[0] else ""
        return f"{quoted(text)} is not a {self.noun}; did you mean {quoted(close[0])}{meaning}? Known are {known}"


def _number(text: object) -> object:
    if not isinstance(text, str) or _PLAIN.fullmatch(text):
        return text
    raise said(f"{quoted(text)} is not a number{_number_hint(text)}")


def _whole(text: object) -> object:
    if not isinstance(text, str) or re.fullmatch(r"[+-]?\d{1,9}", text, re.ASCII):
        return text
    raise said(f"{quoted(text)} is not a whole number{whole_hint(text) or _number_hint(text)}")


def _number_hint(text: str) -> str:
    bare = text.strip().casefold().lstrip("+-")
    if bare in {"na", "n/a", "nan", "null", "none", "inf", "infinity", "∞", "?", "", "x", "unknown"}:
        return "; leave the cell blank when there is no number"
    if re.fullmatch(r"\d{1,3}(,\d{3})+", bare):
        return (
            f"; write {text.replace(',', '', 9)} without commas, or {text.replace(',', '.', 1)} if a decimal was meant"
        )
    if re.fullmatch(r"\d+,\d+", bare):
        return f"; write {text.replace(',', '.')}"
    if re.fullmatch(r"\d+(\.\d+)?e[+-]?\d{1,2}", bare):
        return "; write it out in plain digits, e.g. 1000 for 1e3"
    if text[:1] in "−–—" and _PLAIN.fullmatch(text[1:]):
        return f"; write -{text[1:]}"
    digits = re.match(r"[+-]?\d+(\.\d+)?", text, re.ASCII)
    return (
        f"; write {digits.group()} alone" if digits and re.fullmatch(r"[\s\"'a-zA-Z%°/]+", text[digits.end() :]) else ""
    )


def _date(text: object) -> object:
    if not isinstance(text, str):
        return text
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text, re.ASCII):
        try:
            day = date.fromisoformat(text)
        except ValueError:
            raise said(f"{quoted(text)} is not a day of the calendar") from None
        if day.year < EARLIEST_YEAR:
            raise said(f"{quoted(text)} is before {EARLIEST_YEAR}; correct the year")
        return day
    raise said(f"{quoted(text)} is not a date; write year-month-day, {_date_hint(text)}")


def _date_hint(text: str) -> str:
    parts = [int(part) for part in re.findall(r"\d{1,4}", text, re.ASCII)]
    if len(parts) >= 3 and parts[0] > 31 and 1 <= parts[1] <= 12 and 1 <= parts[2] <= 31:
        return f"i.e. {parts[0]:04}-{parts[1]:02}-{parts[2]:02}"
    if len(text) == 8 and text.isdecimal():
        return f"i.e. {text[:4]}-{text[4:6]}-{text[6:]}"
    if len(parts) == 3 and parts[2] > 31 and 12 < parts[0] <= 31 and 1 <= parts[1] <= 12:
        return f"i.e. {parts[2]:04}-{parts[1]:02}-{parts[0]:02}"
    if len(parts) == 3 and parts[2] > 31 and 1 <= parts[0] <= 12 and 1 <= parts[1] <= 31:
        month_first = f"{parts[2]:04}-{parts[0]:02}-{parts[1]:02}"
        day_first = (
            f" ({parts[2]:04}-{parts[1]:02}-{parts[0]:02} if the day was written first)" if parts[1] <= 12 else ""
        )
        return f"i.e. {month_first}{day_first if parts[0] != parts[1] else ''}"
    return "e.g. 2026-03-06"


def _yes_no(text: object) -> object:
    words = {"yes": True, "no": False}
    if not isinstance(text, str):
        return text
    if text.casefold() in words:
        return words[text.casefold()]
    raise said(f"{quoted(text)} is neither yes nor no; write yes or no")


def _bases(text: object) -> object:
    """`-` and a blank are empty bases; `1-3`, `1,3` and `31` are first and third."""
    if not isinstance(text, str) or text in ("", "-"):
        return "" if text == "-" else text
    digits = re.sub(r"[\s,/&+-]", "", text)
    if re.fullmatch(r"[123]{1,3}", digits) and len(set(digits)) == len(digits):
        return "".join(sorted(digits))
    raise said(f"{quoted(text)} is not a set of occupied bases; write 1, 2, 3, 12, 13, 23, 123, or - for empty")


def _lower(text: object) -> object:
    return text.lower() if isinstance(text, str) else text


def _upper(text: object) -> object:
    return text.upper() if isinstance(text, str) else text


def _name(text: str) -> str:
    if len(text) > LONGEST_CELL:
        raise said(f"{quoted(text)} is {len(text):,} characters long; at most {LONGEST_CELL} are read; shorten it")
    if why := why_not_a_name(text):
        raise said(why)
    return text


def _free_text(text: str) -> str:
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if why := why_not_a_text(text):
        raise said(why)
    return text


def _known_pitch(text: str, info: ValidationInfo) -> str:
    names: Names = (info.context or {}).get("pitches", PITCHES)
    return names.read(text)


def _known_habit(text: str, info: ValidationInfo) -> str:
    names: Names | None = (info.context or {}).get("habits")
    return names.read(text) if names is not None else text


PITCHES = Names.of("pitch", DEFAULT_PITCHES, "content/program.yml")

Label: TypeAlias = Annotated[str, AfterValidator(_name)]
"""A game, team or player as the charter wrote it: it may become a heading, so its alphabet is narrow."""
Note: TypeAlias = Annotated[str, AfterValidator(_free_text)]
Day: TypeAlias = Annotated[date, BeforeValidator(_date)]
YesNo: TypeAlias = Annotated[bool, BeforeValidator(_yes_no)]
Pitched: TypeAlias = Annotated[str, AfterValidator(_known_pitch)]
Habit: TypeAlias = Annotated[str, AfterValidator(_known_habit)]

Source: TypeAlias = Annotated[
    Literal["video", "own_game", "same_site", "on_campus", "second_hand"], BeforeValidator(_lower)
]
Half: TypeAlias = Annotated[Literal["top", "bottom"], BeforeValidator(_lower)]
Side: TypeAlias = Annotated[Literal["L", "R"], BeforeValidator(_upper)]
Bases: TypeAlias = Annotated[Literal["", "1", "2", "3", "12", "13", "23", "123"], BeforeValidator(_bases)]
OccupiedBases: TypeAlias = Annotated[Literal["1", "2", "3", "12", "13", "23", "123"], BeforeValidator(_bases)]
Result: TypeAlias = Annotated[
    Literal[
        "ball", "called_strike", "swinging_strike", "foul", "foul_tip", "foul_bunt", "in_play", "hit_by_pitch",
        "pitchout", "intentional_ball", "clock_ball", "clock_strike",
    ],
    BeforeValidator(_lower),
]  # fmt: skip
Play: TypeAlias = Annotated[
    Literal[
        "out", "strikeout", "walk", "single", "double", "triple", "home_run", "error", "fielders_choice", "sacrifice",
        "double_play", "hit_by_pitch",
    ],
    BeforeValidator(_lower),
]  # fmt: skip
Contact: TypeAlias = Annotated[Literal["ground", "line", "fly", "popup", "bunt"], BeforeValidator(_lower)]
FieldFifth: TypeAlias = Annotated[
    Literal["left", "left_center", "center", "right_center", "right"], BeforeValidator(_lower)
]
Measure: TypeAlias = Annotated[
    Literal[
        "plate", "pickoff_1", "pickoff_2", "pickoff_3", "return_throw", "home_first", "first_second", "second_third",
        "third_home",
    ],
    BeforeValidator(_lower),
]  # fmt: skip
TimeStyle: TypeAlias = Annotated[
    Literal["windup", "stretch", "slide_step", "firm", "lob", "knees", "full", "bunt", "out_of_box"],
    BeforeValidator(_lower),
]
HoldStyle: TypeAlias = Annotated[Literal["stretch", "slide_step", "windup"], BeforeValidator(_lower)]
Then: TypeAlias = Annotated[
    Literal["pitch", "pickoff_1", "pickoff_2", "pickoff_3", "step_off", "balk"], BeforeValidator(_lower)
]
Method: TypeAlias = Annotated[Literal["watch", "frames"], BeforeValidator(_lower)]
Target: TypeAlias = Annotated[Literal["1", "2", "3", "home"], BeforeValidator(_lower)]
Accuracy: TypeAlias = Annotated[
    Literal["on_bag", "first_side", "field_side", "high", "short_hop", "dropped"], BeforeValidator(_lower)
]
ThrowResult: TypeAlias = Annotated[Literal["out", "safe", "no_play"], BeforeValidator(_lower)]
Toward: TypeAlias = Annotated[Literal["line", "middle"], BeforeValidator(_lower)]

_WHOLE = BeforeValidator(_whole)
_NUMBER = BeforeValidator(_number)
# The longest college game went 25 innings (from memory).
Inning: TypeAlias = Annotated[int, Field(ge=1, le=40), _WHOLE]
Outs: TypeAlias = Annotated[int, Field(ge=0, le=2), _WHOLE]
Balls: TypeAlias = Annotated[int, Field(ge=0, le=3), _WHOLE]
Strikes: TypeAlias = Annotated[int, Field(ge=0, le=2), _WHOLE]
Lead: TypeAlias = Annotated[int, Field(ge=-60, le=60), _WHOLE]
Cell: TypeAlias = Annotated[int, Field(ge=1, le=5), _WHOLE]
Position: TypeAlias = Annotated[int, Field(ge=1, le=9), _WHOLE]
Fielder: TypeAlias = Annotated[int, Field(ge=3, le=9), _WHOLE]
Looks: TypeAlias = Annotated[int, Field(ge=0, le=9), _WHOLE]
Mph: TypeAlias = Annotated[float, Field(ge=40, le=110), _NUMBER]
Kph: TypeAlias = Annotated[float, Field(ge=64, le=177.1), _NUMBER]
AcrossFt: TypeAlias = Annotated[float, Field(ge=-15, le=15), _NUMBER]
UpFt: TypeAlias = Annotated[float, Field(ge=-10, le=20), _NUMBER]
Bearing: TypeAlias = Annotated[float, Field(ge=-180, le=180), _NUMBER]
FieldFt: TypeAlias = Annotated[float, Field(ge=0, le=600), _NUMBER]
HoldSeconds: TypeAlias = Annotated[float, Field(ge=0, le=20), _NUMBER]
PopSeconds: TypeAlias = Annotated[float, Field(ge=1.2, le=3.0), _NUMBER]
ExchangeSeconds: TypeAlias = Annotated[float, Field(ge=0.4, le=1.5), _NUMBER]
# The limits hang on what was measured: times.py has them.
WatchSeconds: TypeAlias = Annotated[float, _NUMBER]
