"""`setwright trim`: the best version of each session in a limit, with what stays, what goes and why."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterator
from fractions import Fraction

from ...compiler.model import Entry, Program, Session
from ...compiler.quantity import Quantity, read_quantity
from ...compiler.trim import Cut, Infeasible, Reason, Version, trim
from .sources import chosen_programs, compile_source
from .terminal import Refusal, counted, has_errors, result_stream, suggestion, summary, tell_findings

ORDER = "a `may` goes first, then a `do`, a `key` last; a `must` only loses sets"
# Why the rest of a cut stays away: by how much the version would be too long with the least of it taken back.
REASONS: dict[Reason, str] = {
    **dict.fromkeys(("optional", "ordinary", "priority"), "{lacking} too long with it"),
    "fewer-sets": "{lacking} too long with one set more",
    "rounds": "{lacking} too long with one round more",
}


def run(options: argparse.Namespace) -> int:
    """Trim the sessions that are meant, and print each; exit code 1 where one of them has no version in the limit."""
    limit = read_limit(options.to)
    result = compile_source(options.source, options.project)
    tell_findings(result.diagnostics, options, sys.stderr)
    if has_errors(result.diagnostics):
        print(f"{summary(result.diagnostics)}: mend them, then trim.", file=sys.stderr)
        return 1
    program = _one(chosen_programs(result, options.source, options))
    trimmed = [trim(program, session, limit.base, options.by) for session in _sessions(program, options.session)]
    for number, version in enumerate(trimmed):
        lines = _infeasible(version) if isinstance(version, Infeasible) else _version(version)
        head = f"{version.session.title} of {program.title}, revision {program.revision}, in {limit} by {options.by}"
        print("\n" * (number > 0) + head, *lines, sep="\n", file=result_stream(options))
    return 1 if any(isinstance(version, Infeasible) for version in trimmed) else 0


def read_limit(text: str) -> Quantity:
    """The time typed as `30min`, `90 s` or `1h`."""
    try:
        limit = read_quantity(text.strip().lower())
    except ValueError:
        limit = None
    if limit is not None and limit.dimension == "time" and limit.amount > 0 and len(text) <= 20:
        return limit
    figure = re.match(r"\s*(\d{1,3})\s*m?", text)
    meant = f" Did you mean {figure[1]}min?" if figure and int(figure[1]) else ""
    raise Refusal(f"--to: `{text}` is not a time such as 30min, 90s or 1h.{meant}")


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
    cuts = {cut.index: cut for cut in version.cuts}
    index = 0
    for block in version.session.blocks:
        kept = version.kept[index : index + len(block.entries)]
        unit = "set" if block.rounds is None else "round"
        if any(kept):
            yield f"    {block.title}"
        for entry, sets in zip(block.entries, kept, strict=True):
            if sets:
                yield f"      {_name(entry)} {_amount(sets, cuts.get(index), unit)}"
            index += 1


def _units(cut: Cut) -> str:
    return counted(cut.full, "round" if cut.reason == "rounds" else "set")


def _amount(sets: int, cut: Cut | None, unit: str) -> str:
    return counted(sets, unit) if cut is None else f"{sets} of {counted(cut.full, unit)}"


def _name(entry: Entry) -> str:
    """Priority and title in columns."""
    return f"{entry.priority:<4} {entry.movement.title:<28}"


def _infeasible(found: Infeasible) -> Iterator[str]:
    """What holds the session up, and the least limit, rounded up to what can be typed."""
    least = found.smallest.seconds
    typed = f"{-(-least // 60)}min" if least > 60 else f"{-(-least // 1)}s"
    yield f"  Does not fit. What has to stay takes {minutes(least)}: the smallest limit is --to {typed}."
    for entry in found.musts:
        yield f"      {_name(entry)} stays in every version"
    for category in found.categories:
        yield f"      required category {category.title}: one movement of it stays"


def minutes(seconds: Fraction) -> str:
    """`4 min`, `3 min 20 s`, `45 s`: rounded up to a second, so that nothing is promised shorter than it is."""
    whole, rest = divmod(-(-seconds // 1), 60)
    return " ".join([f"{whole} min"] * (whole > 0) + [f"{rest} s"] * (rest > 0 or not whole))
