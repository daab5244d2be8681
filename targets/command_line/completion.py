"""`setwright completion`: a script for the shell, made from the parser of the command line itself."""

from __future__ import annotations

import argparse

import shtab

from .arguments import make_parser

COMPLETED = {"SOURCE": shtab.FILE, "FOLDER": shtab.DIRECTORY}


def run(options: argparse.Namespace) -> int:
    """Print the script of the shell."""
    parser, commands = make_parser()
    for command in commands.values():
        for action in command._actions:  # argparse has no public way to list them
            if action.metavar in COMPLETED:
                action.complete = COMPLETED[str(action.metavar)]  # type: ignore[attr-defined]  # shtab looks for it
    print(shtab.complete(parser, options.shell))
    return 0
