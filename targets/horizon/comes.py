"""What comes, in sentences: for the program with nobody in particular, and in a line for each athlete."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby

import attrs

from ...compiler.checks.ahead import JUMP_AHEAD, RULE_EXHAUSTED, ahead_findings
from ...compiler.horizon import Ahead, Outlook, outlook
from ...compiler.model import Program, Project
from ...compiler.training import who_trains
from ...grammar.diagnostic import Diagnostic
from .. import words
from ..horizon_table import done_otherwise

_HAS = " has nowhere to go"


@attrs.frozen
class Comes:
    """What comes for some athletes alike."""

    who: str
    lines: tuple[str, ...]


def for_nobody(project: Project, look: Outlook) -> tuple[str, ...]:
    """A sentence for each finding; movements at their end in the same weeks and for the same reasons share one."""
    titles = _titles(look.good.program)
    told: dict[str, list[str]] = {}
    for finding in ahead_findings(project, look):
        sentence = _sentence(finding, titles)
        title, has, rest = sentence.partition(_HAS) if finding.code == RULE_EXHAUSTED.code else ("", "", "")
        told.setdefault(rest if has else sentence, []).append(title)
    return tuple(words.have_nowhere_to_go(alike, rest) if alike[0] else rest for rest, alike in told.items())


def for_athletes(project: Project, program: Program) -> tuple[Comes, ...]:
    """Lines for each athlete who does the program, those who have the same lines together."""
    told: dict[tuple[str, ...], list[str]] = {}
    for athlete in who_trains(project, program):
        lines = tuple(_lines(project, outlook(program, athlete)))
        told.setdefault(lines, []).append(athlete.title)
    return tuple(Comes(words.joined(names), lines) for lines, names in told.items())


def nobody_trains(project: Project, program: Program) -> bool:
    """Whether there are athletes, and nothing says that one of them does this program."""
    return bool(project.athletes) and not who_trains(project, program)


def _titles(program: Program) -> dict[str, str]:
    """The titles of what findings call by its name."""
    movements = {entry.movement.name: entry.movement.title for one in program.sessions for entry in one.entries}
    return {session.name: session.title for session in program.sessions} | movements


def _sentence(finding: Diagnostic, titles: dict[str, str]) -> str:
    return re.sub("`([^`]*)`", lambda name: titles.get(name[1]) or words.quoted(name[1]), finding.message)


def _lines(project: Project, look: Outlook) -> Iterator[str]:
    """Rules at their end and jumps in a line each, all else in a sentence."""
    program, athlete = look.good.program, look.athlete
    findings = ahead_findings(project, look)
    rows = list(zip(look.good.rows, look.missed.rows, strict=True))
    ends = [
        (good.entry.movement.title, good.exhausted[0], missed.exhausted[0] if missed.exhausted else None)
        for good, missed in rows
        if good.exhausted and _is_told(good, RULE_EXHAUSTED.code, findings)
    ]
    jumps = [
        (good.entry.movement.title, good.jump[0], missed.jump[0] if missed.jump else None)
        for good, missed in rows
        if good.jump and _is_told(good, JUMP_AHEAD.code, findings)
    ]
    if ends:
        yield words.nowhere_to_go(_by_week(ends))
    if jumps:
        yield words.too_far(_by_week(jumps))
    titles = _titles(program)
    for finding in findings:
        if finding.code not in (RULE_EXHAUSTED.code, JUMP_AHEAD.code):
            told = _sentence(finding, titles)
            yield told.replace(f" for {athlete.title}", "") if athlete is not None else told
    if not findings:
        yield words.NOTHING_COMES
    if said := done_otherwise(look.fitting):
        yield said


def _is_told(row: Ahead, code: str, findings: Sequence[Diagnostic]) -> bool:
    """Whether a finding stands on the rule of an entry: the coach may have allowed it."""
    rule = row.entry.rule.span if row.entry.rule is not None else row.entry.span
    return any(
        one.code == code and one.span.source is rule.source and one.span.start < rule.end and rule.start < one.span.end
        for one in findings
    )


def _by_week(told: Sequence[tuple[str, int, int | None]]) -> list[tuple[list[str], int, int | None]]:
    """The titles that share a week in both runs, the earliest first."""
    ordered = sorted(told, key=lambda one: (one[1], one[2] or 1000))
    return [
        ([title for title, _, _ in alike], week, missed)
        for (week, missed), alike in groupby(ordered, key=lambda one: (one[1], one[2]))
    ]
