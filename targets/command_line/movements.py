"""`setwright movements`: the movements that there are, and which of them an athlete can do."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from ...compiler.at_hand import AtHand
from ...compiler.model import Movement, Project
from ...compiler.pipeline import library_movements
from ..movement_list import list_lines, movement_lines
from .sources import athlete_of, compile_source, concerning
from .terminal import Refusal, has_errors, result_stream, suggestion, tell_findings, width


def run(options: argparse.Namespace) -> int:
    """List the shipped movements and those of the source; exit code 1 where the source has errors."""
    wanted, source = _meant(options.words)
    project, code = Project(), 0
    if source or options.person:
        result = compile_source(source or ".", options.project)
        wrong = [found for found in concerning(result, options.person) if found.severity == "error"]
        tell_findings(wrong, options, sys.stderr)
        project, code = result.project, int(has_errors(wrong))
    hands = AtHand(athlete_of(project, options.person)) if options.person else None
    movements = tuple({one.name: one for one in (*library_movements(), *project.movements)}.values())
    stream = result_stream(options)
    for line in _lines(movements, wanted, hands, width(stream)):
        print(line, file=stream)
    return code


def _meant(typed: Sequence[str]) -> tuple[str, str]:
    """The pattern or movement, and the source, "" where one was not typed: a path is known by being there."""
    if len(typed) > 2:
        raise Refusal(f"`{typed[2]}` is one word too many: write a pattern or a movement, and the file or folder.")
    if len(typed) == 2:
        return typed[0], typed[1]
    word = typed[0] if typed else ""
    is_path = (
        word.endswith(".coach") or "/" in word or (Path(word).exists() and word not in _known(library_movements()))
    )
    return ("", word) if word and is_path else (word, "")


def _lines(movements: Sequence[Movement], wanted: str, hands: AtHand | None, columns: int) -> list[str]:
    named = next((one for one in movements if one.name == wanted), None)
    if named is not None:
        return list(movement_lines(named, hands, columns))
    known = _known(movements)
    if wanted and wanted not in known:
        raise Refusal(f"there is no movement and no pattern `{wanted}`. {_near(wanted, known, movements)}")
    return list(list_lines(movements, wanted, hands, columns))


def _known(movements: Sequence[Movement]) -> list[str]:
    """The patterns, then the names."""
    patterns = dict.fromkeys(pattern for one in movements for pattern in one.patterns)
    return [*patterns, *(one.name for one in movements)]


def _near(wanted: str, known: Sequence[str], movements: Sequence[Movement]) -> str:
    """What was meant; where nothing is near, the patterns."""
    near = suggestion(wanted, known)
    patterns = known[: len(known) - len(movements)]
    return near if near.startswith("Did") else f"The patterns are {', '.join(patterns)}."
