"""A few people built at once: the one function that does it, on this machine or on any other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import zip_longest
from threading import Lock
from typing import TYPE_CHECKING

from ...compiler.fitting import Fitting, fit
from ...compiler.model import Log, Program
from ...compiler.person import Base, base_of, compile_person, read
from ...compiler.pipeline import uncollected
from ...compiler.project import Loaded
from ..overview import as_json, row_of
from ..pack import pack
from .outcome import OtherEdition, Outcome, Shared, Wanted, kept, made_from
from .record import Record, edition, read_record, write_folder, write_record
from .store import open_store
from .told import plain

if TYPE_CHECKING:
    from ...compiler.logbook import Logbook


def build_partition(shared: Shared, people: Iterable[Wanted]) -> list[Outcome]:
    """The packs of some people, written to where they are wanted; those that are as they should be are left alone."""
    if shared.edition != edition():
        raise OtherEdition(edition())
    with _ALONE, uncollected():
        return [kept(shared, one) or _made(shared, one) for one in people]


_ALONE = Lock()  # a worker may call from several threads, and a parser serves one of them


_BASES: dict[Shared, Base] = {}


def ready(shared: Shared, loaded: Loaded) -> None:
    """Keeps what all people share, for this process and those that are split off from it; their files are read already."""
    _BASES.clear()
    _BASES[shared] = base_of(loaded)


def _base(shared: Shared) -> Base:
    if shared not in _BASES:
        ready(shared, read(shared.texts))
    return _BASES[shared]


def _made(shared: Shared, wanted: Wanted) -> Outcome:
    base, stamp = _base(shared), made_from(shared, wanted)
    person = compile_person(base, wanted.pieces)
    findings = tuple(plain(person.diagnostics, person.sources))
    title = wanted.name if person.athlete is None else person.athlete.title
    if person.athlete is None or person.has_errors:
        return Outcome(wanted.name, title, "failed", stamp, findings=findings)
    begun = list(_asked_for(shared, base, person.fittings))
    books = _logbooks(begun, base.project.programs, person.logs) if person.logs else []
    fittings = [fitting for fitting, _ in books] if person.logs else begun
    if not fittings:
        return Outcome(wanted.name, title, "none", stamp, findings=findings)
    contents = _together(
        pack(fitting, shared.printing, book) for fitting, book in zip_longest(fittings, [book for _, book in books])
    )
    store = open_store(shared.to)
    written = write_folder(store, wanted.name, read_record(store, wanted.name), contents)
    rows = [as_json(row_of(fitting, person.diagnostics)) for fitting in fittings]
    write_record(store, wanted.name, Record(stamp, written.files, list(findings), rows))
    same = len(contents) - len(written.changed)
    return Outcome(
        wanted.name,
        title,
        "made",
        stamp,
        written.changed,
        written.removed,
        written.touched,
        same,
        findings,
        tuple(rows),
    )


def _logbooks(
    fittings: Iterable[Fitting], programs: Sequence[Program], logs: Sequence[Log]
) -> list[tuple[Fitting, Logbook]]:
    """What each asks for today, and what was logged of it."""
    from ...compiler.logbook import logbook_of  # most crews have no log yet
    from ...compiler.today import today

    books = [logbook_of(one, programs, logs) for one in fittings]
    return [(today(book), book) for book in books]


def _together(packs: Iterable[Mapping[str, str | bytes]]) -> dict[str, str | bytes]:
    """The files of all programs of a person. Session `b-c` of program `a` names one as session `c` of `a-b` does."""
    contents: dict[str, str | bytes] = {}
    for files in packs:
        for name, text in files.items():
            stem, _, ending = name.rpartition(".")
            contents[f"{stem}-2.{ending}" if name in contents else name] = text
    return contents


def _asked_for(shared: Shared, base: Base, fittings: Iterable[Fitting]) -> Iterator[Fitting]:
    """Of the programs by which somebody trains those that were asked for, in the revision that was."""
    for fitting in fittings:
        program = fitting.written
        if shared.program is not None and program.name != shared.program:
            continue
        if shared.revision in (None, program.revision):
            yield fitting
            continue
        other = [one for one in base.project.programs if (one.name, one.revision) == (program.name, shared.revision)]
        yield from (fit(one, fitting.athlete) for one in other)
