"""The frame of a program: sessions, blocks, and the figures in its settings."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic, Label
from ..model import Entry, Program
from ..week import says_how_often
from .coverage import MOST_A_WEEK
from .examples import in_program, in_session, in_weeks
from .places import header, nothing_below, on_line, part

PROGRAM_EMPTY = Check(
    code="program-without-sessions",
    severity="error",
    title="A program without a session",
    message="Program `{program}` has no session, so there is nothing to train.",
    help="Add a line such as `session main, 3 a week` with its blocks below it.",
    explain="A program is a list of sessions; each holds blocks, and each block movements.",
    wrong=in_weeks("", session=""),
    right=in_weeks(""),
)


def find_program_empty(program: Program) -> Iterator[Diagnostic]:
    if not program.sessions and not program.damaged:
        yield PROGRAM_EMPTY.at(header(program.span), program=program.name)


SESSION_EMPTY = Check(
    code="session-without-blocks",
    severity="error",
    title="A session without a block",
    message="Session `{session}` has no block, so there is nothing to do in it.",
    help="Add a line such as `block legs` with the movements below it.",
    explain="A session holds its movements in blocks: a warm-up, work, conditioning, a cool-down.",
    wrong=in_program("", "session main, 3 a week"),
    right=in_program(""),
)


def find_session_empty(program: Program) -> Iterator[Diagnostic]:
    for session in () if program.damaged else program.sessions:
        if not session.blocks:
            yield SESSION_EMPTY.at(header(session.span), session=session.name)


BLOCK_EMPTY = Check(
    code="block-empty",
    severity="error",
    title="A block without a movement",
    message="Block `{block}` has no movement.",
    help="Add a line such as `must chair-stand 3 x 10`, or take the block out.",
    explain="A line of a block says its priority (`must`, `key`, `do`, `may`), the movement and the dose.",
    wrong=in_session(
        """
        block ready "Get ready", warm-up
        block legs
          must chair-stand 3 x 10
            advance reps by 1 to 15
        """
    ),
    right=in_session(
        """
        block ready "Get ready", warm-up
          do march-in-place 1 x 2 min
        block legs
          must chair-stand 3 x 10
            advance reps by 1 to 15
        """
    ),
)


def find_block_empty(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions:
        for block in session.blocks:
            if not block.entries and nothing_below(block.span):
                yield BLOCK_EMPTY.at(header(block.span), block=block.name)


MOVEMENT_TWICE = Check(
    code="same-movement-twice",
    severity="warning",
    title="A movement stands twice in a session",
    message="`{movement}` stands twice in session `{session}`, and a log could not tell the two apart.",
    help="Put the two together, for instance with `ramp` or `sets 10, 8, 8`, or declare a movement of another name.",
    explain="A log names a movement and the figures of its sets. With the movement twice in a session, nobody can say to "
    "which of the two a line belongs. A warm-up set of the same movement needs no line in the log, so it does not count here.",
    wrong=in_session(
        """
        block legs
          must chair-stand 3 x 10
            advance reps by 1 to 15
        block last
          must chair-stand 1 x 20
            advance reps by 1 to 30
        """
    ),
    right=in_session(
        """
        block legs
          must chair-stand 3 x 10
            advance reps by 1 to 15
        block last
          must chair-squat 1 x 20
            advance reps by 1 to 30
        """
    ),
)


def find_movement_twice(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions:
        first: dict[str, Entry] = {}
        for block in session.blocks:
            for entry in block.entries if block.kind in {"work", "conditioning"} else ():
                before = first.setdefault(entry.movement.name, entry)
                if before is not entry:
                    yield MOVEMENT_TWICE.at(
                        header(entry.span),
                        movement=entry.movement.name,
                        session=session.name,
                        labels=[Label(header(before.span), "the first of the two")],
                    )


ELSE_ITSELF = Check(
    code="else-the-same",
    severity="warning",
    title="An alternative that is the movement itself",
    message="`else {movement}` offers the same movement again, so it helps nobody.",
    help="Name another movement, or take the line out.",
    explain="`else` names what an athlete does who cannot do the movement or has nothing to load it with.",
    wrong=in_session(
        """
        block legs
          must split-squat 3 x 8 each side
            advance reps by 1 to 12
            else split-squat 2 x 8 each side
        """
    ),
    right=in_session(
        """
        block legs
          must split-squat 3 x 8 each side
            advance reps by 1 to 12
            else supported-split-squat 2 x 8 each side
        """
    ),
)


def find_else_itself(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions:
        for entry in session.entries:
            before = {entry.movement.name}
            for other in entry.otherwise:
                if other.movement.name in before:
                    yield ELSE_ITSELF.at(header(other.span), movement=other.movement.name)
                before.add(other.movement.name)


MOST_ROUNDS = 20

ROUNDS_OUT_OF_RANGE = Check(
    code="rounds-out-of-range",
    severity="error",
    title="A number of rounds that nobody goes",
    message="Block `{block}` goes round {rounds} times: a circuit has 1 to {most} rounds.",
    help="Write how often the block is gone through, such as `rounds 3`.",
    explain="In a block with `rounds`, every movement is done once in each round.",
    wrong=in_session(
        """
        block upper, rounds 0
          must push-up 8
            advance reps by 1 to 12
        """
    ),
    right=in_session(
        """
        block upper, rounds 3
          must push-up 8
            advance reps by 1 to 12
        """
    ),
)


def find_rounds_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions:
        for block in session.blocks:
            if block.rounds is not None and not 1 <= block.rounds <= MOST_ROUNDS:
                where = on_line(block.span, r"\brounds +\d+")
                yield ROUNDS_OUT_OF_RANGE.at(where, block=block.name, rounds=block.rounds, most=MOST_ROUNDS)


MOST_WEEKS = 104

WEEKS_OUT_OF_RANGE = Check(
    code="weeks-out-of-range",
    severity="error",
    title="A program of no weeks, or of more than two years",
    message="`runs {weeks} weeks` cannot be meant: a program runs 1 to {most} weeks.",
    help="Write how long it runs, such as `runs 12 weeks`.",
    explain="The weeks say how far ahead the program is looked at, and when a review is due.",
    wrong=in_program("runs 0 weeks"),
    right=in_weeks(""),
)


def find_weeks_out_of_range(program: Program) -> Iterator[Diagnostic]:
    if program.weeks is not None and not 1 <= program.weeks <= MOST_WEEKS:
        where = part(program.span, r"\bruns +\d+ +weeks")
        yield WEEKS_OUT_OF_RANGE.at(where, weeks=program.weeks, most=MOST_WEEKS)


HOW_OFTEN_MISSING = Check(
    code="how-often-not-said",
    severity="warning",
    title="A session of which nobody knows how often it is held",
    message="The program runs {weeks}, but nothing says how often in a week session `{session}` is held.",
    help="Write `session {session}, 3 a week`, `every day`, or its days: `on mon, wed, fri`.",
    explain="What a week holds follows from how often each session is held: days, sets, minutes, and how fast a movement "
    "gets harder. A session that does not say it counts once a week.",
    wrong=in_weeks(
        "",
        """
        session main
          block legs
            must chair-stand 3 x 10
              advance reps by 1 to 15
        """,
    ),
    right=in_weeks(""),
)


def find_how_often_missing(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions if program.weeks else ():
        if not says_how_often(session):
            yield HOW_OFTEN_MISSING.at(
                header(session.span),
                session=session.name,
                weeks=f"{program.weeks} weeks" if program.weeks != 1 else "a week",
            )


REVISION_ZERO = Check(
    code="revision-zero",
    severity="error",
    title="Revision 0",
    message="Revisions are counted from 1, so there is no revision 0.",
    help="Write `revision 1` for the first one that athletes get.",
    explain="Each revision that is given to athletes has a number of its own, so that a log says to which it belongs.",
    wrong=in_program("revision 0, 2026-06-14"),
    right=in_program("revision 1, 2026-06-14"),
)


def find_revision_zero(program: Program) -> Iterator[Diagnostic]:
    if program.revision < 1:
        yield REVISION_ZERO.at(part(program.span, r"\brevision +\d+"))


JUMP_OUT_OF_RANGE = Check(
    code="jump-out-of-range",
    severity="error",
    title="A largest jump of load that cannot be meant",
    message="`jump {jump}` cannot be meant: the largest step of a load is more than 0% and at most 100%.",
    help="Write a share such as `jump 10%`.",
    explain="`jump` is the largest step from one load to the next that is still taken. Where the next load is further away, "
    "the rule goes on to its next axis.",
    wrong=in_program("jump 0%"),
    right=in_program("jump 10%"),
)


def find_jump_out_of_range(program: Program) -> Iterator[Diagnostic]:
    if program.jump is not None and not 0 < program.jump.amount <= 100:
        yield JUMP_OUT_OF_RANGE.at(part(program.span, r"\bjump +[\d.]+ *%"), jump=program.jump)


DAYS_OUT_OF_RANGE = Check(
    code="times-a-week-out-of-range",
    severity="error",
    title="A number of times a week that no week holds",
    message="`{count} a week` cannot be meant: it is 1 to {most} times.",
    help="Write how often in a week, such as `3 a week`, or `every day`.",
    explain="A session is held 1 to 14 times a week, twice a day at the most. A category is asked for no more often.",
    wrong=in_program(
        "",
        """
        session main, 0 a week
          block legs
            must chair-stand 3 x 10
              advance reps by 1 to 15
        """,
    ),
    right=in_program(
        "",
        """
        session main, 3 a week
          block legs
            must chair-stand 3 x 10
              advance reps by 1 to 15
        """,
    ),
)


def find_days_out_of_range(program: Program) -> Iterator[Diagnostic]:
    asked = [(category.span, category.at_least) for category in program.categories]
    for span, count in [*asked, *((session.span, session.per_week) for session in program.sessions)]:
        if count is not None and not 1 <= count <= MOST_A_WEEK:
            yield DAYS_OUT_OF_RANGE.at(on_line(span, r"\b\d+ +a +week"), count=count, most=MOST_A_WEEK)


DAY_TWICE = Check(
    code="day-twice",
    severity="warning",
    title="A day stands twice in a list of days",
    message="`{day}` stands twice in these days.",
    help="Name each day once; for twice a day, write the number, such as `6 a week`.",
    explain="`on mon, wed, fri` names the days on which a session is held, or on which an athlete trains.",
    wrong=in_program(
        "",
        """
        session main, on mon, wed, mon
          block legs
            must chair-stand 3 x 10
              advance reps by 1 to 15
        """,
    ),
    right=in_program(
        "",
        """
        session main, on mon, wed, fri
          block legs
            must chair-stand 3 x 10
              advance reps by 1 to 15
        """,
    ),
)


def find_day_twice(program: Program) -> Iterator[Diagnostic]:
    for session in program.sessions:
        for day in dict.fromkeys(day for day in session.days if session.days.count(day) > 1):
            where = on_line(session.span, rf"(?<={day})(?:[a-z, ]*\b){day}\b")
            yield DAY_TWICE.at(where, day=day)
