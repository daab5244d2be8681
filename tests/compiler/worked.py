"""Progressions worked out by hand: a table of sessions, each with what it leads to and what the next one asks for.

A line of a table is `OUTCOME | WHAT FOLLOWS | NEXT DOSE`. The outcome is `good`, `short`, or a number of repetitions that
every set reached in a good session. What follows is the axis that took a step, or what else came of it, with the axes that
could not move and why: `reps (load: jump)`, `held`, `exhausted (reps: bound)`.
"""

from __future__ import annotations

from fractions import Fraction

from setwright.compiler.course import UNKNOWN, Means, course_of, dose_at, pace_time
from setwright.compiler.model import Amrap, Block, Distance, Dose, Entry, Program, Reps, Start, Target, Timed
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.progression import Course, Standing, Turn, after
from setwright.compiler.quantity import Quantity, decimal_text, read_quantity

from ..generate import NOWHERE

PROGRAM = """use basics

program hall
{settings}  session main, 3 a week
    block work{block}
      must {dose}
        {rule}
"""


def compiled(dose: str, rule: str, block: str = "", settings: str = "") -> tuple[Program, Block, Entry]:
    """The one entry of a program in a coach's source; it must be free of errors."""
    text = PROGRAM.format(
        dose=dose, rule=rule.replace("\n", "\n        "), block=block, settings=settings and f"  {settings}\n"
    )
    result = compile_texts({"hall.coach": text})
    assert not result.has_errors, [one.message for one in result.diagnostics]
    (program,) = result.project.programs
    (where,) = program.sessions[0].blocks
    return program, where, where.entries[0]


def kilograms(text: str) -> tuple[Fraction, ...]:
    return tuple(map(Fraction, text.split()))


def means(
    loads: str | None = None,
    maximum: str | None = None,
    jump: str | None = None,
    begins: str = "",
    cap: str | None = None,
    *,
    least: str = "0",
) -> Means:
    """What an athlete brings: `loads="6 8 10"` and `maximum="80"` in kg, `jump="20"`, `cap="85"` and `least="2"` in percent,
    `begins="at 12 kg, 8 reps"`.
    """
    return Means(
        _start(begins) if begins else None,
        None if loads is None else kilograms(loads),
        None if maximum is None else Fraction(maximum),
        None if jump is None else Fraction(jump) / 100,
        None if cap is None else read_quantity(f"{cap}%"),
        Fraction(least) / 100,
    )


def _start(text: str) -> Start:
    said: dict[str, object] = {}
    for part in text.split(", "):
        word, _, rest = part.partition(" ")
        if word == "at":
            said["load"] = read_quantity(rest)
        elif word == "on":
            said["rung"] = rest
        elif rest == "reps":
            said["reps"] = int(word)
        else:
            said["amount"] = read_quantity(part)
    return Start("any", **said, span=NOWHERE)


def check(
    table: str, dose: str, rule: str, brings: Means = UNKNOWN, *, block: str = "", settings: str = "", first: str = ""
) -> None:
    """Follow a rule through the sessions of a table; `first` is the dose of the first of them, where it is told."""
    program, where, entry = compiled(dose, rule, block, settings)
    course = course_of(program, where, entry, brings)
    assert course is not None
    standing = course.start
    if first:
        assert told(entry, course, standing) == first, told(entry, course, standing)
    for number, line in enumerate(table.strip().splitlines(), start=1):
        outcome, follows, asked = (part.strip() for part in line.split("|"))
        reached = int(outcome) if outcome.isdigit() else None
        turn = after(course, standing, outcome != "short", reached)
        standing = turn.standing
        came = f"{number}: {following(turn)} | {told(entry, course, standing)}"
        wanted = f"{number}: {follows} | {asked}"
        assert came == wanted, f"session {came}, and not {wanted}"


def following(turn: Turn) -> str:
    what = {"moved": f"{turn.axis}", "eased": f"eased {turn.axis}"}.get(turn.kind, turn.kind)
    why = ", ".join(f"{one.axis}: {one.reason}" for one in turn.blocked)
    return f"{what} ({why})" if why else what


def told(entry: Entry, course: Course, standing: Standing) -> str:
    """A dose in short: `3 x 10, 6 kg`; unlike sets `10 8 6`; the rung and the pace, which are no part of it, too."""
    dose = dose_at(entry, course, standing)
    parts = [sets(dose)]
    if dose.load is not None:
        parts.append(amount(dose.load))
    tempo = dose.tempo
    parts += [f"lower {tempo.lower}"] if tempo.lower else []
    parts += [f"pause {tempo.pause}"] if tempo.pause else []
    parts += [f"{tempo.cues} cues"] if tempo.cues else []
    parts += [f"rest {dose.rest}"] if dose.rest else []
    for track, figure in zip(course.tracks, standing.figures, strict=True):
        if track.name == "rung":
            parts.append(entry.movement.rungs[int(figure or 0)].name)
        elif track.name == "pace":
            parts.append("pace unknown" if figure is None else f"pace {pace_time(entry, dose, figure)}")
    return ", ".join(parts)


def sets(dose: Dose) -> str:
    each = [target(work.target) + (f"@{amount(work.load)}" if work.load else "") for work in dose.sets]
    return f"{len(each)} x {each[0]}" if len(set(each)) == 1 else " ".join(each)


def target(what: Target) -> str:
    match what:
        case Reps(low=low, high=high):
            return f"{low}" if low == high else f"{low}-{high}"
        case Amrap(expect=expect):
            return "amrap" if expect is None else f"amrap {expect}"
        case Timed(time=time):
            return str(time)
        case Distance(length=length):
            return str(length)


def amount(load: Quantity) -> str:
    return f"{decimal_text(load.amount)}{'' if load.unit == '%' else ' '}{load.unit}"
