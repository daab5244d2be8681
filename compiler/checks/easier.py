"""Easier weeks: which weeks they can be, and what can be taken from them."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from ...grammar.diagnostic import Check, Diagnostic, Example, Label, or_list
from ...grammar.source import Span
from ..axes import AXES, EASED
from ..axes.measured import less
from ..easier import eases, easier_weeks
from ..model import Movement, Program
from ..quantity import Quantity, figure_of
from ..week import COUNTED
from .examples import in_program
from .places import line, on_line, words
from .shape import MOST_WEEKS
from .walk import places

_SESSION = """
session main, 3 a week
  block legs
    must goblet-squat 4 x 15 at 6 kg
      advance reps by 1 to 20
    must plank 4 x 45 s
      advance hold by 5 s to 60 s
"""


def _in_weeks(text: str) -> Example:
    """A program of these lines, then a session that fills its weeks."""
    return in_program(text, _SESSION)


WEEK_OUT_OF_RANGE = Check(
    code="easier-week-out-of-range",
    severity="error",
    title="An easier week that the program does not have",
    message="There is no week {week}: {reason}.",
    help="Take it out{or_longer}.",
    explain="Weeks are counted from the first week of training, which is week 1, to the last that the program `runs`.",
    wrong=_in_weeks("runs 12 weeks\nweeks 8, 16: sets by -1"),
    right=_in_weeks("runs 16 weeks\nweeks 8, 16: sets by -1"),
)


def find_week_out_of_range(program: Program) -> Iterator[Diagnostic]:
    most = min(program.weeks or MOST_WEEKS, MOST_WEEKS)
    for _, week, where in _weeks(program):
        if week < 1:
            yield WEEK_OUT_OF_RANGE.at(where, week=week, reason="weeks are counted from 1", or_longer="")
        elif week > most:
            told = f"the program runs {most} weeks" if program.weeks else f"no program runs longer than {most} weeks"
            longer = f", or write `runs {week} weeks`" if program.weeks and week <= MOST_WEEKS else ""
            yield WEEK_OUT_OF_RANGE.at(where, week=week, reason=told, or_longer=longer)


WEEK_TWICE = Check(
    code="easier-week-twice",
    severity="error",
    title="A week that is named twice as an easier one",
    message="Week {week} is named twice as an easier week.",
    help="Name each week once. What changes in it stands in one line: `weeks {week}: sets by -1, load by -10%`.",
    explain="Two lines about one week would leave open whether the one counts, the other, or both together.",
    wrong=_in_weeks("runs 12 weeks\nweeks 4, 8: sets by -1\nweek 8: reps by -2"),
    right=_in_weeks("runs 12 weeks\nweek 4: sets by -1\nweek 8: sets by -1, reps by -2"),
)


def find_week_twice(program: Program) -> Iterator[Diagnostic]:
    first: dict[int, Span] = {}
    told: set[tuple[Span, int]] = set()  # once in a line
    for line_of_it, week, where in _weeks(program):
        if week in first and (line_of_it, week) not in told:
            told.add((line_of_it, week))
            yield WEEK_TWICE.at(where, week=week, labels=[Label(first[week], "named here first")])
        first.setdefault(week, where)


WEEKS_WITHOUT_RUNS = Check(
    code="easier-without-runs",
    severity="warning",
    title="Easier weeks in a program of no known length",
    message="These weeks are easier, but nothing says how many weeks the program runs.",
    help="Write how long it runs, such as `runs {weeks} weeks`.",
    explain="Whoever reads of an easier week wants to know out of how many, and the program can be looked at ahead only as "
    "far as it runs.",
    wrong=_in_weeks("weeks 4, 8: sets by -1"),
    right=_in_weeks("runs 12 weeks\nweeks 4, 8: sets by -1"),
)


def find_weeks_without_runs(program: Program) -> Iterator[Diagnostic]:
    if program.easier and program.weeks is None and not program.damaged:
        weeks = min(max(easier_weeks(program)[-1] + 4, 12), MOST_WEEKS)
        yield WEEKS_WITHOUT_RUNS.at(line(program.easier[0].span), weeks=weeks)


ALL_WEEKS_EASIER = Check(
    code="easier-every-week",
    severity="warning",
    title="A program in which every week is easier",
    message="Every week of the program is easier, so none is the measure of the others.",
    help="Lower the doses themselves, and name only the weeks that are to stand out.",
    explain="In an easier week nothing advances. A program of easier weeks alone would never get harder.",
    wrong=_in_weeks("runs 3 weeks\nweeks 1, 2, 3: sets by -1"),
    right=_in_weeks("runs 3 weeks\nweek 3: sets by -1"),
)


def find_all_weeks_easier(program: Program) -> Iterator[Diagnostic]:
    if program.easier and program.weeks and set(range(1, program.weeks + 1)) <= set(easier_weeks(program)):
        yield ALL_WEEKS_EASIER.at(line(program.easier[0].span))


AXIS_UNFIT = Check(
    code="easier-axis-unfit",
    severity="error",
    title="Something that an easier week does not lower",
    message="An easier week does not change `{axis}`.",
    help="It can lower {axes}, as in `{example}`.",
    explain="An easier week asks for less: fewer sets or repetitions, less weight, shorter holds, times and distances. How a "
    "movement is done stays as it is, its rung, its tempo and its rests too, so that nothing has to be learnt anew.",
    wrong=_in_weeks("runs 12 weeks\nweeks 4, 8: rest by -10 s"),
    right=_in_weeks("runs 12 weeks\nweeks 4, 8: reps by -2"),
)


def find_axis_unfit(program: Program) -> Iterator[Diagnostic]:
    axes = or_list(EASED).replace(" or ", " and ")
    for axis, _, where in _changes(program):
        if axis not in EASED:
            yield AXIS_UNFIT.at(
                where, axis=axis, axes=axes, example=_example("reps" if axis == "total reps" else "sets")
            )


UNIT_UNFIT = Check(
    code="easier-unit-mismatch",
    severity="error",
    title="A change of an easier week in a unit that the axis does not have",
    message="`{axis}` cannot go by {amount}: its change is {measure}.",
    help="Write how much is taken away, such as `{example}`.",
    explain="Sets and repetitions go by whole numbers, load by a weight or a share, holds and times by a time or a share, "
    "distance by metres or a share.",
    wrong=_in_weeks("runs 12 weeks\nweeks 4, 8: sets by -10%"),
    right=_in_weeks("runs 12 weeks\nweeks 4, 8: sets by -1"),
)


def find_unit_unfit(program: Program) -> Iterator[Diagnostic]:
    for axis, amount, where in _changes(program):
        if axis in EASED and not _suited(axis, amount):
            measure = AXES[axis].called + ("" if AXES[axis].dimension is None else " or a share")
            yield UNIT_UNFIT.at(where, axis=axis, amount=amount, measure=measure, example=_example(axis))


NOT_DOWN = Check(
    code="easier-not-down",
    severity="error",
    title="An easier week that would not be easier",
    message="`{axis} by {amount}` {what}, but an easier week goes down.",
    help="Write `{instead}`.",
    explain="What an easier week takes away is written with a minus sign, so that nobody reads the line as a harder week.",
    wrong=_in_weeks("runs 12 weeks\nweeks 4, 8: sets by 1"),
    right=_in_weeks("runs 12 weeks\nweeks 4, 8: sets by -1"),
)


def find_not_down(program: Program) -> Iterator[Diagnostic]:
    for axis, amount, where in _changes(program):
        if axis in EASED and _suited(axis, amount) and figure_of(amount) >= 0:
            what = "goes up" if figure_of(amount) else "changes nothing"
            instead = f"{axis} by {-amount}" if figure_of(amount) and not _most(amount) else _example(axis)
            yield NOT_DOWN.at(where, axis=axis, amount=amount, what=what, instead=instead)


LEAVES_NOTHING = Check(
    code="easier-leaves-nothing",
    severity="error",
    title="An easier week that would leave nothing",
    message="`{axis} by {amount}` leaves nothing{of}.",
    help="Take less away, such as `{example}`.",
    explain="What is taken away must be less than what every dose asks for: a session that is left out is no easier session. "
    "Sets and repetitions are safe, they stop at 1, and sets at `at least N sets`.",
    wrong=_in_weeks("runs 12 weeks\nweeks 4, 8: load by -6 kg"),
    right=_in_weeks("runs 12 weeks\nweeks 4, 8: load by -2 kg"),
)


def find_leaves_nothing(program: Program) -> Iterator[Diagnostic]:
    for axis, amount, where in _sound_changes(program):
        if not isinstance(amount, Quantity):
            continue
        if amount.unit == "%":
            spent = "" if amount.base <= -1 else None
        else:
            spent = next((f" of {told}" for told in _spent(program, axis, amount)), None)
        if spent is not None:
            yield LEAVES_NOTHING.at(where, axis=axis, amount=amount, of=spent, example=f"{axis} by -10%")


def _spent(program: Program, axis: str, amount: Quantity) -> Iterator[str]:
    """Every figure of a dose that is no more than what is taken from it, with its movement."""
    for movement, figure in _figures(program, axis):
        if figure.dimension == amount.dimension and less(figure, amount) == figure:
            yield f"the {figure} of `{movement.name}`"


def _figures(program: Program, axis: str) -> Iterator[tuple[Movement, Quantity]]:
    """The weights, times or distances that an axis stands for in the doses that can be eased."""
    for here in places(program):
        if here.block.kind in COUNTED:
            entry = here.entry
            for movement, dose in (
                (entry.movement, entry.dose),
                *((one.movement, one.dose) for one in entry.otherwise),
            ):
                if AXES[axis].moves(movement):
                    yield from ((movement, figure) for figure in AXES[axis].figures(dose))


LEAVES_LITTLE = Check(
    code="easier-leaves-little",
    severity="warning",
    title="An easier week that takes half of the load or more away",
    message="`load by {amount}` leaves {rest} of every load.",
    help="Write what is taken away, not what is left: such as `load by -10%`.",
    explain="An easier week that is meant to keep a movement in practice takes a tenth or two of the load (common practice, no "
    "source). Half or more is most likely what should be left. Fewer sets and repetitions make a week easier too.",
    wrong=_in_weeks("runs 12 weeks\nweeks 4, 8: load by -90%"),
    right=_in_weeks("runs 12 weeks\nweeks 4, 8: load by -40%"),
)


def find_leaves_little(program: Program) -> Iterator[Diagnostic]:
    for axis, amount, where in _sound_changes(program):
        if axis == "load" and isinstance(amount, Quantity) and _most(amount) and amount.base > -1:
            left = Quantity(100 + amount.amount, "%")
            yield LEAVES_LITTLE.at(where, amount=amount, rest=left)


CHANGES_NOTHING = Check(
    code="easier-changes-nothing",
    severity="warning",
    title="A change of an easier week that no dose takes part in",
    message="`{axis} by {amount}` eases nothing: {reason}.",
    help="Take it out, or ease what the doses have, such as `sets by -1`.",
    explain="A change takes part in the doses that have its figure, in blocks of work and of conditioning; warm-up and "
    "cool-down stay as they are. Sets do not fall below `at least N sets`, nor below 1.",
    wrong=_in_weeks("runs 12 weeks\nweeks 4, 8: sets by -1, distance by -5 m"),
    right=_in_weeks("runs 12 weeks\nweeks 4, 8: sets by -1"),
)


def find_changes_nothing(program: Program) -> Iterator[Diagnostic]:
    if program.damaged or not any(session.entries for session in program.sessions):
        return
    for axis, amount, where in _sound_changes(program):
        eased = any(eases(block, axis, amount) for session in program.sessions for block in session.blocks)
        spent = isinstance(amount, Quantity) and any(True for _ in _figures(program, axis))  # told as leaving nothing
        if not (eased or spent):
            yield CHANGES_NOTHING.at(where, axis=axis, amount=amount, reason=AXES[axis].uneased)


def _weeks(program: Program) -> Iterator[tuple[Span, int, Span]]:
    """Every week that is named as an easier one, with its line and its place."""
    for easier in program.easier:
        figures = re.finditer(r"\d+", words(easier.span).partition(":")[0])
        for week, figure in zip(easier.weeks, figures, strict=False):
            start = easier.span.start
            yield easier.span, week, Span(easier.span.source, start + figure.start(), start + figure.end())


def _changes(program: Program) -> Iterator[tuple[str, int | Quantity, Span]]:
    """Every change of an easier week: its axis, its amount and its place."""
    for easier in program.easier:
        for axis, amount in easier.changes:
            name = axis.replace(" ", " +")
            where = on_line(easier.span, rf"(?<!total )\b{name} +by +(?:- *)?[\d.]+ *(?:%|[a-z]+\b)?")
            yield axis, amount, where


def _sound_changes(program: Program) -> Iterator[tuple[str, int | Quantity, Span]]:
    """The changes that go down by a figure that suits their axis."""
    for axis, amount, where in _changes(program):
        if axis in EASED and _suited(axis, amount) and figure_of(amount) < 0:
            yield axis, amount, where


def _most(amount: int | Quantity) -> bool:
    """Whether a share is half or more, up or down."""
    return isinstance(amount, Quantity) and amount.unit == "%" and abs(amount.base) >= Fraction(1, 2)


def _suited(axis: str, amount: int | Quantity) -> bool:
    return AXES[axis].suits(amount, share=AXES[axis].dimension is not None)


def _example(axis: str) -> str:
    return f"{axis} by {AXES[axis].easing}"
