"""Where an athlete begins, against the movement, what there is to lift, and the rules of the program."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic, Label, or_list
from ...grammar.source import Span
from ..axes import AXES
from ..axes.counted import top_of_range
from ..model import Athlete, Axis, Program, Project, Start
from ..quantity import Quantity, dimension_of, figure_of
from ..remembering import remembered
from ..training import in_training
from .bounds import TO
from .examples import in_athlete, in_log, with_basics
from .places import on_line
from .walk import Place, axes

BEGINS_WITHOUT_LOAD = Check(
    code="begins-without-load",
    severity="error",
    title="A beginning with a load, of a movement that is not loaded",
    message="`{movement}` is done without a load, so it cannot begin at {load}.",
    help="Take `at {load}` out, or name the loaded form of the movement.",
    explain="Only a movement with `loaded by` is done with an implement. Many movements of the library have a loaded form of "
    "their own name: `split-squat` and `dumbbell-split-squat`.",
    wrong=in_athlete("begins split-squat at 6 kg"),
    right=in_athlete("begins dumbbell-split-squat at 6 kg"),
)

BEGINS_WITHOUT_BAND = Check(
    code="begins-without-band",
    severity="error",
    title="A beginning with a band, of a movement that is not done with bands",
    message="`{movement}` is not loaded by a band, so there is none to begin it with.",
    help="Say where it begins in another way, such as `at 6 kg`, or give the movement a line `loaded by band`.",
    explain="A band is named as what a movement begins with where the movement says that it can be loaded by a band.",
    wrong=in_athlete('has band "red"\nbegins goblet-squat with "red"'),
    right=in_athlete('has band "red"\nbegins band-row with "red"'),
)

LOGGED_WITHOUT_BAND = Check(
    code="logged-without-band",
    severity="error",
    title="A band logged for a movement that is not done with bands",
    message="`{movement}` is not loaded by a band, so none can have been used.",
    help="Take the text in quotes out. The athlete's own words stand below the session, in lines that begin with `|`.",
    explain="In a log a text in quotes is the band that was used. Only a movement that says `loaded by band` has one.",
    wrong=in_log('2026-06-17 main, 20 min\n  chair-stand "red" 10 10 10'),
    right=in_log("2026-06-17 main, 20 min\n  chair-stand 10 10 10"),
)

BAND_UNKNOWN = Check(
    code="begins-with-unknown-band",
    severity="error",
    title="A beginning with a band that the athlete does not have",
    message="{athlete} has no band `{band}`.",
    help="{near}",
    explain='`begins band-row with "red"` names one of the athlete\'s own bands, as they stand after `has band`.',
    wrong=in_athlete('has band "red", "blue"\nbegins band-row with "green"'),
    right=in_athlete('has band "red", "blue"\nbegins band-row with "blue"'),
)


def find_band_unknown(athlete: Athlete) -> Iterator[Diagnostic]:
    known = [step for implement in athlete.implements for step in implement.steps]
    for start in athlete.begins:
        if start.band is not None and start.band not in known:
            near = f"Write {or_list(known)}." if known else f'Add a line such as `has band "{start.band}"`.'
            at = start.span.start + start.span.text.index(f'"{start.band}"')
            where = Span(start.span.source, at, at + len(start.band) + 2)
            yield BAND_UNKNOWN.at(where, athlete=athlete.title, band=start.band, near=near)


_PROGRAM = """
program store-room
  session main
    block legs
      must goblet-squat 3 x 8
        advance load to 16 kg, then reps by 1 to 12

athlete maren "Maren"
  has kettlebell 12 kg, 20 kg
"""

BEGINS_PAST_BOUND = Check(
    code="begins-past-bound",
    severity="warning",
    title="An athlete begins beyond the bound of a rule",
    message="{athlete} begins `{movement}` {begun}, but its `{axis}` goes only to {bound}.",
    help="Write a bound further away, or let {athlete} begin lower.",
    explain="An axis moves from where an athlete begins to its bound. Beyond the bound it never takes a step: the turn goes to "
    "the next axis of the rule. To begin at the bound is no slip: whoever is that strong goes on with the next axis. The rules "
    "are those of the programs that the athlete trains by.",
    wrong=with_basics(_PROGRAM + "  begins goblet-squat at 20 kg\n"),
    right=with_basics(_PROGRAM + "  begins goblet-squat at 12 kg\n"),
)


def find_begins_past_bound(project: Project) -> Iterator[Diagnostic]:
    for program, athletes in in_training(project):
        starts = [(athlete, start) for athlete in athletes for start in athlete.begins]
        ruled = _axes(program) if starts else ()
        for athlete, start in starts:
            past = [
                (axis, end, begun)
                for here, axis in ruled
                if (begun := _past(here, axis, end := _end(here, axis), start))
            ]
            for axis, end, begun in past[:1]:
                yield BEGINS_PAST_BOUND.at(
                    start.span,
                    athlete=athlete.title,
                    movement=start.movement,
                    begun=begun,
                    axis=axis.name,
                    bound=end,
                    labels=[Label(on_line(axis.span, TO), "the bound")] if axis.bound is not None else [],
                )


@remembered(4)  # of a crew each athlete is judged alone, and the programs are always the same
def _axes(program: Program) -> tuple[tuple[Place, Axis], ...]:
    return tuple(axes(program))


def _end(here: Place, axis: Axis) -> int | Quantity | str | None:
    """The bound of an axis: as told, or the top of a range of repetitions."""
    return top_of_range(here.entry.dose) if axis.bound is None and axis.name == "reps" else axis.bound


def _past(here: Place, axis: Axis, bound: int | Quantity | str | None, start: Start) -> str:
    """A beginning beyond the bound of an axis, in words; nothing where it is not beyond it."""
    kind = AXES[axis.name]
    begun = kind.begins(start)
    if here.entry.movement.name != start.movement or bound is None or begun is None or kind.shrinks:
        return ""
    if kind.ladder:
        climbed = {rung.name: step for step, rung in enumerate(here.entry.movement.rungs)}
        past = bound in climbed and climbed.get(str(begun), -1) > climbed[str(bound)]
    else:
        past = not isinstance(begun, str) and not isinstance(bound, str) and _beyond(begun, bound)
    return kind.beginning.format(begun) if past else ""


def _beyond(begun: int | Quantity, bound: int | Quantity) -> bool:
    return dimension_of(begun) == dimension_of(bound) and figure_of(begun) > figure_of(bound)
