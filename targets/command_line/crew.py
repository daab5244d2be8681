"""`setwright build --for`: a pack for each person who is meant, and an overview of them for the coach."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterable, Iterator
from itertools import islice

import attrs

from ...compiler.disk import Files, Unreadable, files_at
from ...compiler.groups import members
from ...compiler.person import Base, base_of, check_base, compile_person
from ...compiler.project import Loaded, load
from ...compiler.roster import Roster, groups_of, shared_texts
from ...grammar import nodes
from ...grammar.cleaning import expanded
from ...grammar.diagnostic import Diagnostic
from ...grammar.source import Source
from ..crew import workers
from ..crew.overview import write_overview
from ..crew.partition import Outcome, Shared, Wanted, kept
from ..crew.record import Record, Told, edition, is_whole, key, piece_of, plain, read_record, told, write_record
from ..crew.store import Store, Unreachable, open_store
from ..overview import row_without
from .crew_report import MOST_NAMES, Report, tell
from .printing import printing_of
from .progress import watched
from .sources import places
from .terminal import Refusal, errors_counted, has_errors, suggestion, tell_findings

EVERYBODY = "all"
PARTITION = 25  # people who are built at once by one process
ALONE = 2 * PARTITION  # as many are built sooner than other processes have started


def run(options: argparse.Namespace) -> int:
    """Make the packs that are not as they should be, and tell what changed."""
    try:
        files = files_at(*places(options.source, options.project))
        return _build(options, files)
    except (Unreadable, Unreachable, workers.Unbuildable) as reason:
        raise Refusal(str(reason)) from None
    except KeyboardInterrupt:
        raise Refusal("stopped. Every file is whole, and the next build goes on from here.", 130) from None


def _build(options: argparse.Namespace, files: Files) -> int:
    roster = Roster(files.fetch)
    loaded = load(list(files.paths), roster.fetch, known=files.paths)
    store = open_store(options.to)
    findings, common = _findings_of_base(loaded, roster, store)
    texts = Texts(files, roster, loaded)
    shown = [*texts.findings("", findings), *_strangers(loaded, roster, texts)]
    if has_errors(shown):
        tell_findings(shown, options, sys.stderr)
        print(f"{errors_counted(shown)}: nothing is written.", file=sys.stderr)
        return 1
    names = _names(options, roster, loaded)
    shared = _shared(options, loaded)
    report = Report(names, everything=options.format == "json")
    for outcome in _outcomes(options, shared, roster, names):
        report.add(outcome)
    _finish(store, report, common, findings)
    tell_findings([*shown, *report.findings(texts.findings)], options, sys.stderr)
    tell(report, options, store)
    return 1 if report.failed else 0


def _findings_of_base(loaded: Loaded, roster: Roster, store: Store) -> tuple[list[Told], str]:
    """What is wrong with all but the people, and what stands for all that it comes from; from the record if that is known."""
    athletes = [part for name, of_name in roster.athletes.items() for part in (name, *(one.path for one in of_name))]
    texts = [part for item in sorted(roster.base.items()) for part in item]
    common = key(*texts, *sorted(roster.things), *athletes)
    record = read_record(store, "")
    if record is not None and record.made_from.startswith(common):
        return record.findings, common
    return plain(check_base(loaded, roster)), common


def _strangers(loaded: Loaded, roster: Roster, texts: Texts) -> Iterator[Diagnostic]:
    """What is wrong with logs of those who are no athletes of the project."""
    base: Base | None = None
    for name in roster.strangers():
        base = base or base_of(loaded)
        person = compile_person(base, roster.pieces(name))
        yield from texts.findings(name, plain(person.diagnostics, person.sources))


@attrs.frozen
class Texts:
    """The texts in which findings are told, each under the name by which the coach knows the file."""

    files: Files
    roster: Roster
    loaded: Loaded

    def findings(self, name: str, findings: Iterable[Told]) -> list[Diagnostic]:
        """Findings on one athlete, or with "" on what all share, at the lines of today."""
        return told(findings, Sources(self, name))


@attrs.define
class Sources:
    """For the number of a piece about an athlete, or the path of a file, its text."""

    texts: Texts
    name: str
    known: dict[int | str, Source] = attrs.field(factory=dict)

    def __call__(self, which: int | str) -> Source:
        if which not in self.known:
            self.known[which] = self._source(which)
        return self.known[which]

    def _source(self, which: int | str) -> Source:
        shown = self.texts.files.shown
        if isinstance(which, str):
            piece = piece_of(which, lambda path: self.texts.loaded.files[path].source.text)
            return Source(shown(piece.name), piece.text, piece.before)
        about = self.texts.roster.pieces(self.name)[which]
        return expanded(about.source(shown(about.path)), [])


def _names(options: argparse.Namespace, roster: Roster, loaded: Loaded) -> tuple[str, ...]:
    """The athletes who are meant, in the order in which they were named."""
    groups = groups_of(loaded)
    known = dict.fromkeys(group.name for group in groups) | dict.fromkeys(roster.athletes)
    found: dict[str, None] = {}
    for name in options.people:
        if name == EVERYBODY and name not in known:
            found |= dict.fromkeys(roster.athletes)
        elif name in known:
            found |= dict.fromkeys(members(groups, name))
        elif not known:
            raise Refusal(f"{options.source} declares no athlete.")
        else:
            raise Refusal(f"there is no athlete or group `{name}` in {options.source}. {_near(name, known)}")
    return tuple(name for name in found if name in roster.athletes)


def _near(name: str, known: Iterable[str]) -> str:
    """What was meant, or where nothing is near all that is known, if that can be read."""
    names = list(known)
    near = suggestion(name, names)
    return near if len(names) <= MOST_NAMES or near.startswith("Did") else f"There are {len(names):,}."


def _shared(options: argparse.Namespace, loaded: Loaded) -> Shared:
    programs = [
        placed.node
        for file in loaded.files.values()
        for placed in file.declarations
        if isinstance(placed.node, nodes.Program)
    ]
    known = {str(program.name) for program in programs}
    if not known:
        raise Refusal(f"{options.source} declares no program.")
    if options.program is not None and options.program not in known:
        raise Refusal(
            f"there is no program `{options.program}` in {options.source}. {suggestion(options.program, sorted(known))}"
        )
    address = options.to if "://" in options.to else os.path.abspath(options.to)
    printing = printing_of(options)
    chosen = (str(options.program), str(options.revision), repr(printing))
    texts = shared_texts(loaded)
    made_from = key(*chosen, *(part for item in texts.items() for part in item))
    return Shared(texts, made_from, address, options.program, options.revision, edition(), printing)


def _outcomes(options: argparse.Namespace, shared: Shared, roster: Roster, names: tuple[str, ...]) -> Iterator[Outcome]:
    """What became of each person: first those whose pack is as it should be, then the others as they are done."""
    if options.scheduler is not None:
        people = (Wanted(name, roster.pieces(name)) for name in names)
        made = workers.on_cluster(shared, _partitions(people, PARTITION), options.scheduler)
        yield from watched(made, len(names))
        return
    waiting: list[str] = []
    for name in names:
        outcome = kept(shared, Wanted(name, roster.pieces(name)))
        if outcome is None:
            waiting.append(name)
        else:
            yield outcome
    people = (Wanted(name, roster.pieces(name)) for name in waiting)
    jobs = min(options.jobs or workers.cores(), -(-len(waiting) // PARTITION))
    if jobs <= 1 or (len(waiting) <= ALONE and not options.jobs):
        made = workers.here(shared, _partitions(people, 1))
    else:
        made = workers.in_processes(shared, _partitions(people, PARTITION), jobs)
    yield from watched(made, len(waiting))


def _partitions(people: Iterable[Wanted], size: int) -> Iterator[tuple[Wanted, ...]]:
    waiting = iter(people)
    while partition := tuple(islice(waiting, size)):
        yield partition


def _finish(store: Store, report: Report, common: str, findings: list[Told]) -> None:
    """The overview, where it may have changed, and the record of the whole."""
    made_from = f"{common} {report.fingerprint}"
    before = read_record(store, "")
    if before is not None and before.made_from == made_from and is_whole(store, "", before):
        return
    files = dict(before.files) if before else {}
    if len(report.names) > 1:
        rows = {
            name: row_without(name, outcome.title, [one[2] for one in outcome.findings if one[1] == "error"])
            for name, outcome in report.without.items()
        }
        written = write_overview(store, before, report.names, rows)
        report.overview = written.changed
        report.touched += written.touched
        files = written.files
    write_record(store, "", Record(made_from, files, findings))
