"""What the log on the phone holds: the sessions of a week as plain values, which go into the page as JSON."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

import attrs

from ...compiler import clock
from ...compiler.cut_list import cut_list
from ...compiler.log_files.table import MARK, VERSION
from ...compiler.logbook import Logbook, Step
from ...compiler.model import Block, Program, Session
from ...compiler.quantity import decimal_text
from ...compiler.trim import Version, shortened
from ...compiler.week import COUNTED
from .. import telling
from .. import words as catalogue
from ..handout.late import late
from ..log_sheet.table import log_table
from ..log_sheet.view import times
from ..sheet import file_stem
from ..turns_told import done_told
from . import words
from .entries import LogEntry, as_entry, log_entry, seconds

Last = Mapping[str, str]  # by the name of a movement, what a log says of the last time


@attrs.frozen
class LogVersion:
    """The whole session, or a shorter one: its limit for the table, and the second at which each block begins."""

    short: str
    label: str
    minutes: int
    starts: tuple[float, ...]


@attrs.frozen
class LogBlock:
    """A block; `circuits` tells how its rounds run in each version, `rest` is the time after a round."""

    title: str
    kind: str
    logged: bool
    circuits: tuple[str, ...]
    note: str
    rest: float
    entries: tuple[LogEntry, ...]


@attrs.frozen
class LateStep:
    """A cut: what is left out, what it saves, and what is then kept of every entry of the session."""

    what: str
    saves: str
    kept: tuple[int, ...]


@attrs.frozen
class LatePace:
    """A block by its number: until when each cut can wait, None where its work is done, and the last start in time."""

    block: int
    until: tuple[float | None, ...]
    last: float


@attrs.frozen
class LogLate:
    order: str
    steps: tuple[LateStep, ...]
    pace: tuple[LatePace, ...]
    stop: str


@attrs.frozen
class LogSession:
    name: str
    title: str
    often: str
    limit: str
    note: str
    easier: tuple[str, ...]
    times: tuple[str, ...]
    versions: tuple[LogVersion, ...]
    blocks: tuple[LogBlock, ...]
    late: LogLate | None


@attrs.frozen
class WebLog:
    """All that the script of the page knows. `key` is the name under which a device keeps what is written down."""

    key: str
    file: str
    mark: str
    athlete: str
    program: str
    revision: int
    headers: tuple[str, ...]
    sessions: tuple[LogSession, ...]


def last_times(logbook: Logbook) -> Last:
    """Of each movement what was logged the last time, and when."""
    found: dict[str, Step] = {}
    for one in logbook.stands:
        if one.steps:
            step, name = one.steps[-1], one.entry.movement.name
            if name not in found or found[name].session.date < step.session.date:
                found[name] = step
    return {name: words.last_time(telling.day(step.session.date), done_told(step)) for name, step in found.items()}


def web_log(program: Program, week: int | None, last: Last) -> WebLog:
    """The log of a program as it is in a week; of its athlete, where it was fitted to one."""
    athlete = program.athlete.name if program.athlete is not None else ""
    return WebLog(
        "/".join((f"{MARK} {VERSION}", athlete, program.name, str(program.revision), str(week or ""))),
        f"{file_stem(program)}-log",
        f"{MARK} {VERSION}",
        athlete,
        program.name,
        program.revision,
        log_table(_with_others(program)).headers,
        tuple(_session(program, session, week, last) for session in program.sessions),
    )


def _with_others(program: Program) -> Program:
    """The program with all that may be done in place of something as entries, so that its table has columns for it."""

    def block(one: Block) -> Block:
        entries = ((entry, *(as_entry(entry, other) for other in entry.otherwise)) for entry in one.entries)
        return attrs.evolve(one, entries=tuple(each for several in entries for each in several))

    sessions = (attrs.evolve(one, blocks=tuple(map(block, one.blocks))) for one in program.sessions)
    return attrs.evolve(program, sessions=tuple(sessions))


def _session(program: Program, session: Session, week: int | None, last: Last) -> LogSession:
    whole = clock.full_version(session)
    shorts = [made for short in session.shorts if isinstance(made := shortened(program, session, short), Version)]
    kept = (whole, *(version.kept for version in shorts))
    limits = [version.limit for version in shorts]
    labels = (words.WHOLE, *(telling.duration(limit) for limit in limits))
    versions = tuple(
        _version(program, session, sets, short, label)
        for sets, short, label in zip(kept, ("", *(decimal_text(limit / 60) for limit in limits)), labels, strict=True)
    )
    return LogSession(
        session.name,
        session.title,
        telling.frequency(session),
        catalogue.amount(session.within) if session.within is not None else "",
        session.note,
        _easier(program, session, week),
        times(session),
        versions,
        tuple(_blocks(program, session, kept, last)),
        _late(program, session),
    )


def _version(program: Program, session: Session, kept: clock.Kept, short: str, label: str) -> LogVersion:
    table = clock.timetable(program, session, kept)
    starts = tuple(seconds(timed.start) for timed in table.blocks)
    return LogVersion(short, label, telling.whole_minutes(table.seconds), starts)


def _easier(program: Program, session: Session, week: int | None) -> tuple[str, ...]:
    """What an athlete leaves out in easier weeks; that of the week is left out already."""
    if week is not None:
        easier = any(week in one.weeks for one in program.easier)
        return (words.THIS_WEEK_EASIER, catalogue.EASIER_COUNTED) if easier else ()
    told = telling.easier_on_log(program, session)
    return (*told, catalogue.NOTHING_MOVES_ON) if told else ()


def _blocks(program: Program, session: Session, kept: Sequence[clock.Kept], last: Last) -> Iterator[LogBlock]:
    index, seen = 0, Counter[str]()
    for block in session.blocks:
        entries = []
        for entry in block.entries:
            name = entry.movement.name
            seen[name] += 1
            id = name if seen[name] == 1 else f"{name}-{seen[name]}"
            own = [version[index] for version in kept]
            entries.append(log_entry(program, block, entry, own, id=id, last=last.get(name, "")))
            index += 1
        part = slice(index - len(block.entries), index)
        circuit = block.rounds is not None
        yield LogBlock(
            block.title,
            catalogue.BLOCK_KINDS[block.kind],
            block.kind in COUNTED,
            tuple(_circuit(program, block, version[part]) for version in kept) if circuit else (),
            block.note,
            seconds(clock.round_rest_time(program, block)) if circuit and max(kept[0][part], default=0) > 1 else 0,
            tuple(entries),
        )


def _circuit(program: Program, block: Block, kept: Sequence[int]) -> str:
    """How the rounds of a block run, "" where nothing of it is kept."""
    rounds = max(kept, default=0)
    change = clock.change_time(program, block) if sum(map(bool, kept)) > 1 else Fraction(0)
    rest = clock.round_rest_time(program, block) if rounds > 1 else Fraction(0)
    told = (telling.duration(time) if time else "" for time in (rest, change))
    return catalogue.circuit(rounds, block.rounds or rounds, *told) if rounds else ""


def _late(program: Program, session: Session) -> LogLate | None:
    """What to leave out when it gets late, as the handout tells it, with the exact seconds of its minutes."""
    found, told = cut_list(program, session), late(program, session)
    if told is None:
        return None
    steps = (LateStep(row.what, row.saves, step.kept) for row, step in zip(told.cuts, found.steps, strict=True))
    numbers = {id(block): number for number, block in enumerate(session.blocks)}
    pace = (
        LatePace(
            numbers[id(one.block)],
            tuple(None if until is None else seconds(until) for until in one.until),
            seconds(one.last),
        )
        for one in found.pace
    )
    order = catalogue.cut_order(False) if told.cuts else told.order
    return LogLate(order, tuple(steps), tuple(pace), told.last)
