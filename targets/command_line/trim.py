"""`setwright trim`: the best version of each session in a limit, with what stays, what goes and why; or all limits."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterator
from fractions import Fraction

from ...compiler.clock import full_sets, timetable
from ...compiler.model import Entry, Program, Session
from ...compiler.quantity import Quantity, read_quantity
from ...compiler.trim import Cut, Infeasible, Reason, Version, limits, trim
from .limits import table
from .sources import chosen_programs, compile_source
from .terminal import Refusal, counted, errors_in_the_way, has_errors, minutes, result_stream, suggestion, tell_findings

ORDER = "a `may` goes first, then a `do`, a `key` last; a `must` only loses sets"
# Why the rest of a cut stays away: by how much the version would be too long with the least of it taken back.
REASONS: dict[Reason, str] = {
    **dict.fromkeys(("optional", "ordinary", "priority"), "{lacking} too long with it"),
    "fewer-sets": "{lacking} too long with one set more",
    "rounds": "{lacking} too long with one round more",
}

_PART = r"(?:(\d{{1,3}}(?:\.\d{{1,2}})?)\s*{}(?![a-z])\s*(?:and\s+)?)?"
_IN_PARTS = re.compile(
    _PART.format("h(?:(?:ou)?rs?)?") + _PART.format("m(?:in(?:ute)?s?)?") + _PART.format("s(?:ec(?:ond)?s?)?")
)


def run(options: argparse.Namespace) -> int:
    """Trim the sessions that are meant, or table their limits; exit code 1 where one has no version in the limit."""
    if options.to is not None and options.all:
        raise Refusal("--all shows all versions, --to one of them: write either.")
    limit = None if options.to is None else read_limit(options.to)
    result = compile_source(options.source, options.project)
    tell_findings(result.diagnostics, options, sys.stderr)
    if told := errors_in_the_way(result.diagnostics):
        print(f"{told}, then trim.", file=sys.stderr)
        return 1
    program = _one(chosen_programs(result, options.source, options))
    code = int(has_errors(result.diagnostics))
    for number, session in enumerate(_sessions(program, options.session)):
        of = f"{session.title} of {program.title}, revision {program.revision}"
        if limit is None:
            head = f"{of}: the best version for the time there is, by {options.by}"
            lines = table(session, limits(program, session, options.by), options.all)
        else:
            head = f"{of}, in {limit} by {options.by}"
            version = trim(program, session, limit.base, options.by)
            code = max(code, int(isinstance(version, Infeasible)))
            lines = _infeasible(program, version) if isinstance(version, Infeasible) else _version(version)
        print("\n" * (number > 0) + head, *lines, sep="\n", file=result_stream(options))
    return code


def read_limit(text: str) -> Quantity:
    """The time typed as `30min`, `90 s` or `1h`."""
    try:
        limit = read_quantity(text.strip().lower())
    except ValueError:
        limit = None
    if limit is not None and limit.dimension == "time" and len(text) <= 20:
        if limit.amount > 0:
            return limit
        raise Refusal(f"--to: `{text}` leaves no time for anything. Write the time there is, such as 30min.")
    raise Refusal(f"--to: `{text}` is not a time such as 30min, 90s or 1h.{_meant(text)}")


def _meant(text: str) -> str:
    """A question after the time that was meant by `30`, `1:30`, `1,5h` or `30min 20s`; "" where no one reading is sure."""
    spelt = text.strip().lower().replace(",", ".")
    parts = _IN_PARTS.fullmatch(spelt)
    by_clock = re.fullmatch(r"(\d{1,3})(?::|h)([0-5]\d)", spelt)
    bare = re.fullmatch(r"\d{1,3}", spelt)
    hours, mins, seconds = (
        (by_clock[1], by_clock[2], "0")
        if by_clock
        else ("0", bare[0], "0")
        if bare
        else parts.groups("0")
        if parts
        else "000"
    )
    whole = 3600 * Fraction(hours) + 60 * Fraction(mins) + Fraction(seconds)
    if whole <= 0 or whole.denominator > 1:
        return ""
    return f" Did you mean {whole // 60}min?" if whole % 60 == 0 else f" Did you mean {whole}s?"


def _one(programs: tuple[Program, ...]) -> Program:
    if len(programs) > 1:
        raise Refusal(f"which program? --program {' or '.join(program.name for program in programs)}.")
    return programs[0]


def _sessions(program: Program, name: str | None) -> tuple[Session, ...]:
    """The sessions of a program, or the one that is named."""
    found = tuple(session for session in program.sessions if name in (None, session.name))
    if found:
        return found
    known = [session.name for session in program.sessions]
    told = suggestion(str(name), known) if known else ""
    raise Refusal(
        f"there is no session `{name}` in {program.name}. {told}" if name else f"{program.name} has no session."
    )


def _version(version: Version) -> Iterator[str]:
    whole = minutes(version.full_seconds)
    if not version.cuts:
        yield f"  Fits whole: {whole}."
        return
    if any(version.kept):
        yield f"  {minutes(version.seconds)} of {whole}; saves {minutes(version.seconds_saved)}."
        yield "  What stays:"
        yield from _kept(version)
    else:
        yield f"  Nothing of it fits, and nothing has to stay: leave it out that day. It takes {whole}."
    yield f"  What is cut ({ORDER}):"
    for cut in version.cuts:
        reason = REASONS[cut.reason].format(lacking=minutes(cut.lacking))
        what = f"{cut.full - cut.kept} of {_units(cut)}" if cut.kept else "all"
        yield f"      {_name(cut.entry)} {what:<12} saves {minutes(cut.seconds_saved):<13} {reason}"


def _kept(version: Version) -> Iterator[str]:
    """What stays, under the titles of its blocks."""
    index = 0
    for block in version.session.blocks:
        kept = version.kept[index : index + len(block.entries)]
        unit = "set" if block.rounds is None else "round"
        if any(kept):
            yield f"    {block.title}"
        for entry, sets in zip(block.entries, kept, strict=True):
            if sets:
                yield f"      {_name(entry)} {_of(sets, full_sets(block, entry), unit)}"
            index += 1


def _units(cut: Cut) -> str:
    return counted(cut.full, "round" if cut.reason == "rounds" else "set")


def _of(sets: int, full: int, unit: str) -> str:
    return counted(sets, unit) if sets == full else f"{sets} of {counted(full, unit)}"


def _name(entry: Entry) -> str:
    """Priority and title in columns."""
    return f"{entry.priority:<4} {entry.movement.title:<28}"


def _infeasible(program: Program, found: Infeasible) -> Iterator[str]:
    """The least limit, rounded up to what can be typed, and what holds the session up, with its minutes."""
    smallest = found.smallest
    least = smallest.seconds
    typed = f"{-(-least // 60)}min" if least > 60 else f"{-(-least // 1)}s"
    yield f"  Does not fit. What has to stay takes {minutes(least)}: the smallest limit is --to {typed}."
    for timed in timetable(program, smallest.session, smallest.kept).blocks:
        if not timed.seconds:
            continue
        unit = "set" if timed.block.rounds is None else "round"
        yield f"    {timed.block.title}: {minutes(timed.seconds)}"
        for part in timed.entries:
            if part.kept:
                amount = _of(part.kept, full_sets(timed.block, part.entry), unit)
                yield f"      {_name(part.entry)} {amount:<13} {_why_it_stays(part.entry, found)}".rstrip()


def _why_it_stays(entry: Entry, found: Infeasible) -> str:
    if entry.priority == "must":
        return "stays in every version"
    kept_for = [
        f"{category.title} ({'required' if category.required else f'at least {category.at_least} a week'})"
        for category in found.categories
        if category.holds(entry.movement)
    ]
    return f"one movement stays for {' and '.join(kept_for)}" if kept_for else ""
