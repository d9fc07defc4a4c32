"""How do our cards number where fielders stand, where is that, and what do our men cover?"""

from typing import Annotated, Self

from pydantic import Field, model_validator

from scoutgen.records.fields import AS_NUMBER, AS_WHOLE, Name, Record, between
from scoutgen.records.sentences import said

Steps = Annotated[float, between(-40, 40), AS_NUMBER]
FeetDeep = Annotated[float, between(60, 220), AS_NUMBER]
_FOUR = "for a right-handed hitter: third, short, second, first; a left-handed hitter's are the mirror"


class InfieldStand(Record):
    """One infield level, stated for a right-handed hitter."""

    steps: tuple[Steps, Steps, Steps, Steps] = Field(description=f"Steps to the pull side from straight up, {_FOUR}.")
    depth_ft: tuple[FeetDeep, FeetDeep, FeetDeep, FeetDeep] | None = Field(
        None, description=f"Feet from home plate, {_FOUR}. As deep as straight up when left out."
    )


class FielderReach(Record):
    """What our fielders cover: how soon they run after contact, how fast, and their arms.

    The usual ones make a usual hitter's ground balls outs about three times in four and his flies and line drives six
    times in ten (common knowledge, memory).
    """

    infield_first_step_s: Annotated[float, between(0, 1.1), AS_NUMBER] = Field(
        0.57, description="Seconds from contact until an infielder runs."
    )
    infield_fps: Annotated[float, between(10, 35), AS_NUMBER] = Field(
        22.7, description="Feet a second an infielder covers to either side, dives taken in."
    )
    outfield_first_step_s: Annotated[float, between(0, 1.5), AS_NUMBER] = Field(
        0.7, description="Seconds from contact until an outfielder runs."
    )
    outfield_fps: Annotated[float, between(10, 35), AS_NUMBER] = Field(
        22.0, description="Feet a second an outfielder covers."
    )
    release_s: Annotated[float, between(0.4, 2.5), AS_NUMBER] = Field(
        1.0, description="Seconds from an infielder's glove to his throw."
    )
    throw_fps: Annotated[float, between(70, 160), AS_NUMBER] = Field(
        115.0, description="Mean speed of an infielder's throw, feet a second."
    )


class Levels(Record):
    """How our cards number where fielders stand."""

    infield: Annotated[int, between(1, 9), AS_WHOLE] = Field(4, description="Number of infield levels.")
    outfield: Annotated[int, between(1, 9), AS_WHOLE] = Field(3, description="Number of outfield levels.")
    step_ft: Annotated[float, between(1, 6), AS_NUMBER] = Field(
        2.5, description="Length of one fielder's step in feet."
    )
    infield_legend: tuple[Name, ...] = Field((), description="What each infield level means, from level 1 on.")
    outfield_legend: tuple[Name, ...] = Field((), description="What each outfield level means, from level 1 on.")
    opposite_mark: Name = Field("opp", description="Mark of a level to the opposite side.")
    infield_stands: tuple[InfieldStand, ...] = Field(
        (), description="Where the infield stands at each level, straight up first; usual ones when left out."
    )
    outfield_steps: tuple[Steps, ...] = Field(
        (), description="Steps the whole outfield moves to the pull side at each level; usual ones when left out."
    )
    reach: FielderReach = Field(FielderReach(), description="What our fielders cover.")

    @model_validator(mode="after")
    def _of_every_level(self) -> Self:
        for name in ("infield_legend", "infield_stands", "outfield_legend", "outfield_steps"):
            stated, number = len(getattr(self, name)), getattr(self, name.partition("_")[0])
            if stated and stated != number:
                levels = "1 level" if stated == 1 else f"{stated} levels"
                raise said(f"{name} explains {levels}, but {name.partition('_')[0]} has {number}")
        first = [*(self.infield_stands[0].steps if self.infield_stands else ()), *self.outfield_steps[:1]]
        if any(first):
            raise said("level 1 is straight up: its steps are all 0; move the others from there")
        return self
