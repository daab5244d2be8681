"""Categories: what a session must hold, and what a week must."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic, Label, or_list
from ..model import Category, Entry, Program, Session
from ..week import COUNTED, strength_sessions, times_a_week
from .examples import in_program
from .places import header, part

CATEGORY_EMPTY = Check(
    code="category-empty",
    severity="error",
    title="A required category has no movement in a session",
    message="Session `{session}` has no movement for `{category}`, which every working session must hold.",
    help="Add a movement with the pattern {patterns} to a block that is not a warm-up or a cool-down, "
    "or take `required` from the category.",
    explain="A required category is the promise that no working session leaves it out. Warm-ups and cool-downs do not "
    "count. A session without a work block, such as a daily walk, is free of it.",
    wrong=in_program(
        """
        category pull required
        """
    ),
    right=in_program(
        """
        category pull required
        """,
        """
        session main
          block back
            must one-arm-row 3 x 8 each side
              advance reps by 1 to 12, then load restarting reps
        """,
    ),
)


def find_category_empty(program: Program) -> Iterator[Diagnostic]:
    for session in () if program.damaged else strength_sessions(program):
        for category in program.categories:
            if category.required and not members(session, category):
                yield CATEGORY_EMPTY.at(
                    header(session.span),
                    session=session.name,
                    category=category.name,
                    patterns=or_list(category.counts),
                    labels=[Label(header(category.span), "required here")],
                )


OPTIONAL_CARRIES_CATEGORY = Check(
    code="optional-carries-category",
    severity="warning",
    title="An optional movement carries a required category alone",
    message="Only `may {movement}` serves `{category}` in session `{session}`, and whoever leaves it out has none.",
    help="Write `do {movement}` or `must {movement}`, or add another movement for `{category}`.",
    explain="`may` tells the athlete that a movement can be left out. When it is the only one of a required category, "
    "leaving it out breaks the promise of `required`.",
    wrong=in_program(
        "category pull required",
        """
        session main
          block back
            may one-arm-row 3 x 8 each side
              advance reps by 1 to 12
        """,
    ),
    right=in_program(
        "category pull required",
        """
        session main
          block back
            do one-arm-row 3 x 8 each side
              advance reps by 1 to 12
        """,
    ),
)


def find_optional_carries_category(program: Program) -> Iterator[Diagnostic]:
    for session in () if program.damaged else strength_sessions(program):
        for category in program.categories:
            carriers = members(session, category) if category.required else ()
            if carriers and all(entry.priority == "may" for entry in carriers):
                yield OPTIONAL_CARRIES_CATEGORY.at(
                    header(carriers[0].span),
                    movement=carriers[0].movement.name,
                    category=category.name,
                    session=session.name,
                    labels=[Label(header(category.span), "required here")],
                )


CATEGORY_UNREACHED = Check(
    code="category-unreached-in-week",
    severity="error",
    title="The sessions of a week do not reach what a category asks for",
    message="`{category}` is asked for {wanted} a week, but the sessions of a week reach it {reached}.",
    help="Put a movement with the pattern {patterns} into more sessions, hold a session more often, or {instead}.",
    explain="`at least 2 a week` counts the sessions of a week in which a movement of the category stands outside warm-up "
    "and cool-down. A session that says no days and no number counts once.",
    wrong=in_program(
        "category balance at least 2 a week",
        """
        session main, 1 a week
          block last
            do single-leg-stand 2 x 20 s each side
              advance hold by 5 s to 30 s
        """,
    ),
    right=in_program(
        "category balance at least 2 a week",
        """
        session main, 2 a week
          block last
            do single-leg-stand 2 x 20 s each side
              advance hold by 5 s to 30 s
        """,
    ),
)


def find_category_unreached(program: Program) -> Iterator[Diagnostic]:
    for category in () if program.damaged else program.categories:
        reached = times_reached(program, category)
        empty = category.required and not reached and bool(strength_sessions(program))  # told as such
        asked = category.at_least or 0
        if reached < asked <= MOST_A_WEEK and not empty:
            yield CATEGORY_UNREACHED.at(
                part(category.span, r"at +least +\d+ +a +week"),
                category=category.name,
                wanted=times(asked),
                reached=times(reached),
                instead=f"write `at least {reached} a week`" if reached else "take the clause out",
                patterns=or_list(category.counts),
            )


CATEGORY_COUNTS_NOTHING = Check(
    code="category-counts-nothing",
    severity="warning",
    title="No movement of the program belongs to a category",
    message="No movement of this program belongs to `{category}`: nothing here has the pattern {patterns}.",
    help="Say which patterns it means, such as `category {category} counts squat and lunge`, or take the line out.",
    explain="A category counts the pattern of its own name unless `counts` names others. When no movement has such a "
    "pattern, the category promises nothing.",
    wrong=in_program("category legs"),
    right=in_program("category legs counts squat and lunge"),
)


def find_category_counts_nothing(program: Program) -> Iterator[Diagnostic]:
    for category in () if program.damaged else program.categories:
        told_otherwise = category.at_least is not None or (category.required and bool(strength_sessions(program)))
        entries = [entry for session in program.sessions for entry in session.entries]
        if entries and not told_otherwise and not any(category.holds(entry.movement) for entry in entries):
            yield CATEGORY_COUNTS_NOTHING.at(
                header(category.span), category=category.name, patterns=or_list(category.counts)
            )


MOST_A_WEEK = 14  # twice a day


def members(session: Session, category: Category) -> tuple[Entry, ...]:
    """The entries of a session that count for a category."""
    return tuple(
        entry
        for block in session.blocks
        if block.kind in COUNTED
        for entry in block.entries
        if category.holds(entry.movement)
    )


def times_reached(program: Program, category: Category) -> int:
    """How many sessions of a week hold a movement of the category."""
    return sum(times_a_week(session) for session in program.sessions if members(session, category))


def times(count: int) -> str:
    """`never`, `once`, `3 times`."""
    return {0: "never", 1: "once", 2: "twice"}.get(count, f"{count} times")
