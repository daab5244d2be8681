"""The same content as validated classes: what a coach's tool made of YAML would check before it begins its work."""

from datetime import date
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

Name = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$")]
Time = Annotated[str, StringConstraints(pattern=r"^\d+(\.\d+)? *(s|min|h)$")]
Mass = Annotated[str, StringConstraints(pattern=r"^\d+(\.\d+)? *(kg|g|lb)$")]
Length = Annotated[str, StringConstraints(pattern=r"^\d+(\.\d+)? *(m|km|mi|cm|ft|yd)$")]
Range = Annotated[str, StringConstraints(pattern=r"^\d+-\d+$")]


class Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Movement(Part):
    name: Name
    title: str
    pattern: list[Name]
    held: bool = False
    needs: list[Name] = []
    loaded_by: list[str] = []
    rep: Time | None = None
    cues: list[str] = []
    cautions: list[str] = []
    how: list[str] = []


class Dose(Part):
    sets: int | None = None
    reps: int | Range | None = None
    distance: Length | None = None
    time: Time | None = None
    each_side: bool = False
    lower: Time | None = None
    rest: Time | None = None


class Axis(Part):
    axis: Name
    by: int | Time | Length | Mass | None = None
    to: int | Time | Length | Mass | None = None
    restarting: list[Name] = []


class Alternative(Part):
    movement: Name
    dose: Dose


class Entry(Part):
    priority: Literal["must", "key", "do", "may"]
    movement: Name
    dose: Dose
    advance: list[Axis]
    otherwise: Alternative | None = Field(default=None, alias="else")


class Block(Part):
    name: Name
    title: str
    rounds: int | None = None
    rest: Time | None = None
    entries: list[Entry]


class Session(Part):
    name: Name
    per_week: int
    within: Time
    short: list[tuple[Time, Literal["sets", "movements"]]]
    blocks: list[Block]


class Category(Part):
    name: Name
    required: bool = False
    counts: list[Name] = []


class Program(Part):
    name: Name
    title: str
    revision: int
    dated: date = Field(alias="date")
    audience: str = Field(alias="for")
    coach: str
    units: Literal["kg", "lb"]
    weeks: int
    rest: Time
    change: Time
    aims: list[str]
    rules: list[str]
    categories: list[Category]
    sessions: list[Session]


class Athlete(Part):
    name: Name
    title: str
    born: int
    body: Mass
    starts: date
    days: list[Name]
    dumbbell_pairs: list[Mass]
    kettlebells: list[Mass]
    things: list[Name]


class LoggedEntry(Part):
    movement: Name
    load: Mass | None = None
    results: list[int]


class LoggedSession(Part):
    day: date = Field(alias="date")
    session: Name
    took: Time
    rpe: int
    entries: list[LoggedEntry]
    note: str


class Log(Part):
    athlete: Name
    program: Name
    revision: int
    sessions: list[LoggedSession]


class Everything(Part):
    movements: list[Movement]
    programs: list[Program]
    athletes: list[Athlete]
    logs: list[Log]
