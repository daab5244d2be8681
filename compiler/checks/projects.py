"""What can only be seen in all sources together: revisions of a program, and groups."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, pairwise

from ...grammar.diagnostic import Check, Diagnostic, Label
from ..groups import rings
from ..model import Project
from .examples import whole, with_basics
from .places import on_line, part

_REVISION = """
program store-room
  revision 1, 2026-06-14
  session main
    block legs
      must chair-stand 3 x 10
        advance reps by 1 to 15
"""

REVISION_BACKWARDS = Check(
    code="revision-dated-backwards",
    severity="warning",
    title="A later revision with an earlier date",
    message="Revision {after} is dated {after_date}, before revision {before} of {before_date}.",
    help="Mend the date or the number of one of the two.",
    explain="Revisions of a program are counted up as they are given to the athletes, so their dates go up too.",
    wrong=with_basics(_REVISION + _REVISION.replace("1, 2026-06-14", "2, 2026-03-15")),
    right=with_basics(_REVISION + _REVISION.replace("1, 2026-06-14", "2, 2026-09-15")),
)


def find_revision_backwards(project: Project) -> Iterator[Diagnostic]:
    dated = sorted((one for one in project.programs if one.dated is not None), key=lambda one: (one.name, one.revision))
    for _, revisions in groupby(dated, key=lambda one: one.name):
        for before, after in pairwise(revisions):
            assert before.dated is not None and after.dated is not None
            if after.dated < before.dated:
                yield REVISION_BACKWARDS.at(
                    part(after.span, r"\brevision +\d+ *, *[\d-]+"),
                    after=after.revision,
                    after_date=after.dated,
                    before=before.revision,
                    before_date=before.dated,
                    labels=[Label(part(before.span, r"\brevision +\d+ *, *[\d-]+"), f"revision {before.revision}")],
                )


MEMBER_TWICE = Check(
    code="member-twice",
    severity="warning",
    title="A member stands twice in a group",
    message="`{member}` stands twice in group `{group}`.",
    help="Name each member once.",
    explain="Each member of a group gets one sheet.",
    wrong=whole("athlete maren\n  body 68 kg\n\ngroup crew: maren, maren"),
    right=whole("athlete maren\n  body 68 kg\n\ngroup crew: maren"),
)


def find_member_twice(project: Project) -> Iterator[Diagnostic]:
    for group in project.groups:
        for member in dict.fromkeys(name for name in group.members if group.members.count(name) > 1):
            yield MEMBER_TWICE.at(
                on_line(group.span, rf"\b{member}\b *, *.*\b{member}\b"), member=member, group=group.name
            )


GROUP_IN_ITSELF = Check(
    code="group-in-itself",
    severity="error",
    title="A group that holds itself",
    message="Group `{group}` holds itself: {ring}.",
    help="Take `{member}` out of group `{last}`: a group holds athletes, and groups that do not hold it.",
    explain="A group is a list of athletes, or of other groups. One that leads back to itself, directly or round a corner, would "
    "never come to an end.",
    wrong=whole("athlete maren\n  body 68 kg\n\ngroup crew: maren, watch\ngroup watch: crew"),
    right=whole("athlete maren\n  body 68 kg\n\ngroup crew: maren\ngroup watch: crew"),
)


def find_group_in_itself(project: Project) -> Iterator[Diagnostic]:
    groups = {group.name: group for group in project.groups}
    for ring in rings(project.groups):
        first, last = ring[0], groups[ring[-1]]
        where = on_line(last.span, rf"(?<![a-z0-9-]){first}(?![a-z0-9-]| *:)")
        chain = " holds ".join((*ring, first))
        yield GROUP_IN_ITSELF.at(where, group=first, member=first, last=last.name, ring=chain)
