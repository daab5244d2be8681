"""`setwright horizon`: a program run forward over its weeks, so that the coach sees what comes."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence

from ...compiler.checks.ahead import ahead_findings
from ...compiler.course import UNKNOWN, Means
from ...compiler.horizon import Outlook, outlook
from ...compiler.means import MeansOf
from ...compiler.model import Athlete, Program
from ...compiler.quantity import Quantity, read_quantity
from ...grammar.diagnostic import Diagnostic
from .. import words
from ..horizon_lines import ahead_lines
from ..horizon_table import told_load
from .sources import athlete_of, chosen_programs, compile_source, concerning
from .terminal import Refusal, errors_in_the_way, has_errors, result_stream, summary, tell_findings, width


def run(options: argparse.Namespace) -> int:
    """Print both runs of each program that is meant, and what they find; exit code 1 where the sources have errors."""
    loads = read_loads(options.loads) if options.loads is not None else ()
    if loads and options.athlete:
        raise Refusal("--loads are for nobody in particular: leave out --athlete, whose own loads count, or --loads.")
    result = compile_source(options.source, options.project)
    findings = concerning(result, options.athlete)
    if told := errors_in_the_way(findings):
        tell_findings(findings, options, sys.stderr)
        print(f"{told} first.", file=sys.stderr)
        return 1
    athlete = athlete_of(result.project, options.athlete) if options.athlete else None
    programs = chosen_programs(result, options.source, options)
    looks = [_look(program, athlete, loads, options) for program in programs]
    ahead = [ahead_findings(result.project, look) for look in looks]
    if options.format == "json":
        tell_findings([*findings, *(one for found in ahead for one in found)], options, sys.stderr)
    else:
        tell_findings(findings, options, sys.stderr)
    for number, (look, found) in enumerate(zip(looks, ahead, strict=True)):
        _tell(look, found, loads, options, number > 0)
    return int(has_errors(findings))


def _look(program: Program, athlete: Athlete | None, loads: Sequence[Quantity], options: argparse.Namespace) -> Outlook:
    means = with_loads(loads)
    return outlook(
        program, athlete, weeks=options.weeks, missed_every=options.missed_every, means=means, rise=options.rise
    )


def _tell(
    look: Outlook,
    findings: Sequence[Diagnostic],
    loads: Sequence[Quantity],
    options: argparse.Namespace,
    further: bool,
) -> None:
    """The tables, then what they lead to: it is read first where it stands last."""
    stream = result_stream(options)
    print("\n" * further + "\n".join(ahead_lines(look, _who(look, loads), width(stream))), file=stream)
    print(file=stream)
    if findings and options.format == "text":
        tell_findings(findings, options, stream)
        print(file=stream)
    print(words.ahead_summary(look.good.weeks, _who(look, loads), summary(findings)), file=stream)


def _who(ahead: Outlook, loads: Sequence[Quantity]) -> str:
    if ahead.athlete is not None:
        return words.for_athlete(ahead.athlete.title)
    return words.for_loads([told_load(load) for load in loads]) if loads else words.FOR_NOBODY


# What was typed


def read_loads(text: str) -> tuple[Quantity, ...]:
    """The loads typed as `4kg 6 kg, 25lb`, the lightest first, each once."""
    parts = re.split(r"[\s,;]+", re.sub(r"(?<=\d)\s+(?=[a-zA-Z])", "", text.strip()))
    loads = {load.base: load for load in map(_load, filter(None, parts))}
    if not loads:
        raise Refusal('--loads: no load is said. Write them with their unit, as in --loads "4kg 6kg 10kg".')
    return tuple(loads[mass] for mass in sorted(loads))


def _load(text: str) -> Quantity:
    told = 'Write each with its unit, as in --loads "4kg 6kg 10kg".'
    shown = text if len(text) <= 20 else f"{text[:20]}..."
    try:
        load = read_quantity(text.lower()) if len(text) <= 20 else None
    except ValueError:
        load = None
    if load is None or load.dimension != "mass":
        raise Refusal(f"--loads: `{shown}` is not a load. {told}")
    if load.amount <= 0:
        raise Refusal(f"--loads: `{shown}` is no weight. {told}")
    return load


def with_loads(loads: Sequence[Quantity]) -> MeansOf | None:
    """The same loads for every movement."""
    means = Means(loads=tuple(load.base for load in loads))
    return (lambda movement: means if movement.loaded_by else UNKNOWN) if loads else None
