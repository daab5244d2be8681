"""`setwright week`: what a week of a program holds, in figures."""

from __future__ import annotations

import argparse
import sys

from ...compiler.model import Program
from ...compiler.week import says_how_often
from ...compiler.week_coverage import week_coverage
from .. import words
from ..week_table import week_rows
from .sources import chosen_programs, compile_source
from .terminal import errors_in_the_way, has_errors, result_stream, tell_findings


def run(options: argparse.Namespace) -> int:
    """Print a table for each program that is meant; exit code 1 where the sources have errors."""
    result = compile_source(options.source, options.project)
    tell_findings(result.diagnostics, options, sys.stderr)
    if told := errors_in_the_way(result.diagnostics):
        print(f"{told} first.", file=sys.stderr)
        return 1
    for number, program in enumerate(chosen_programs(result, options.source, options)):
        print("\n" * (number > 0) + "\n".join(_table(program)), file=result_stream(options))
    return int(has_errors(result.diagnostics))


def _table(program: Program) -> list[str]:
    rows = week_rows(week_coverage(program))
    widest = max(len(title) for title, _ in rows)
    unsaid = [session.title for session in program.sessions if not says_how_often(session)]
    return [
        words.week_of(program.title, program.revision),
        *(f"  {title:<{widest}}  {figure}" for title, figure in rows),
        *([f"  {words.counted_once(unsaid)}"] if unsaid else []),
        f"  {words.HOW_COUNTED}",
    ]
