"""`setwright build`: all sheets of the programs that are meant, written whole or not at all."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from ..templates import TemplateTrouble
from .printing import printing_of
from .sources import chosen_programs, compile_source
from .terminal import OF_FITTING, Refusal, counted, errors_counted, has_errors, result_stream, tell_findings

if TYPE_CHECKING:
    from ..writing import Written


def run(options: argparse.Namespace) -> int:
    """Compile the source and write what it makes, unless it holds an error; one that is about an athlete alone stops nothing."""
    if options.people is not None:
        from ..crew.seen import look

        seen = look(options.to, elsewhere=options.scheduler is not None)
        from .crew import run as run_for_people  # read meanwhile

        return run_for_people(options, seen)
    for option in ("jobs", "scheduler"):
        if getattr(options, option) is not None:
            raise Refusal(f"--{option} goes with --for: it is packs of people that are built side by side.")
    printing = printing_of(options)
    result = compile_source(options.source, options.project)
    tell_findings(result.diagnostics, options, sys.stderr)
    of_programs = [found for found in result.diagnostics if found.code not in OF_FITTING]
    if has_errors(of_programs):
        print(f"{errors_counted(of_programs)}: nothing is written.", file=sys.stderr)
        return 1
    programs = chosen_programs(result, options.source, options)

    from ..sheets import build  # templates are loaded only once there is something to write
    from ..writing import write_files

    contents: dict[str, str | bytes] = {}
    for program in programs:
        folder = "" if len(programs) == 1 else f"{program.name}/"
        try:
            files = build(result.project, program, printing)
        except TemplateTrouble as reason:
            raise Refusal(str(reason)) from None
        contents |= {folder + name: content for name, content in files.items()}
    written = write_files(Path(options.to), contents)
    _tell(written, [f"{program.name}, revision {program.revision}" for program in programs], options)
    return int(has_errors(result.diagnostics))


def _tell(written: Written, programs: list[str], options: argparse.Namespace) -> None:
    """Where the files are, and which of them changed."""
    stream = result_stream(options)
    count = len(written.changed) + len(written.unchanged)
    print(f"{'; '.join(programs)}: {counted(count, 'file')} in {options.to}", file=stream)
    for name in written.changed:
        print(f"  {name}", file=stream)
    if written.unchanged:
        print(f"  ({counted(len(written.unchanged), 'file')} already as they should be)", file=stream)
