"""Parts of a rule beside its steps: easing after missed sessions, and the repetitions at which a rung is climbed."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic
from ..axes import AXES
from ..axes.counted import top_of_range
from ..model import Amrap, Dose, Program, Reps
from ..quantity import Quantity, figure_of
from .examples import in_block
from .places import header, on_line, own
from .walk import Place, axes, rules

EASE_UNFIT = Check(
    code="ease-unfit",
    severity="error",
    title="Easing something that the dose does not have",
    message="`ease {axis}` cannot be done here: {reason}.",
    help="Ease what the dose has, such as `ease reps 2` or, where the movement is loaded, `ease load 10%`.",
    explain="After missed sessions a figure of the dose goes back by a part of it. It must be a figure that the dose has, and "
    "the part less than the whole.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 15
          after 2 missed, ease load 10%
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 15
          after 2 missed, ease reps 2
        """
    ),
)


def find_ease_unfit(program: Program) -> Iterator[Diagnostic]:
    for here, rule in rules(program):
        if rule.ease is None:
            continue
        name, amount = rule.ease
        reason = _why_no_ease(name, amount, here)
        if reason is not None:
            where = own(here.entry.span, r"\bease +.*\S") or header(here.entry.span)
            yield EASE_UNFIT.at(where, axis=name, reason=reason)


def _why_no_ease(name: str, amount: int | Quantity, here: Place) -> str | None:
    if name == "load" and not here.entry.movement.loaded_by:
        return f"`{here.entry.movement.name}` is done without a load"
    kind = AXES[name]
    unfit = kind.unfit(here.block, here.entry)
    if unfit is not None:
        return unfit[0]
    if kind.ladder:
        return None
    if not kind.suits(amount, share=True):
        return f"its part is {kind.called} or a share, not {amount}"
    if figure_of(amount) == 0:
        return f"{amount} eases nothing"
    if isinstance(amount, Quantity) and amount.unit == "%" and amount.amount >= 100:
        return f"{amount} leaves nothing"
    return None


AT_UNFIT = Check(
    code="at-reps-unfit",
    severity="error",
    title="`at ... reps` where it says nothing",
    message="`at {count} reps` {reason}.",
    help="{instead}",
    explain="`rung at 15 reps` climbs to the next rung when every set reaches 15 repetitions. On other axes, and where the "
    "dose counts no repetitions, it says nothing.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          advance sets by 1 to 5 at 12 reps
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance sets by 1 to 5, then rung at 12 reps
        """
    ),
)


def find_at_unfit(program: Program) -> Iterator[Diagnostic]:
    for here, axis in axes(program):
        if axis.at is None:
            continue
        timed = bool(here.entry.dose.sets) and not _counts(here.entry.dose)
        where = on_line(axis.span, r"\bat +\d+ +reps")
        if not AXES[axis.name].ladder:
            reason = f"belongs to `rung`, not to `{axis.name}`"
            yield AT_UNFIT.at(
                where,
                count=axis.at,
                reason=reason,
                instead=f"Write `{axis.name} to {axis.at}`, or `rung at {axis.at} reps`.",
            )
        elif timed:
            reason = "cannot be reached: the dose counts no repetitions"
            yield AT_UNFIT.at(
                where, count=axis.at, reason=reason, instead="Advance `hold` or `time` to a bound, then `rung`."
            )
        elif axis.at == 0:
            yield AT_UNFIT.at(where, count=0, reason="is reached before the first", instead="Write `rung at 15 reps`.")


AT_ABOVE_BOUND = Check(
    code="at-reps-above-bound",
    severity="warning",
    title="A rung that waits for more repetitions than the rule ever asks for",
    message="`rung at {count} reps` waits for more than `reps` ever comes to: it ends at {bound}.",
    help="Write `rung at {bound} reps`, or let `reps` go to {count}.",
    explain="The next rung is climbed when every set reaches so many repetitions. Where the repetitions of the same rule end "
    "before that, it is reached only by an athlete who does more than the sheet asks for.",
    wrong=in_block(
        """
        must push-up 3 x 8
          advance reps by 1 to 12, then rung at 15 reps restarting reps
        """
    ),
    right=in_block(
        """
        must push-up 3 x 8
          advance reps by 1 to 15, then rung at 15 reps restarting reps
        """
    ),
)


def find_at_above_bound(program: Program) -> Iterator[Diagnostic]:
    for here, rule in rules(program):
        ends = [
            top_of_range(here.entry.dose) if axis.bound is None else axis.bound
            for axis in rule.axes
            if axis.name == "reps" and AXES[axis.name].unfit(here.block, here.entry) is None
        ]
        for axis in rule.axes:
            if (
                AXES[axis.name].ladder
                and axis.at is not None
                and ends
                and isinstance(ends[0], int)
                and axis.at > ends[0]
            ):
                where = on_line(axis.span, r"\bat +\d+ +reps")
                yield AT_ABOVE_BOUND.at(where, count=axis.at, bound=ends[0])


def _counts(dose: Dose) -> bool:
    return all(isinstance(work.target, Reps | Amrap) for work in dose.sets)
