"""A few people built at once: the one function that does it, on this machine or on any other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from threading import Lock
from typing import Literal

import attrs

from ...compiler.fitting import Fitting, fit
from ...compiler.logbook import logbook_of
from ...compiler.person import Base, compile_base, compile_person
from ...compiler.pipeline import uncollected
from ...compiler.roster import Piece, digest
from ...compiler.today import today
from ...grammar.parse import ended
from ..overview import as_json, row_of
from ..pack import pack
from ..printing import USUAL, Printing
from .record import Record, Told, edition, is_whole, key, plain, read_record, write_folder, write_record
from .store import open_store


class OtherEdition(Exception):
    """The machine that was to build has another Setwright than the one that asked it to."""


@attrs.frozen
class Shared:
    """What all people of a build share: the files without them, and what was asked for."""

    texts: Mapping[str, bytes] = attrs.field(repr=False)
    made_from: str  # stands for the texts, and for what was asked for
    to: str
    program: str | None
    revision: int | None
    edition: str
    printing: Printing = USUAL

    def __hash__(self) -> int:
        return hash(self.made_from)


@attrs.frozen
class Wanted:
    """A person to be built: the name, and all that is written about them."""

    name: str
    pieces: tuple[Piece, ...] = attrs.field(repr=False)


@attrs.frozen
class Outcome:
    """What became of a person: made anew, kept as it was, failed because of errors, or in no program that was asked for.

    `changed` and `removed` are files by their names in the person's folder, `same` how many stay as they were; `touched`
    are those of the changed that somebody else had changed before.
    """

    name: str
    title: str
    what: Literal["made", "kept", "failed", "none"]
    made_from: str
    changed: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    touched: tuple[str, ...] = ()
    same: int = 0
    findings: tuple[Told, ...] = ()


def build_partition(shared: Shared, people: Iterable[Wanted]) -> list[Outcome]:
    """The packs of some people, written to where they are wanted; those that are as they should be are left alone."""
    if shared.edition != edition():
        raise OtherEdition(edition())
    with _ALONE, uncollected():
        return [kept(shared, one) or _made(shared, one) for one in people]


_ALONE = Lock()  # a worker may call from several threads, and a parser serves one of them


def made_from(shared: Shared, wanted: Wanted) -> str:
    """Stands for all that a person's pack is made from. Where in its file a piece stands takes no part."""
    parts = [part for piece in wanted.pieces for part in (piece.path, ended(piece.text))]
    return key(shared.made_from, wanted.name, *parts)


def kept(shared: Shared, wanted: Wanted) -> Outcome | None:
    """A pack that is there as it should be, None where it must be made."""
    store = open_store(shared.to)
    record = read_record(store, wanted.name)
    if record is None or record.made_from != made_from(shared, wanted) or not is_whole(store, wanted.name, record):
        return None
    return Outcome(wanted.name, "", "kept", record.made_from, same=len(record.files), findings=tuple(record.findings))


@lru_cache(maxsize=2)
def _base(shared: Shared) -> Base:
    return compile_base(shared.texts)


def _made(shared: Shared, wanted: Wanted) -> Outcome:
    base, stamp = _base(shared), made_from(shared, wanted)
    person = compile_person(base, wanted.pieces)
    findings = tuple(plain(person.diagnostics, person.sources))
    title = wanted.name if person.athlete is None else person.athlete.title
    if person.athlete is None or person.has_errors:
        return Outcome(wanted.name, title, "failed", stamp, findings=findings)
    begun = _asked_for(shared, base, person.fittings)
    logs, programs = person.logs, base.project.programs
    fittings = [today(logbook_of(one, programs, logs)) if logs else one for one in begun]
    if not fittings:
        return Outcome(wanted.name, title, "none", stamp, findings=findings)
    contents = _together(pack(_with_source(fitting, wanted), shared.printing) for fitting in fittings)
    store = open_store(shared.to)
    written = write_folder(store, wanted.name, read_record(store, wanted.name), contents)
    rows = [as_json(row_of(fitting, person.diagnostics, source_of(fitting, wanted))) for fitting in fittings]
    write_record(store, wanted.name, Record(stamp, written.files, list(findings), rows))
    same = len(contents) - len(written.changed)
    return Outcome(wanted.name, title, "made", stamp, written.changed, written.removed, written.touched, same, findings)


def source_of(fitting: Fitting, wanted: Wanted) -> str:
    """Stands for what the sheets of a person tell: the program, and the words about the person, wherever they are written."""
    return digest(fitting.written.fingerprint, *(ended(piece.text) for piece in wanted.pieces))[:12]


def _with_source(fitting: Fitting, wanted: Wanted) -> Fitting:
    program = attrs.evolve(fitting.program, fingerprint=source_of(fitting, wanted))
    return attrs.evolve(fitting, program=program)


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
