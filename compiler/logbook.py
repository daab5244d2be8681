"""The logbook: where an athlete stands in each movement, read from the log session by session.

The program as it was fitted to the athlete says what the first session asks for. Every logged session is judged, and leads by
the rule of its entry to the next standing, so that at the end each entry has what it asks for next, and all the steps that
led there. In an easier week, counted from the day on which the athlete starts, nothing advances and nothing is missed.

A session logged against an older revision is read against that: what a movement has come to goes over to the newer one by
the names of its axes.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from datetime import date
from fractions import Fraction
from statistics import median

import attrs

from .clock import entry_clock, full_sets, round_rest_time, session_time
from .course import Means, course_of, dose_at
from .easier import changes_in
from .fitting import Fitting, fit, led_back
from .implements import bands
from .judging import Asked, Shortfall, climbed, is_lighter, measured, shortfall
from .load_scale import loads_of
from .means import means_of
from .model import Amrap, Block, Dose, Entry, Log, LoggedEntry, LoggedSession, Program, Session, Value
from .progression import Course, Standing, Turn, after
from .quantity import Figure

LEARNED = 3  # sessions from which on the log corrects the plan


@attrs.frozen(eq=False, repr=False, match_args=False)
class Step(Value):
    """A logged movement, judged: what was asked for, what fell short of it (None: nothing), and where that led.

    `turn` is None where nothing is counted: in an easier week, and for what has no rule.
    """

    session: LoggedSession
    done: LoggedEntry
    asked: Asked
    short: Shortfall | None
    turn: Turn | None
    easier: bool


@attrs.frozen(eq=False, repr=False, match_args=False)
class Stands(Value):
    """An entry of a fitted program, where the athlete stands in it, and every step that led there.

    `totals` are the repetitions of all `amrap` sets together in each session with this load and on this rung. `band` is the
    one of the `bands` that it is done with by now, None where it is done with none.
    """

    session: Session
    block: Block
    entry: Entry
    course: Course | None
    standing: Standing | None
    totals: tuple[int, ...]
    steps: tuple[Step, ...]
    band: str | None = None
    bands: tuple[str, ...] = ()

    @property
    def best(self) -> int | None:
        """The most repetitions so far of all `amrap` sets together."""
        return max(self.totals, default=None)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Logbook(Value):
    """Where an athlete stands in a program; `sessions` are all that were logged of it, in the order of their dates.

    `planned` has the seconds that each asked for on the day, None for a short version and in an easier week.
    """

    fitting: Fitting
    sessions: tuple[LoggedSession, ...]
    planned: tuple[Fraction | None, ...]
    stands: tuple[Stands, ...]


def read_logbook(fitting: Fitting, logs: Iterable[Log], earlier: Sequence[Fitting] = ()) -> Logbook:
    """The logbook of an athlete in a program; `earlier` are older revisions of it fitted to the same athlete."""
    revisions = {one.program.revision: one for one in (*earlier, fitting)}
    told = [
        (session, revisions.get(log.revision or fitting.program.revision, fitting))
        for log in logs
        if log.athlete == fitting.athlete.name and log.program == fitting.program.name
        for session in log.sessions
    ]
    told.sort(key=lambda pair: (pair[0].date, pair[0].span.start))
    books = {number: _Book(one) for number, one in revisions.items()}
    now: _Book | None = None
    planned: list[Fraction | None] = []
    for session, of in told:
        book = books[of.program.revision]
        if now is not None and book is not now:
            book.go_on_from(now)
        now = book
        planned.append(book.planned(session))
        book.enter(session)
    last = books[fitting.program.revision]
    if now is not None and now is not last:
        last.go_on_from(now)
    return Logbook(fitting, tuple(session for session, _ in told), tuple(planned), last.stands())


def logbook_of(fitting: Fitting, programs: Collection[Program], logs: Collection[Log]) -> Logbook:
    """The logbook of an athlete in a program; of the `programs` the other revisions of it are those it may be logged by.

    A program that leads back to another does so from where their logs of that left the athlete.
    """
    fitting = _from_where_left(fitting, programs, logs)
    named = [log for log in logs if log.athlete == fitting.athlete.name and log.program == fitting.program.name]
    logged = {log.revision for log in named} - {None, fitting.program.revision}
    others = [one for one in programs if one.name == fitting.program.name and one.revision in logged]
    return read_logbook(fitting, named, [fit(one, fitting.athlete) for one in others])


def _from_where_left(fitting: Fitting, programs: Collection[Program], logs: Collection[Log]) -> Fitting:
    """The fitting of a program that leads back to another from what the logs of that came to; any other as it is."""
    back, athlete = fitting.written.returns, fitting.athlete
    if back is None or back.normal is None:
        return fitting
    if not any(log.athlete == athlete.name and log.program == back.to for log in logs):
        return fitting
    from .today import today  # it is made of logbooks

    return led_back(fitting.written, today(logbook_of(fit(back.normal, athlete), programs, logs)))


class _Place:
    """An entry, its course, and where the athlete stands in it by now."""

    def __init__(self, program: Program, session: Session, block: Block, entry: Entry, course: Course | None) -> None:
        self.session, self.block, self.entry, self.course = session, block, entry, course
        self.standing = course.start if course is not None else None
        self.totals: tuple[int, ...] = ()
        self.steps: list[Step] = []
        self._rest = round_rest_time(program, block)
        self._seconds: dict[int, Fraction] = {}
        self._asked: dict[object, Asked] = {}
        self._last: tuple[Standing | None, tuple[int, ...], Asked] | None = None
        self.band: str | None = None
        self.bands: tuple[str, ...] = ()
        begun = next((made.band for _, made in entry.fitted.made if made.band), None) if entry.fitted else None
        if begun is not None and program.athlete is not None:
            self.bands = tuple(made.band for made in bands(program.athlete, entry.movement))
            self.take_band(begun)

    def seconds(self) -> Fraction:
        """Seconds of the entry as it is asked for by now."""
        asked = self.asked()
        key = id(asked)  # which is kept below as long as the place
        if key not in self._seconds:
            entry = attrs.evolve(self.entry, dose=asked.dose)
            clock = entry_clock(self.block, entry, self._rest)
            sets, circuit = len(clock.sets), self.block.rounds is not None
            self._seconds[key] = clock.circuit_seconds(sets) if circuit else clock.seconds(sets)
        return self._seconds[key]

    def asked(self) -> Asked:
        """What the entry asks for now; worked out once for each standing, as many sessions ask for the same."""
        now = self.standing, self.totals
        if self._last is None or self._last[0] is not now[0] or self._last[1] is not now[1]:
            standing, best = now[0], max(self.totals, default=None)
            known = (best if standing is None else (standing.figures, standing.expected, best), self.band)
            if known not in self._asked:
                self._asked[known] = asked_now(self)
            self._last = (*now, self._asked[known])
        return self._last[2]

    def figure(self, axis: str) -> Figure | None:
        """What an axis has come to."""
        return None if self._at(axis) is None or self.standing is None else self.standing.figures[self._at(axis) or 0]

    def put(self, axis: str, figure: Figure) -> None:
        """What an axis has come to by the word of the log."""
        place = self._at(axis)
        if place is not None and self.standing is not None:
            figures = self.standing.figures
            self.standing = attrs.evolve(self.standing, figures=(*figures[:place], figure, *figures[place + 1 :]))

    def step_to(self, axis: str, figure: Figure) -> bool:
        """Move an axis to a figure that it would have come to, with all that goes back when it takes a step."""
        place = self._at(axis)
        if place is None or self.course is None:
            return False
        self.put(axis, figure)
        self._restart(place, self.course)
        return True

    def take_band(self, band: str) -> None:
        """Go on with another band; there is nothing heavier than the strongest."""
        self.band, self._last = band, None
        if self.course is not None:
            self.course = attrs.evolve(self.course, loads=() if band == self.bands[-1] else None)

    def step_to_band(self, band: str) -> bool:
        """Move to a band to which a step would have led, with all that goes back when that is taken."""
        self.take_band(band)
        place = self._at("load")
        if place is None or self.course is None:
            return False
        self._restart(place, self.course)
        return True

    def _restart(self, place: int, course: Course) -> None:
        """What goes back when the axis at a place takes a step."""
        for other in course.tracks[place].restarts:
            start = course.tracks[other].start
            if start is not None:
                self.put(course.tracks[other].name, start)
        if course.tracks[place].kind.afresh and self.standing is not None:
            self.totals = ()
            self.standing = attrs.evolve(self.standing, expected=course.expected)

    def is_afresh(self, axis: str) -> bool:
        """Whether repetitions of before tell nothing once an axis has moved."""
        place = self._at(axis)
        return place is not None and self.course is not None and self.course.tracks[place].kind.afresh

    def counts_otherwise(self, other: _Place) -> bool:
        """Whether one tells its load as a share of a maximum that nobody knows, and the other as a weight."""
        units = [place.course.unit for place in (self, other) if place.course is not None]
        return units.count("%") == 1

    def _at(self, axis: str) -> int | None:
        tracks = self.course.tracks if self.course is not None else ()
        return next((place for place, track in enumerate(tracks) if track.name == axis), None)


class _Book:
    """A fitted program with a place for each entry."""

    def __init__(self, fitting: Fitting) -> None:
        self.fitting, self.program = fitting, fitting.program
        assert self.program.athlete is not None
        means = means_of(self.program.athlete)
        self.places = [
            _Place(self.program, session, block, entry, _course(self.program, block, entry, means(entry.movement)))
            for session in self.program.sessions
            for block in session.blocks
            for entry in block.entries
        ]
        self._by_name: dict[tuple[str, str], _Place] = {}
        for place in self.places:
            for name in (place.session.name, ""):
                self._by_name.setdefault((name, place.entry.movement.name), place)
        self._around = {
            session.name: session_time(self.program, session) - self._work(session.name)
            for session in self.program.sessions
        }

    def planned(self, session: LoggedSession) -> Fraction | None:
        """Seconds of a session as it is asked for by now; None for a short version, and in an easier week."""
        if session.short is not None or session.session not in self._around or self._changes(session.date):
            return None
        return self._around[session.session] + self._work(session.session)

    def _work(self, session: str) -> Fraction:
        """Seconds of the entries of a session, without what lies between them."""
        return sum((one.seconds() for one in self.places if one.session.name == session), Fraction(0))

    def enter(self, session: LoggedSession) -> None:
        """Judge every movement of a logged session, and move on."""
        easier = bool(self._changes(session.date)) or self.program.returns is not None
        for done in session.entries:
            place = self._place(session.session, done.movement)
            if place is not None:
                _enter(place, session, done, easier=easier)

    def go_on_from(self, other: _Book) -> None:
        """Take over what each movement has come to in another revision, by the names of its axes."""
        for place in self.places:
            before = other._place(place.session.name, place.entry.movement.name)
            if before is None or before.standing is None or place.standing is None:
                continue
            for track in before.course.tracks if before.course is not None else ():
                figure = before.figure(track.name)
                if figure is not None and not (track.name == "load" and place.counts_otherwise(before)):
                    place.put(track.name, figure)
            place.standing = attrs.evolve(place.standing, expected=before.standing.expected)
            place.totals, place.steps = before.totals, list(before.steps)
            if before.band in place.bands:
                place.take_band(before.band or "")

    def stands(self) -> tuple[Stands, ...]:
        return tuple(map(_stands, self.places))

    def _place(self, session: str, movement: str) -> _Place | None:
        """The entry of a movement in a session; of another session, where it was done along with this one."""
        return self._by_name.get((session, movement)) or self._by_name.get(("", movement))

    def _changes(self, day: date) -> bool:
        week = week_of(self.program, day)
        return week is not None and bool(changes_in(self.program, week))


def _stands(one: _Place) -> Stands:
    return Stands(
        one.session, one.block, one.entry, one.course, one.standing, one.totals, tuple(one.steps), one.band, one.bands
    )


def pace_of(logbook: Logbook, session: str | None = None) -> Fraction | None:
    """The median of logged to planned time of a session in full, or of all of them; None with fewer than three."""
    both = zip(logbook.sessions, logbook.planned, strict=True)
    ratios = [
        one.took.base / planned
        for one, planned in both
        if session in (None, one.session) and one.took is not None and planned
    ]
    return median(ratios) if len(ratios) >= LEARNED else None


def week_of(program: Program, day: date) -> int | None:
    """The week of training in which a day lies, counted from 1, for the athlete whom the program was fitted to."""
    starts = program.athlete.starts if program.athlete is not None else None
    return None if starts is None or day < starts else (day - starts).days // 7 + 1


def _course(program: Program, block: Block, entry: Entry, means: Means | None) -> Course | None:
    return course_of(program, block, entry, means) if means is not None and entry.dose.sets else None


def asked_now(place: _Place | Stands) -> Asked:
    """What an entry asks for where the athlete stands in it."""
    entry, course, standing = place.entry, place.course, place.standing
    dose = entry.dose if course is None or standing is None else dose_at(entry, course, standing)
    rung = entry.fitted.rung if entry.fitted is not None else None
    figures: dict[str, Figure | None] = {}
    if course is not None and standing is not None:
        figures = {track.name: figure for track, figure in zip(course.tracks, standing.figures, strict=True)}
        if figures.get("rung") is not None:
            rung = entry.movement.rungs[int(figures["rung"] or 0)].name
    circuit = place.block.rounds is not None
    return Asked(
        entry.movement,
        dose,
        full_sets(place.block, entry) if circuit else len(dose.sets),
        _lifted(entry, course, dose),
        place.band,
        place.bands,
        rung,
        max(place.totals, default=None),
        _exact(figures.get("distance")),
        _exact(figures.get("time")),
    )


def _lifted(entry: Entry, course: Course | None, dose: Dose) -> Fraction | None:
    """What is lifted in the heaviest set, in kg."""
    masses = [load.base for load in loads_of(dose) if load.dimension == "mass"]
    if masses:
        return Fraction(course.lifted(max(masses))) if course is not None else max(masses)
    made = (
        [making.load for _, making in entry.fitted.made if making.load is not None] if entry.fitted is not None else []
    )
    return max(made, default=None)


def _exact(figure: Figure | None) -> Fraction | None:
    return None if figure is None else Fraction(figure)


def _enter(place: _Place, session: LoggedSession, done: LoggedEntry, *, easier: bool) -> None:
    """Judge a movement, and move on by the rule of its entry."""
    asked = place.asked()
    short = turn = None
    if not easier:
        meant = place.asked() if _went_ahead(place, asked, done) else asked
        short = shortfall(meant, done, short=session.short is not None)
    if not easier and place.course is not None and place.standing is not None:
        if short is None:
            _learn(place, asked, done)
        counted = [result for result in done.results if isinstance(result, int)]
        turn = after(place.course, place.standing, short is None, min(counted, default=None))
        place.standing = turn.standing
        _next_band(place, turn)
        _remember(place, sum(counted), turn)
    place.steps.append(Step(session, done, asked, short, turn, easier))


def _went_ahead(place: _Place, asked: Asked, done: LoggedEntry) -> bool:
    """Whether more was done: a heavier load, a stronger band or a higher rung is a step, with all that goes back at one."""
    ahead = False
    if done.load is not None and (asked.load is None or is_lighter(asked.load, done.load.base)):
        ahead = place.step_to("load", done.load.base)
    if climbed(place.bands, asked.band, done.band) > 0:
        ahead = place.step_to_band(done.band or "")
    rungs = [rung.name for rung in place.entry.movement.rungs]
    if climbed(rungs, asked.rung, done.rung) > 0:
        ahead = place.step_to("rung", rungs.index(done.rung or "")) or ahead
    return ahead


def _next_band(place: _Place, turn: Turn) -> None:
    """A step of the load is the next band, where the movement is done with bands; a step back the one before."""
    if turn.axis == "load" and place.band is not None:
        at = place.bands.index(place.band) + (1 if turn.kind == "moved" else -1)
        place.take_band(place.bands[min(max(at, 0), len(place.bands) - 1)])


def _learn(place: _Place, asked: Asked, done: LoggedEntry) -> None:
    """Where more was done than was asked for, or nobody knew how much that is, the log tells where the athlete is."""
    for axis, known, was in (
        ("lower", asked.dose.tempo.lower, done.tempo.lower),
        ("pause", asked.dose.tempo.pause, done.tempo.pause),
    ):
        if known is not None and was is not None and was.base > known.base:
            place.put(axis, was.base)
    far, took = measured(done) if asked.dose.logs else (None, None)
    for axis, figure, written in (("distance", asked.distance, far), ("time", asked.time, took)):
        if written is not None and (figure is None or written > figure):
            place.put(axis, written)


def _remember(place: _Place, total: int, turn: Turn) -> None:
    """The best of all `amrap` sets together, which begins anew with another load or on another rung."""
    if any(isinstance(work.target, Amrap) for work in place.entry.dose.sets):
        afresh = turn.axis is not None and place.is_afresh(turn.axis)
        place.totals = () if afresh else (*place.totals, total)
