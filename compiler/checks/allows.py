"""`allow`: findings that a coach silences in the source, in sight, and those that cannot be silenced."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from ...grammar.diagnostic import Check, Diagnostic, nearest, or_list
from ...grammar.source import Span
from ..model import Allow, Athlete, Log, Movement, Program, Project
from ..remembering import remembered
from .examples import in_block, whole
from .places import declaration, is_inside, on_line, region

_LIFT = """
movement crate-lift
  pattern hinge
  caution "Ask for help with a wet crate."
  how
    | Squat down beside the crate, take its handles, and stand up tall.
"""

ALLOW_UNKNOWN = Check(
    code="allow-unknown",
    severity="error",
    title="`allow` names a code that does not exist",
    message="There is no finding with the code `{code}`.",
    help="{near}",
    explain="`allow` names the code that stands in brackets in the message: `advice[movement-without-cue]`.",
    wrong=whole(
        _LIFT.replace(
            "  caution",
            '  cue "Close to the body"\n  allow movement-without-clue because "The crew know it."\n  caution',
        )
    ),
    right=whole(_LIFT.replace("  caution", '  allow movement-without-cue because "The crew know it."\n  caution')),
)

ALLOW_ERROR = Check(
    code="allow-error",
    severity="error",
    title="`allow` names an error",
    message="`{code}` is an error, which cannot be silenced.",
    help="Mend what it tells, and take this line out.",
    explain="Advice and warnings are a matter of judgement and can be allowed, with a reason. An error would make a sheet wrong.",
    wrong=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 15
          allow advance-missing because "They know."
        """
    ),
    right=in_block(
        """
        must chair-stand 3 x 10
          advance reps by 1 to 15
        """
    ),
)

ALLOW_UNUSED = Check(
    code="allow-unused",
    severity="warning",
    title="`allow` silences nothing",
    message="Nothing here gives `{code}`, so this line silences nothing.",
    help="Take the line out, or move it to the thing that gives `{code}`.",
    explain="An `allow` silences findings in the thing to which it belongs: the movement, the entry, the block, the session, the "
    "athlete or the program. That of an athlete silences in what is logged of them, too. One that silences nothing would hide "
    "a later finding unseen.",
    wrong=whole(
        _LIFT.replace(
            "  caution",
            '  cue "Close to the body"\n  allow movement-without-cue because "The crew know it."\n  caution',
        )
    ),
    right=whole(_LIFT.replace("  caution", '  allow movement-without-cue because "The crew know it."\n  caution')),
)


def settle(project: Project, found: Iterable[Diagnostic], known: Iterable[Check]) -> tuple[Diagnostic, ...]:
    """The findings without those silenced, each told once, with those about `allow` itself, in the order of the source."""
    checks = {check.code: check for check in known}
    left = list(dict.fromkeys(found))
    told: list[Diagnostic] = []
    for allow, scopes in sorted(_allows(project), key=lambda pair: -pair[1][0].start):
        check = checks.get(allow.code)
        where = on_line(allow.span, rf"\b{re.escape(allow.code)}\b")
        if check is None:
            told_elsewhere = _told_elsewhere()
            if allow.code in told_elsewhere:
                continue
            near = or_list(nearest(allow.code, [*checks, *told_elsewhere]))
            help = f"Did you mean {near}?" if near else "Write the code that stands in brackets in the message."
            told.append(ALLOW_UNKNOWN.at(where, code=allow.code, near=help))
        elif check.severity == "error":
            told.append(ALLOW_ERROR.at(where, code=allow.code))
        else:
            silenced = [one for one in left if one.code == allow.code and _covers(scopes, one)]
            if not silenced:
                told.append(ALLOW_UNUSED.at(where, code=allow.code))
            left = [one for one in left if one not in silenced]
    return tuple(sorted([*left, *told], key=lambda one: (one.span.source.name, one.span.start, one.span.end)))


def without_allowed(project: Project, found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The findings without those that the source allows."""
    allowed = [
        *_allowed_in(project.movements, project.programs),
        *_allows(Project(athletes=project.athletes, logs=project.logs)),
    ]
    return tuple(
        one for one in found if not any(allow.code == one.code and _covers(scopes, one) for allow, scopes in allowed)
    )


@remembered(4)  # of a crew each athlete is judged alone, and the programs are always the same
def _allowed_in(
    movements: tuple[Movement, ...], programs: tuple[Program, ...]
) -> tuple[tuple[Allow, tuple[Span, ...]], ...]:
    return tuple(_allows(Project(movements=movements, programs=programs)))


def _told_elsewhere() -> frozenset[str]:
    """Codes of findings on the weeks to come, which no check of a source tells."""
    from .ahead import CHECKS  # needed only once something is allowed that is not known here

    return frozenset(check.code for check in CHECKS)


def _covers(scopes: Iterable[Span], found: Diagnostic) -> bool:
    return any(is_inside(found.span, scope) for scope in scopes)


def _allows(project: Project) -> Iterator[tuple[Allow, tuple[Span, ...]]]:
    """Every `allow` once, with the stretches of source in which it silences."""
    declared = [(one.allows, one.span) for one in project.movements]
    declared += [(one.allows, one.span) for one in project.programs]
    owners: list[tuple[tuple[Allow, ...], tuple[Span, ...]]]
    owners = [(allows, (declaration(span),)) for allows, span in declared]
    owners += [(one.allows, _of_athlete(one, project.logs)) for one in project.athletes if one.allows]
    for program in project.programs:
        for session in program.sessions:
            owners.append((session.allows, (_line_and_below(session.span),)))
            for block in session.blocks:
                owners.append((block.allows, (_line_and_below(block.span),)))
                owners += [(entry.allows, (_line_and_below(entry.span),)) for entry in block.entries]
    seen: set[Span] = set()
    for allows, scopes in owners:
        for allow in allows:
            if allow.span not in seen:
                seen.add(allow.span)
                yield allow, scopes


def _of_athlete(athlete: Athlete, logs: Iterable[Log]) -> tuple[Span, ...]:
    """The athlete's own lines, and what is logged of them."""
    sessions = (one for log in logs if log.athlete == athlete.name for one in log.sessions)
    return (declaration(athlete.span), *(declaration(one.span) for one in sessions))


def _line_and_below(span: Span) -> Span:
    start = span.source.text.rfind("\n", 0, span.start) + 1
    return Span(span.source, start, region(span).end)
