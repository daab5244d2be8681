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
from ...compiler.project import Loaded, load
from ...compiler.roster import Roster, groups_of, shared_texts
from ...grammar import nodes
from ...grammar.cleaning import expanded
from ...grammar.diagnostic import Diagnostic
from ...grammar.source import Source
from ..crew import workers
from ..crew.outcome import Outcome, Shared, Wanted, as_it_was, kept
from ..crew.record import Record, Told, edition, is_whole, key, read_record, write_record
from ..crew.seen import Seen
from ..crew.store import Store, Unreachable, open_store
from ..crew.told import piece_of, plain, told
from ..crew.unchanged import Inputs, asked_for, before
from ..printing import Printing
from ..templates import TemplateTrouble
from .crew_report import MOST_NAMES, Report, tell
from .printing import printing_of
from .progress import watched
from .sources import places
from .terminal import Refusal, errors_counted, has_errors, suggestion, tell_findings

EVERYBODY = "all"
PARTITION = 25  # people who are built at once by one process
ALONE = 2 * PARTITION  # as many are built sooner than other processes have started


def run(options: argparse.Namespace, seen: Seen) -> int:
    """Make the packs that are not as they should be, and tell what changed; `seen` gives those that are as they were made."""
    try:
        files = files_at(*places(options.source, options.project))
        return _build(options, files, seen)
    except (Unreadable, Unreachable, workers.Unbuildable, TemplateTrouble) as reason:
        raise Refusal(str(reason)) from None
    except KeyboardInterrupt:
        raise Refusal("stopped. Every file is whole, and the next build goes on from here.", 130) from None


def _build(options: argparse.Namespace, files: Files, seen: Seen) -> int:
    store = open_store(options.to)
    inputs = Inputs(files.fetch)
    paths = tuple(
        path for path in files.paths if path.endswith(".coach") or not _is_below(files.shown(path), options.to)
    )
    files = attrs.evolve(files, fetch=inputs.fetch, paths=paths)
    roster = Roster(files.fetch)
    printing = printing_of(options)
    told = (options.program, str(options.revision), *options.people, "", *printing.parts)
    asked = asked_for(told, files.paths)
    last = _unchanged(options, store, inputs, asked, seen)
    if last is not None:
        return _told_again(options, *last, Texts(files, roster), store)
    loaded = load(list(files.paths), roster.thin, known=files.paths)
    findings, common = _findings_of_base(files, roster, store)
    texts = Texts(files, roster)
    strangers = _strangers(loaded, roster, texts)
    shown = [*texts.findings("", findings), *strangers]
    if has_errors(shown):
        tell_findings(shown, options, sys.stderr)
        print(f"{errors_counted(shown)}: nothing is written.", file=sys.stderr)
        return 1
    names = _names(options, roster, loaded)
    shared = _shared(options, loaded, printing)
    report = Report(names, everything=options.format == "json")
    for outcome in _outcomes(options, shared, loaded, roster, names=names, seen=seen):
        report.add(outcome)
    goes_on = not strangers and not report.without
    known = Record(
        "", {}, findings, [], *((asked, list(names), list(map(list, inputs.digests.items()))) if goes_on else ())
    )
    _finish(store, report, common, known)
    tell_findings([*shown, *report.findings(texts.findings)], options, sys.stderr)
    tell(report, options, store)
    return 1 if report.failed else 0


def _is_below(path: str, folder: str) -> bool:
    """Whether a file stands where the packs are made: a log there is a blank one, of a build that may have been stopped."""
    return os.path.abspath(path).startswith(os.path.join(os.path.abspath(folder), ""))


def _unchanged(
    options: argparse.Namespace, store: Store, inputs: Inputs, asked: str, seen: Seen
) -> tuple[Record, Report] | None:
    """What a build that makes nothing tells; None where anything may be otherwise than it was, or workers are to look."""
    if options.scheduler is not None or "://" in options.to:
        return None
    record = before(store, inputs, asked)
    if record is None:
        return None
    report = Report(tuple(record.names), everything=options.format == "json")
    there = seen()
    for name in record.names:
        outcome = as_it_was(store, name) if there is None else there.get(name)
        if outcome is None:
            return None
        report.add(outcome)
    return (record, report) if record.made_from.endswith(f" {report.fingerprint}") else None


def _told_again(options: argparse.Namespace, record: Record, report: Report, texts: Texts, store: Store) -> int:
    for path, _ in record.inputs:
        texts.roster.fetch(path)
    tell_findings([*texts.findings("", record.findings), *report.findings(texts.findings)], options, sys.stderr)
    tell(report, options, store)
    return 0


def _findings_of_base(files: Files, roster: Roster, store: Store) -> tuple[list[Told], str]:
    """What is wrong with all but the people, and what stands for all that it comes from; from the record if that is known."""
    athletes = [part for name, of_name in roster.athletes.items() for part in (name, *(one.path for one in of_name))]
    texts = [part for item in sorted(roster.base.items()) for part in item]
    common = key(*texts, *sorted(roster.things), *athletes)
    record = read_record(store, "")
    if record is not None and record.made_from.startswith(common):
        return record.findings, common
    from ...compiler.person import check_base

    return plain(check_base(load(list(files.paths), roster.fetch, known=files.paths), roster)), common


def _strangers(loaded: Loaded, roster: Roster, texts: Texts) -> list[Diagnostic]:
    """What is wrong with logs of those who are no athletes of the project."""
    strangers = list(roster.strangers())
    if not strangers:
        return []
    from ...compiler.person import base_of, compile_person

    base = base_of(loaded)
    people = [(name, compile_person(base, roster.pieces(name))) for name in strangers]
    return [found for name, one in people for found in texts.findings(name, plain(one.diagnostics, one.sources))]


@attrs.frozen
class Texts:
    """The texts in which findings are told, each under the name by which the coach knows the file."""

    files: Files
    roster: Roster

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
            piece = piece_of(which, self.texts.roster.left)
            return Source(shown(piece.name), piece.text, piece.before)
        about = self.texts.roster.pieces(self.name)[which]
        return expanded(about.source(shown(about.path)), [])


def _names(options: argparse.Namespace, roster: Roster, loaded: Loaded) -> tuple[str, ...]:
    """The athletes who are meant, in the order in which they were named."""
    groups = (*roster.groups.values(), *groups_of(loaded))
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


def _shared(options: argparse.Namespace, loaded: Loaded, printing: Printing) -> Shared:
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
    chosen = (str(options.program), str(options.revision), "", *printing.parts)
    texts = shared_texts(loaded)
    made_from = key(*chosen, *(part for item in texts.items() for part in item))
    return Shared(texts, made_from, address, options.program, options.revision, edition(), printing)


def _outcomes(
    options: argparse.Namespace,
    shared: Shared,
    loaded: Loaded,
    roster: Roster,
    *,
    names: tuple[str, ...],
    seen: Seen,
) -> Iterator[Outcome]:
    """What became of each person: first those whose pack is as it should be, then the others as they are done."""
    if options.scheduler is not None:
        people = (Wanted(name, roster.pieces(name)) for name in names)
        made = workers.on_cluster(shared, _partitions(people, PARTITION), options.scheduler)
        yield from watched(made, len(names))
        return
    from ..crew.partition import ready  # read while the packs are looked at

    waiting: list[str] = []
    there = seen()
    for name in names:
        outcome = kept(shared, Wanted(name, roster.pieces(name)), there)
        if outcome is None:
            waiting.append(name)
        else:
            yield outcome
    if not waiting:
        return
    ready(shared, loaded)
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


def _finish(store: Store, report: Report, common: str, known: Record) -> None:
    """The overview, where it may have changed, and the record of the whole."""
    record = attrs.evolve(known, made_from=f"{common} {report.fingerprint}")
    before = read_record(store, "")
    if before is not None and before.made_from == record.made_from and is_whole(store, "", before):
        if before != attrs.evolve(record, files=before.files):
            write_record(store, "", attrs.evolve(record, files=before.files))
        return
    files = dict(before.files) if before else {}
    if len(report.names) > 1:
        from ..crew.overview import write_overview
        from ..overview import row_without

        rows = {
            name: row_without(name, outcome.title, [one[2] for one in outcome.findings if one[1] == "error"])
            for name, outcome in report.without.items()
        }
        written = write_overview(store, before, report.names, report.rows, rows)
        report.overview = written.changed
        report.touched += written.touched
        files = written.files
    write_record(store, "", attrs.evolve(record, files=files))
