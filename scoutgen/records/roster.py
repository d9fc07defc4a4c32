"""Who is on a team, and which of them does a key, a name or a number mean?"""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Annotated, Any, Literal, Self, TypeAlias

from pydantic import Field, model_validator

from scoutgen.records.check import did_you_mean, listed, quoted
from scoutgen.records.fields import AS_NUMBER, IsoDate, Jersey, Key, Name, Record, between, in_one_line, one_of, slug
from scoutgen.records.problems import Problem
from scoutgen.records.sentences import said, shown
from scoutgen.records.yamlrecord import YamlSource

Position: TypeAlias = Literal["P", "C", "1B", "2B", "3B", "SS", "LF", "CF", "RF", "DH", "IF", "OF", "UT"]
Role: TypeAlias = Literal["starter", "reliever", "closer"]


# More than any roster; keeps the search for clashes short.
LARGEST_ROSTER = 300


class RosterPlayer(Record):
    """One man on a roster. A number is text: 0 and 00 are two numbers."""

    key: Key = Field(
        "",
        description="His key in addresses and charts, e.g. ivan-nunez; made from the name when left out. "
        "Keep it once charts use it.",
    )
    number: Jersey | None = Field(None, description="Jersey number, one or two digits.")
    name: Name = Field(description="Full name as the pages show it.")
    positions: Annotated[tuple[Position, ...], in_one_line(Position, one_of(Position))] = Field(
        (), description="Where he plays, first the usual one, e.g. P or [2B, SS]."
    )
    bats: Literal["L", "R", "S"] | None = Field(None, description="L, R, or S for a switch hitter.")
    throws: Literal["L", "R"] | None = Field(None, description="L or R.")
    class_year: Name | None = Field(None, alias="class", description="Class, e.g. Fr, So, Jr, Sr, Gr.")
    role: Role | None = Field(None, description="For pitchers: starter, reliever or closer.")
    from_date: IsoDate | None = Field(
        None, description="First day he wears this number, where two men wear it in one season."
    )
    until_date: IsoDate | None = Field(
        None, description="Last day he wears this number, where two men wear it in one season."
    )

    @model_validator(mode="before")
    @classmethod
    def _key_from_name(cls, data: Any) -> Any:  # noqa: ANN401 - whatever the file holds
        if isinstance(data, dict) and "key" not in data and isinstance(data.get("name"), str):
            return {**data, "key": slug(data["name"])} if slug(data["name"]) else data
        return data

    @model_validator(mode="after")
    def _dates_in_order(self) -> Self:
        if self.from_date and self.until_date and self.until_date < self.from_date:
            raise said(f"until_date {self.until_date} is before from_date {self.from_date}")
        return self

    def wears_number_on(self, day: date) -> bool:
        """Was the number his on that day?"""
        return (self.from_date is None or self.from_date <= day) and (self.until_date is None or day <= self.until_date)


class RunnerTimes(Record):
    """A runner's usual times in seconds, from first move to the bag."""

    home_first: Annotated[float, between(3.0, 6.0), AS_NUMBER] | None = Field(
        None, description="Contact to first base, full swing."
    )
    first_second: Annotated[float, between(2.6, 5.0), AS_NUMBER] | None = Field(
        None, description="First move to second base."
    )
    second_third: Annotated[float, between(2.6, 5.0), AS_NUMBER] | None = Field(
        None, description="First move to third base."
    )
    third_home: Annotated[float, between(1.5, 5.0), AS_NUMBER] | None = Field(
        None, description="First move to home plate."
    )


class Leads(Record):
    """A runner's usual leads in feet from the bag."""

    first_ft: Annotated[float, between(0, 40), AS_NUMBER] | None = Field(None, description="Primary lead off first.")
    second_ft: Annotated[float, between(0, 50), AS_NUMBER] | None = Field(None, description="Primary lead off second.")
    third_ft: Annotated[float, between(0, 50), AS_NUMBER] | None = Field(None, description="Primary lead off third.")
    secondary_ft: Annotated[float, between(0, 40), AS_NUMBER] | None = Field(
        None, description="What the secondary lead adds."
    )


class OwnPlayer(RosterPlayer):
    """One of our own men: a roster line with what the running game asks of him."""

    times: RunnerTimes | None = Field(None, description="His usual times on the bases, in seconds.")
    leads: Leads | None = Field(None, description="His usual leads, in feet.")


def men_meant(roster: Sequence[RosterPlayer], text: str, day: date | None = None) -> list[RosterPlayer]:
    """Whom a text can mean: nobody, one, or several whom the day does not tell apart. As `find_player`."""
    word = text.strip()
    number = word.removeprefix("#").strip()
    found = [man for man in roster if man.key == word] or [man for man in roster if man.name == word]
    if not found and (key := slug(word)):
        found = [man for man in roster if slug(man.name) == key]
    found = found or [man for man in roster if man.number is not None and man.number == number]
    if len(found) > 1 and day is not None:
        found = [man for man in found if man.wears_number_on(day)] or found
    return found


def find_player(roster: Iterable[RosterPlayer], text: str, day: date | None = None) -> tuple[RosterPlayer | None, str]:
    """Which man does a text mean?

    Args:
        roster: the team.
        text: a key, a full name (case and accents do not count) or a jersey number, with or without #.
        day: settles a number that two men wore in one season.

    Returns:
        The man and an empty sentence, or None and why not: nobody, or several.
    """
    men = list(roster)
    word = text.strip()
    found = men_meant(men, text, day)
    if len(found) == 1:
        return found[0], ""
    if found:
        return None, f"{shown(word)} could be {listed([man.key for man in found])}; write the key"
    names = [name for man in men for name in (man.key, man.name)]
    nobody = "there is nobody on it" if not men else "give a key, a full name or a number"
    return None, f"{shown(word)} is not on the roster{did_you_mean(word, names) or f'; {nobody}'}"


def roster_problems(roster: Sequence[RosterPlayer], source: YamlSource) -> list[Problem]:
    """Men without a key, and where two men of one roster cannot be told apart.

    A name without a Latin letter or a digit makes no key. Two men may wear one number in one season when from_date and
    until_date keep them apart.
    """
    found: list[Problem] = []
    for later, man in enumerate(roster):
        if not man.key:
            text = f"is missing, and none can be made from {quoted(man.name)}; write one"
            found.append(source.problem(("roster", later, "key"), text))
        for earlier, other in enumerate(roster[:later]):
            line = source.line(("roster", earlier))
            if man.key and man.key == other.key:
                text = f"two men have the key '{man.key}' (the other in line {line}); give one of them a key of his own"
                found.append(source.problem(("roster", later, "key"), text))
            if man.number is not None and man.number == other.number and _overlap(man, other):
                text = (
                    f"number {man.number} is worn by {other.name} too (line {line}); where they wore it one after the "
                    "other, say so with from_date and until_date"
                )
                found.append(source.problem(("roster", later, "number"), text))
    return found


def _overlap(a: RosterPlayer, b: RosterPlayer) -> bool:
    first = max(a.from_date or date.min, b.from_date or date.min)
    return first <= min(a.until_date or date.max, b.until_date or date.max)
