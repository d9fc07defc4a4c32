"""Who are we, what do our charts call things, and where does the staff draw its lines?"""

from pathlib import Path
from typing import Annotated, Self

from pydantic import Field, model_validator

from scoutgen.records.fields import (
    AS_NUMBER,
    AS_WHOLE,
    WORD_IN_LINE,
    FreeText,
    Key,
    Name,
    Record,
    YesNo,
    between,
    in_one_line,
)
from scoutgen.records.positioning import Levels
from scoutgen.records.problems import Problem
from scoutgen.records.roster import LARGEST_ROSTER, OwnPlayer, roster_problems
from scoutgen.records.sentences import said
from scoutgen.records.vocabulary import DEFAULT_PITCHES
from scoutgen.records.yamlrecord import YamlSource, read_record

PROGRAM_FILE = "content/program.yml"

# More than any league's on-base share; an inning without outs never ends.
MOST_REACHED = 0.6

Rate = Annotated[float, between(0, 1), AS_NUMBER]


class EventRates(Record):
    """How often a plate appearance of the league ends how, 0 to 1; the rest are outs."""

    walk: Rate = Field(description="Walks and hit batters.")
    single: Rate = Field(description="Singles.")
    double: Rate = Field(description="Doubles.")
    triple: Rate = Field(description="Triples.")
    home_run: Rate = Field(description="Home runs.")
    strikeout: Rate | None = Field(None, description="Strikeouts; the other outs are in play.")
    error: Rate | None = Field(None, description="Reached on an error.")

    @model_validator(mode="after")
    def _at_most_one(self) -> Self:
        total = sum(getattr(self, name) or 0.0 for name in type(self).model_fields)
        if total > 1:
            raise said(f"the rates add up to {total:.3f}; together they can be 1 at most")
        reached = total - (self.strikeout or 0.0)
        if reached > MOST_REACHED:
            raise said(
                f"{reached:.3f} of the plate appearances reach base; {MOST_REACHED} at most, since innings must end"
            )
        return self


class RunEnvironment(Record):
    """How many runs the league scores: the setting of run and win values."""

    runs_per_team_game: Annotated[float, between(2, 15), AS_NUMBER] = Field(
        6.0,
        description="Runs a team scores a game. 6 when left out; NCAA Division I 2009 had 6.26 "
        "(Zimmerman, Beyond the Box Score, 10 June 2009).",
    )
    rates: EventRates | None = Field(
        None, description="League event rates by plate appearance; they come before runs per game."
    )
    innings: Annotated[int, between(5, 9), AS_WHOLE] = Field(
        9, description="Innings of a game; 7 in some doubleheaders."
    )
    run_rule_lead: Annotated[int, between(1, 30), AS_WHOLE] | None = Field(
        None,
        description="Lead that ends a game early where our conference plays a run rule, e.g. 10; none if left out.",
    )
    run_rule_innings: Annotated[int, between(3, 9), AS_WHOLE] = Field(
        7, description="Innings the team behind must have batted before the run rule ends a game."
    )


class Policy(Record):
    """What our conference allows; the pages print the banner."""

    devices_in_dugout: YesNo = Field(
        False, description="May phones or tablets be used in the dugout during play? No unless your conference says so."
    )
    banner: FreeText | None = Field(None, description="The sentence on top of the pages, in place of the usual one.")

    @property
    def short(self) -> str:
        """The policy in a line, for the top of every page."""
        if self.banner:
            return self.banner.split(". ")[0].rstrip(".")
        if self.devices_in_dugout:
            return "Devices in the dugout only as our conference allows"
        return "No phones in the dugout during play"

    @property
    def sentence(self) -> str:
        """The words of the banner."""
        if self.banner:
            return self.banner
        if self.devices_in_dugout:
            return (
                "Devices in the dugout only as our conference allows them, and never in NCAA postseason play. "
                "Ask the staff when unsure."
            )
        return (
            "No phones or tablets in the dugout during play. Read this before the first pitch or after the last out, "
            "and print what the bench needs."
        )


class PitchName(Record):
    """A pitch our charts name beyond the usual ones, or further aliases of a usual one."""

    name: Key = Field(description="Full name in lower case, as charts and pages write it.")
    aliases: Annotated[tuple[Name, ...], in_one_line(Name, WORD_IN_LINE)] = Field(
        (), description="Short forms charts may use, e.g. [GY]."
    )


class Zone(Record):
    """The strike zone that feet are sorted by: catcher's view, feet from the plate's middle and above ground.

    The plate is 17 in wide (Official Baseball Rules, 2.02); top and bottom are common practice, from memory.
    """

    bottom_ft: Annotated[float, between(0.5, 3), AS_NUMBER] = Field(
        1.5, description="Bottom of the zone, feet above ground."
    )
    top_ft: Annotated[float, between(2.5, 5), AS_NUMBER] = Field(3.5, description="Top of the zone, feet above ground.")
    half_width_ft: Annotated[float, between(0.5, 1.2), AS_NUMBER] = Field(
        17 / 24, description="From the plate's middle to its edge, in feet."
    )

    @model_validator(mode="after")
    def _top_over_bottom(self) -> Self:
        if self.top_ft <= self.bottom_ft:
            raise said(f"top_ft {self.top_ft:g} is not over bottom_ft {self.bottom_ft:g}")
        return self


Half = Annotated[float, between(0.01, 0.5), AS_NUMBER]
Few = Annotated[int, between(0, 1000), AS_WHOLE]


class Thresholds(Record):
    """How sure is sure: half-widths of an estimate's own 90 % interval, and counts under which pages say "few"."""

    firm: Half = Field(0.10, description="Half-width of the 90 % interval up to which a share is firm.")
    usable: Half = Field(0.15, description="... up to which it is usable.")
    lean: Half = Field(0.20, description="... up to which it is a lean; wider prints words and 'k of n' only.")
    few_readings: Few = Field(5, description="Fewer watch readings than this are called few.")
    few_games: Few = Field(2, description="Fewer games than this are called few.")
    few_pitches: Few = Field(
        20, description="A situation with fewer pitches or looks than this gets no percent, however sure the estimate."
    )
    few_looks: Few = Field(3, description="Fewer looks at a habit or a position than this show nothing yet.")
    stale_days: Annotated[int, between(1, 1000), AS_WHOLE] = Field(
        21, description="Last seen longer ago than this is called old."
    )

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if not self.firm <= self.usable <= self.lean:
            raise said(
                f"firm {self.firm:g}, usable {self.usable:g}, lean {self.lean:g} must not fall from one to the next"
            )
        return self


class Program(Record):
    """Our own team and its settings; every threshold of the project is here."""

    key: Key = Field("", description="Our team's key, as the games table writes it in away or home.")
    name: Name = Field("Our team", description="Our team's name.")
    run_environment: RunEnvironment = Field(RunEnvironment(), description="How many runs the league scores.")
    policy: Policy = Field(Policy(), description="Devices in the dugout; off by default.")
    pitches: tuple[PitchName, ...] = Field((), description="Pitch names and aliases beyond the usual ones.")
    zone: Zone = Field(Zone(), description="The strike zone that plate_x_ft and plate_z_ft are sorted by.")
    thresholds: Thresholds = Field(Thresholds(), description="How sure is sure, in one place.")
    levels: Levels = Field(Levels(), description="Positioning levels of our cards.")
    graded_level: Name = Field(
        "Division I college baseball", description="The level whose average is a grade of 50 in evaluations."
    )
    watch_error_s: Annotated[float, between(0, 0.5), AS_NUMBER] = Field(
        0.10,
        description="Spread (sd) of one hand-held reading in seconds; about 0.10 by Am. J. Phys. 87(2):110 (2019).",
    )
    roster: tuple[OwnPlayer, ...] = Field(
        (),
        max_length=LARGEST_ROSTER,
        description="Our own men: hitters, runners with times and leads, fielders, catchers.",
    )

    def pitch_names(self) -> dict[str, tuple[str, ...]]:
        """Every pitch a chart may name, in the usual order and then ours, with its aliases."""
        names = dict(DEFAULT_PITCHES)
        for pitch in self.pitches:
            names[pitch.name] = (
                *names.get(pitch.name, ()),
                *(a for a in pitch.aliases if a not in names.get(pitch.name, ())),
            )
        return names

    def player(self, key: str) -> OwnPlayer | None:
        """Our man with that key."""
        return next((man for man in self.roster if man.key == key), None)


def read_program(root: Path) -> tuple[Program, list[Problem]]:
    """What does content/program.yml say?

    Returns:
        The program and the problems; without a file (or with a broken one) the defaults: no key, no roster.
    """
    path = root / PROGRAM_FILE
    if not path.exists():
        return Program(), []
    program, source, problems = read_record(path, root, Program)
    if program is None:
        return Program(), problems
    if not program.key and program.roster and "key" not in source.left_out:
        problems.append(
            source.problem(("key",), "is missing; a roster needs the team's key as the games table writes it")
        )
    problems += roster_problems(program.roster, source)
    problems += _alias_clashes(program, source)
    return program, problems


def _alias_clashes(program: Program, source: YamlSource) -> list[Problem]:
    """A short form must mean one pitch, however it is written (FB, fb)."""
    problems = []
    meant = {word.casefold(): name for name, aliases in DEFAULT_PITCHES.items() for word in (name, *aliases)}
    for position, pitch in enumerate(program.pitches):
        path = ("pitches", position)
        if meant.setdefault(pitch.name.casefold(), pitch.name) != pitch.name:
            other = meant[pitch.name.casefold()]
            problems.append(
                source.problem((*path, "name"), f"'{pitch.name}' already means {other}; add to that pitch instead")
            )
        for place, alias in enumerate(pitch.aliases):
            other = meant.setdefault(alias.casefold(), pitch.name)
            if other != pitch.name:
                text = f"'{alias}' already means {other}; choose another short form"
                problems.append(source.problem((*path, "aliases", place), text))
    return problems
