"""`setwright check`: what is wrong with the sources, told with its places."""

from __future__ import annotations

import argparse
import sys

from .sources import compile_source, merged
from .terminal import counted, has_errors, result_stream, summary, tell_findings


def run(options: argparse.Namespace) -> int:
    """Compile each source given and print the findings of all of them."""
    results = [compile_source(source, options.project) for source in options.sources]
    diagnostics = merged(results)
    tell_findings(diagnostics, options, sys.stdout)
    files = {source.name for result in results for source in result.sources}
    print(f"{counted(len(files), 'file')}: {summary(diagnostics)}.", file=result_stream(options))
    return 1 if has_errors(diagnostics) else 0
