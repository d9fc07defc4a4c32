"""How good is he and may he become, tool by tool, on the 20-80 scale?"""

from collections.abc import Mapping
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from scoutgen.records.fields import AS_WHOLE, FreeText, Initials, IsoDate, Record, Source, between

Tool: TypeAlias = Literal[
    "fastball", "sinker", "cutter", "slider", "sweeper", "curve", "change", "splitter", "knuckleball",
    "control", "command", "delivery", "pickoff", "hit", "power", "eye", "bunt", "run", "field", "range", "hands", "arm",
    "receive", "block", "throw", "overall",
]  # fmt: skip


def _graded_now(value: Any) -> Any:  # noqa: ANN401 - whatever the file holds
    """`fastball: 55` is a present grade."""
    return {"now": value} if isinstance(value, str) else value


GradeNumber: TypeAlias = Annotated[int, between(20, 80), Field(multiple_of=5), AS_WHOLE]


class Grade(Record):
    """A tool on the 20-80 scale: 50 is the average of the level graded for."""

    now: GradeNumber = Field(description="The grade today, 20 to 80 in steps of 5.")
    later: GradeNumber | None = Field(None, description="The grade he may grow into.")
    saw: FreeText | None = Field(None, description="What was seen of this tool, in a sentence.")


GRADED_NOW = BeforeValidator(_graded_now, json_schema_input_type=Grade | GradeNumber)


class Grades(Record):
    """An evaluation: for the recruiting edition and the staff's, never for the players'."""

    seen: IsoDate = Field(description="The day he was last seen for these grades.")
    source: Source | None = Field(
        None, description="How it was lawfully seen: video, own_game, same_site, on_campus or second_hand."
    )
    by: Initials = Field(description="Initials of who grades.")
    tools: Mapping[Tool, Annotated[Grade, GRADED_NOW]] = Field({}, description="Grades by tool, 20 to 80.")
    body: FreeText | None = Field(None, description="His build in a sentence.")
    role: FreeText | None = Field(None, description="The role he may fill.")
