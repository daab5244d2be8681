"""The catalogue: every word that a reader of a sheet sees, in English, for a reader of 75 without a key.

Nothing here decides anything. `telling.py` puts these words together for the objects of the model.
"""
# ruff: noqa: D103  a phrase that is a function says itself what it is

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, TypeAlias

from ..compiler.axes import AXES
from ..compiler.model import BlockKind, Priority
from ..compiler.quantity import Quantity, decimal_text
from ..compiler.trim import Reason

LoadTold: TypeAlias = Callable[[Quantity], str]  # how a load of a dose is told

LANGUAGE: Final = "en"

# Counting

UNIT_WORDS: Final[dict[str, tuple[str, str]]] = {
    "s": ("second", "seconds"),
    "min": ("minute", "minutes"),
    "h": ("hour", "hours"),
    "m": ("metre", "metres"),
    "km": ("kilometre", "kilometres"),
    "mi": ("mile", "miles"),
    "ft": ("foot", "feet"),
    "yd": ("yard", "yards"),
    "l": ("litre", "litres"),
}
DAY_WORDS: Final[dict[str, str]] = {
    "mon": "Monday",
    "tue": "Tuesday",
    "wed": "Wednesday",
    "thu": "Thursday",
    "fri": "Friday",
    "sat": "Saturday",
    "sun": "Sunday",
}
MONTHS: Final = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip


def counted(number: int, one: str, many: str) -> str:
    """`1 set`, `3 sets`."""
    return f"{number} {one if number == 1 else many}"


def amount(quantity: Quantity) -> str:
    """A quantity read aloud: `3 seconds`, `1 minute`, `12.5 kg`, `5%`."""
    figure = decimal_text(quantity.amount)
    if quantity.unit not in UNIT_WORDS:
        return str(quantity)
    one, many = UNIT_WORDS[quantity.unit]
    return f"{figure} {one if figure == '1' else many}"


def joined(parts: list[str] | tuple[str, ...], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} {last} {parts[-1]}" if parts else ""


def sentence(text: str) -> str:
    """The text with a capital first and a full stop last."""
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "!", "?")) else ".")


# Heads

HANDOUT: Final = "Handout"
LOG: Final = "Log sheet"
SHORT: Final = "Shorter version"
FOR: Final = "For"
YOUR_DAYS: Final = "Your days"
YOU_BEGIN: Final = "You begin"
AFTER: Final = "After"
COACH: Final = "Coach"
REVISION: Final = "Revision"
RUNS: Final = "Runs for"
SOURCE: Final = "Source"
DRAFT: Final = "Draft: some lines of the program could not be read and are missing from this sheet."
PAGE: Final = "Page"
PAGE_OF: Final = "of"
AIMS: Final = "Aims"
RULES: Final = "Rules"
WEEK: Final = "The week"
WEEKS_BACK: Final = "The weeks"
MARKS: Final = "The marks"
MOVEMENTS: Final = "How to do each movement"
READING: Final = "Reading this sheet"


def days_from(days_told: str, first: str) -> str:
    """The days of an athlete, and the first of them."""
    return f"{days_told}, from {first}"


def your_session(day: str) -> str:
    """The last logged session that led to what a sheet asks for."""
    return f"your session of {day}"


def ask(by: str) -> str:
    """The way on which questions reach the coach."""
    return f"Ask by {by}."


def edition(revision: str, fingerprint: str) -> str:
    """The revision and the source on one line, where there is no room for a list."""
    return " · ".join([f"{REVISION} {revision}", *([f"{SOURCE} {fingerprint}"] if fingerprint else [])])


def running_head(who: str, program: str, sheet: str, revision: int) -> str:
    """What stands in small on every page."""
    return " · ".join(filter(None, (who, program, sheet, f"revision {revision}")))


def weeks(number: int) -> str:
    return counted(number, "week", "weeks")


# The week

SESSION: Final = "Session"
HOW_OFTEN: Final = "How often"
PLANNED: Final = "Planned time"
LIMIT: Final = "Time limit"
EVERY_DAY: Final = "every day"
NO_LIMIT: Final = "none"
NOT_SAID: Final = "not said"
MINUTE: Final = "Minute"


def times_a_week(number: int) -> str:
    """How often a session stands in the week."""
    return {1: "once a week", 2: "twice a week"}.get(number, f"{number} times a week")


def times(number: int) -> str:
    """How often a session stands in the only week in which it is held."""
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def days(names: tuple[str, ...]) -> str:
    """The days of a session."""
    return f"on {joined([DAY_WORDS.get(name, name) for name in names])}"


def minutes(number: int) -> str:
    return counted(number, "minute", "minutes")


def never_without(sessions: list[str], categories: list[str]) -> str:
    """What no session of work may lack."""
    return f"{joined(sessions)}: never without {joined(categories)}."


def in_every_week(categories: list[tuple[str, int]]) -> str:
    """What the sessions of a week must hold, all together."""
    told = [f"{title} at least {times_a_week(number).removesuffix(' a week')}" for title, number in categories]
    return f"In every week: {joined(told)}."


def session_line(often: str, planned: int, limit: str) -> str:
    """How often a session is, how long it is planned, and how long it may take."""
    told = [sentence(often)] if often else []
    told.append(f"Planned for {minutes(planned)}{f', at most {limit}' if limit else ''}.")
    return " ".join(told)


def at_least_a_week(title: str, number: int) -> str:
    """A category that is wanted some times a week."""
    return f"{title} (at least {times_a_week(number)})"


# Coming back after a break

COMING_BACK: Final = "Coming back"
WEEK_BACK: Final = "Week"
VOLUME_BACK: Final = "Sets, repetitions, times and distances"
LOADS_BACK: Final = "Loads"
BACK_SHARES: Final = (
    "The first share is of all sets of a movement together. What it comes to is printed with each session: in whole "
    "repetitions, and in loads that can be made. Warm-up and cool-down stay as they are."
)
BACK_RULES: Final = (
    "Do no more than is printed, even when it feels easy. Nothing moves on in these weeks, and nothing counts as missed. If a "
    "week was hard, do it once more before the next, and tell your coach."
)
BACK_HEALTH: Final = (
    "This is for a break without illness or injury. After an illness, an injury or an operation, and whenever you do "
    "not feel as you did before, ask a physician first whether you may train."
)
BACK_SOURCE: Final = (
    "The shares are your coach's choice. The published reduction after two weeks off or more, by 50, 30, 20 and 10% in "
    "four weeks, was written for college athletes; none is published for older people."
)


def back_after(after: int, weeks: int, normal: str) -> str:
    """How long the break was, and what the way back leads to."""
    off, way = counted(after, "week", "weeks"), counted(weeks, "week", "weeks")
    return f"You have not trained for {off}. In {way} your work grows back to what it was in “{normal}”."


def back_after_that(week: int, normal: str) -> str:
    """What comes after the last week."""
    return f"After week {week} go on with “{normal}” from where you were before the break. Its own sheets count again."


NOTHING_MOVES_BACK: Final = "nothing moves on on the way back"


def share_of_volume(share: str) -> str:
    return f"on the way back at most {share} of all sets together"


def share_of_load(share: str) -> str:
    return f"on the way back at most {share} of that"


def of_normal(share: Quantity) -> str:
    """A share of the normal work."""
    return f"{share} of normal"


# What a week holds, for the coach

IN_ALL: Final = "In all"
STRENGTH_WORK: Final = "Strength work"
CONDITIONING_WORK: Final = "Conditioning"
BALANCE_WORK: Final = "Balance work"
PUSHING: Final = "Pushing"
PULLING: Final = "Pulling"
HOW_COUNTED: Final = (
    "Full sessions of an ordinary week; sets and strength without warm-up and cool-down. A set on each side is one set."
)


def week_of(program: str, revision: int) -> str:
    return f"A week of {program}, revision {revision}"


def on_days(number: int) -> str:
    return f"on {counted(number, 'day', 'days')}" if number else "on no day"


def weekly_sessions(number: int, planned: int) -> str:
    return f"{counted(number, 'session', 'sessions')}, {minutes(planned)}"


def strength_work(days: int, planned: int) -> str:
    return f"{on_days(days)}, {minutes(planned)}"


def sets_in_sessions(number: int, held: int) -> str:
    return f"{sets(number)} in {counted(held, 'session', 'sessions')}"


def counted_once(sessions: list[str]) -> str:
    """Of sessions that do not say how often they are held."""
    return (
        f"{joined(sessions)}: nothing says how often, so {'it counts' if len(sessions) == 1 else 'each counts'} once."
    )


# Easier weeks

EASIER_COUNTED: Final = (
    "Weeks are counted from your first. In an easier week nothing moves on and nothing counts as missed: go on after it "
    "from where you were before. Do not make up for it."
)
EASIER_SHORT: Final = "Of a shorter version leave out the same."
NOTHING_MOVES_ON: Final = "Nothing moves on in such a week."
LEAVE_EMPTY: Final = "Leave empty the boxes of what you leave out."
SINGLE_SET_STAYS: Final = "A single set stays."
FRAME_STAYS: Final = "Warm-up and cool-down stay as they are."
LESS_REPETITIONS: Final = "less in each set"
EARLIER_STOP: Final = "earlier where you do as many as you can"
LIGHTER: Final = "lighter (or the next lighter that you have)"
SHORTER: Final[dict[str, str]] = {"hold": "the time held", "time": "the time", "distance": "the distance"}


def easier_on_purpose(numbers: tuple[int, ...]) -> str:
    """Which weeks are easier."""
    told = joined([str(number) for number in numbers])
    return f"Week {told} is easier on purpose:" if len(numbers) == 1 else f"Weeks {told} are easier on purpose:"


def one_or(number: int, one: str, many: str) -> str:
    """`one set`, `2 sets`."""
    return f"{'one' if number == 1 else number} {one if number == 1 else many}"


def sets_less(number: int) -> str:
    return f"{one_or(number, 'set', 'sets')} less of each movement"


def rounds_less(number: int) -> str:
    return f"{one_or(number, 'round', 'rounds')} less of a block done in rounds"


def repetitions_less(number: int) -> str:
    return f"{one_or(number, 'repetition', 'repetitions')} {LESS_REPETITIONS}"


def stop_earlier(number: int) -> str:
    return f"stop {one_or(number, 'repetition', 'repetitions')} {EARLIER_STOP}"


def lighter(by: Quantity) -> str:
    return f"every load {amount(by)} {LIGHTER}"


def shorter(axis: str, by: Quantity) -> str:
    return f"{SHORTER[axis]} {amount(by)} shorter"


def keeps(titles: list[str], what: str) -> str:
    """Who stops at the fewest worth doing."""
    return f"{joined(titles)} {'keeps' if len(titles) == 1 else 'keep'} {what}."


def easier_minutes(title: str, number: int) -> str:
    return f"{title} is then planned for {minutes(number)}."


# What comes in the weeks ahead, for the coach

# A letter of each axis, as it stands in a picture and on a terminal; a later letter of its name avoids another.
AXIS_SIGNS: Final[dict[str, str]] = {
    "load": "L", "reps": "R", "total reps": "T", "sets": "S", "lower": "W", "pause": "P", "cues": "C", "hold": "H",
    "distance": "D", "time": "M", "pace": "A", "rest": "E", "rung": "U",
}  # fmt: skip
NOTHING_MOVES: Final = "."
EASIER_WEEK: Final = "~"
ENDS_HERE: Final = "#"
OVER_LIMIT: Final = "!"
SIGNS: Final[dict[str, str]] = {"more": "+", "still": NOTHING_MOVES, "easier": EASIER_WEEK, "done": "="}
ALL_GOOD: Final = "Every session good"
HORIZON_MINUTES: Final = "Minutes"


def ahead_title(program: str, revision: int, number: int, who: str) -> str:
    return f"{program}, revision {revision}: {weeks(number)} ahead, {who}"


def ahead_summary(number: int, who: str, found: str) -> str:
    return f"{weeks(number)} ahead, {who}: {found}."


def for_athlete(athlete: str) -> str:
    return f"for {athlete}"


FOR_NOBODY: Final = "for nobody in particular"


def for_loads(loads: list[str]) -> str:
    return f"with {joined(loads)}"


def ordinal(number: int) -> str:
    """`2nd`, `3rd`, `12th`."""
    return f"{number}{'th' if 10 < number < 20 else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"


def every_missed(number: int) -> str:
    return f"Every {ordinal(number)} session missed"


def minutes_of(limit: str) -> str:
    """The row of minutes, with the limit of the session."""
    return f"{HORIZON_MINUTES}, at most {limit}" if limit else HORIZON_MINUTES


def unchanged(told: list[str]) -> str:
    return f"Unchanged: {'; '.join(told)}."


def _letters(axes: list[str]) -> list[str]:
    """The letters of axes, which the coach knows by the names they have in the language: `U rung`."""
    return [f"{AXIS_SIGNS[axis]} {axis}" for axis in axes]


def signs_explained(axes: list[str], kinds: set[str]) -> tuple[str, ...]:
    """What the signs mean of a week, those that are used."""
    told = _letters(axes)
    if "down" in kinds:
        told.append("a small letter: eased")
    if "more" in kinds:
        told.append(f"{SIGNS['more']} more expected of an amrap set")
    if "easier" in kinds:
        told.append(f"{EASIER_WEEK} an easier week")
    if "ends" in kinds:
        told += [f"{ENDS_HERE} its rule is exhausted", f"{SIGNS['done']} stays so"]
    return (*told, f"{NOTHING_MOVES} as before")


WEEK_NUMBER: Final = "week"
CELLS_EXPLAINED: Final = (
    "A week is told by what its last session asks for; after the first column of a table only by what is otherwise than in "
    "the column before, with a dot where nothing is."
)
END_EXPLAINED: Final = "“end” stands in the week in which a rule is exhausted: no axis of it can move any more."
OVER_EXPLAINED: Final = f"{OVER_LIMIT} after the minutes: more than the limit."
UNKNOWN_EXPLAINED: Final = "+load is heavier than before, where nothing tells the load."


SOME_WEEKS: Final = "The tables show some of the weeks; the signs and pictures show all."
LEFT_OUT_WEEKS: Final = "A week that a table leaves out is like the one before it."


def over_load(load: str) -> str:
    """A load that is heavier than what was known, by nobody knows how much."""
    return f"over {load}"


def same_minutes(limit: str, planned: int) -> str:
    return f"{minutes_of(limit)}: {planned} in every week."


def the_same(run: str) -> str:
    return f"{run}: the same."


# The coach's page

COACH_PAGE: Final = "For the coach, not for the athlete"
COMES: Final = "What comes"
COMES_FOR_NOBODY: Final = "For nobody in particular"
COMES_FOR_ATHLETES: Final = "For each athlete"
NOTHING_COMES: Final = "Nothing to report."
NOBODY_TRAINS: Final = (
    "There is more than one program here, and no log names this one, so nobody is known to train by it yet. An athlete counts"
    " as soon as a log names the program."
)
AHEAD_WEEKS: Final = "Week by week"
AHEAD_END: Final = "end"
AHEAD_OVER: Final = "over"
AHEAD_EASIER: Final = "easier"
AS_BEFORE: Final = "·"
COVERAGE_WHAT: Final = "What"
COVERAGE_HOLDS: Final = "In a week"
BRACKETS: Final = (
    "In brackets: the week in which it comes with every 3rd session missed; a dash where it does not come."
    " What an athlete avoids is left out."
)
WRITE_INSTEAD: Final = (
    "The command “setwright horizon” tells what to write instead, and looks ahead with other loads or over other weeks."
)
HOW_TO_READ: Final = "How to read it"


def weeks_taken(number: int, *, said: bool) -> str:
    """How far ahead the page looks."""
    runs = f"The program is run forward over {weeks(number)}, once with every session good, and once with every 3rd missed."
    return runs if said else f"{runs} It does not say itself how many weeks it runs."


def have_nowhere_to_go(titles: list[str], rest: str) -> str:
    """Movements whose rules are exhausted in the same week for the same reasons."""
    return f"{joined(titles)} {'has' if len(titles) == 1 else 'have'} nowhere to go{rest}"


def _by_week(told: list[tuple[list[str], int, int | None]]) -> str:
    parts = (f"{joined(titles)} in week {week} ({missed or NO_CUT})" for titles, week, missed in told)
    return "; ".join(parts)


def nowhere_to_go(told: list[tuple[list[str], int, int | None]]) -> str:
    """Movements whose rules are exhausted, by week."""
    return f"At the end of its rule: {_by_week(told)}."


def too_far(told: list[tuple[list[str], int, int | None]]) -> str:
    """Movements whose next load is too large a jump, by week."""
    return f"Too far to the next load: {_by_week(told)}."


def picture_explained(axes: list[str], kinds: set[str]) -> tuple[str, ...]:
    """How a picture is read, as far as it goes."""
    told = []
    if axes:
        letters = ", ".join(_letters(axes))
        told.append(
            f"A bead on the line of a movement is a week in which it moved, and its letter says in what: {letters}."
        )
    if "more" in kinds:
        told.append(f"{SIGNS['more']}: more is expected of an amrap set.")
    if "down" in kinds:
        told.append("A small letter: eased after sessions that were missed.")
    if "ends" in kinds:
        told.append(
            "An upright block ends a line: no axis of the rule can move any more, and the dotted line stays where it is."
        )
    if "easier" in kinds:
        told.append("A grey column is an easier week: nothing moves on.")
    told.append("The bars are the planned minutes, the dashed line their limit; what is black is over it.")
    return tuple(told)


def run_weeks(session: str, run: str, first: int, last: int) -> str:
    """The title of a table: some weeks of a run."""
    return f"{session}. {run}: {weeks_from_to(first, last)}"


def picture_title(session: str) -> str:
    return f"{session}: what moves in each week, and the minutes it takes"


def weeks_from_to(first: int, last: int) -> str:
    return f"week {first}" if first == last else f"weeks {first} to {last}"


def lane_described(title: str, moved: int, end: int | None) -> str:
    """A lane of a picture, for a reader who hears it."""
    told = f"moves in {weeks(moved)}" if moved else "does not move"
    return f"{title} {told}{f', and is at its end in week {end}' if end is not None else ''}."


def bars_described(first: int, most: int, over: int) -> str:
    told = f"It takes {minutes(first)} in the first of these weeks, at most {minutes(most)}."
    return f"{told} It is over its limit in {weeks(over)}." if over else told


def done_otherwise(athlete: str, instead: list[tuple[str, str]], left: list[str]) -> str:
    """What an athlete does in place of other movements, and what they leave out."""
    told = [f"{other} in place of {written}" for written, other in instead]
    parts = [f"does {joined(told)}"] if told else []
    parts += [f"leaves out {joined(left)}"] if left else []
    return f"{athlete} {joined(parts)}." if parts else ""


# Priorities, in the order of the four words

PRIORITY_MEANINGS: Final[dict[Priority, str]] = {
    "must": "Never leave it out, not in the shortest version either.",
    "key": "Important. It goes only when nothing marked “do” or “may” is left to leave out.",
    "do": "An ordinary movement. Do it unless time is short.",
    "may": "Optional. Do it if you are able, it feels comfortable and the equipment is there. It goes first.",
}
# The same four shapes as the drawn marks, for text.
PRIORITY_SIGNS: Final[dict[Priority, str]] = {"must": "■", "key": "◆", "do": "○", "may": "◌"}

BLOCK_KINDS: Final[dict[BlockKind, str]] = {
    "warm-up": "Warm-up",
    "work": "",
    "conditioning": "Conditioning",
    "cool-down": "Cool-down",
}

# Columns of a session

PRIORITY_COLUMN: Final = "Mark"
MOVEMENT_COLUMN: Final = "Movement"
DOSE_COLUMN: Final = "What to do"
NEXT_STEP: Final = "Next step"
INSTEAD: Final = "Instead"

# Doses

AS_MANY: Final = "as many as you can"
TO_FAILING_FORM: Final = "stop when the next one would no longer look like the first"
EACH_SIDE: Final = "each side"


def first_lighter(sets_told: list[str]) -> str:
    return f"First, lighter: {', then '.join(sets_told)}."


def leaving(number: int) -> str:
    """Repetitions in reserve."""
    return "stop when you could still do one more" if number == 1 else f"stop when you could still do {number} more"


def repetitions(low: int, high: int) -> str:
    return str(low) if low == high else f"{low} to {high}"


def repeated(reps: str) -> str:
    return f"{reps} repetition" if reps == "1" else f"{reps} repetitions"


def sets(number: int) -> str:
    return counted(number, "set", "sets")


def sets_of(number: int, what: str) -> str:
    """`3 sets of 6`."""
    return f"{sets(number)} of {what}"


def in_full(number: int) -> str:
    """How many sets a cut movement has when nothing is cut."""
    return f"(The whole session has {number}.)"


def each_one(what: str) -> str:
    return f"each {what}"


def numbered_set(number: int, what: str) -> str:
    return f"set {number}: {what}"


WITH: Final = "with "


def at_load(load: Quantity) -> str:
    """A load, or a share of the training maximum."""
    return f"{WITH}{amount(load)}" if load.unit != "%" else f"at {amount(load)} of your training maximum"


def at_weight(weight: str, *, two: bool) -> str:
    """A load as the weight that is lifted."""
    return f"{WITH}{weight}{' in each hand' if two else ''}"


def at_effort(rpe: str) -> str:
    return f"at an effort of {rpe} out of 10"


def rest_between_sets(rest: str) -> str:
    return f"Rest {rest} between sets."


def other_movement(title: str, dose: str) -> str:
    """A movement to do in place of another."""
    return f"{title}. {dose}"


def circuit(rounds: int, full: int, rest: str, change: str) -> str:
    """How a circuit runs."""
    told = f"{counted(rounds, 'round', 'rounds')}: do one set of each movement in turn"
    told += ", then begin again." if rounds > 1 else "."
    told += f" {in_full(full)}" if rounds < full else ""
    told += f" Take {change} to change movements." if change else ""
    return told + (f" Rest {rest} after each round but the last." if rest else "")


def if_there(thing: str) -> str:
    return f"If {a_thing(thing)} is there."


IF_ABLE: Final = "If you are able to."


# What an athlete does of a movement, and with what

IN_PLACE_OF: Final = "in place of"
DO_IT: Final = "Do it"
TAKE: Final = "Take"
CONTAINER: Final = "container"
BAR: Final = {"barbell": "bar"}


def take_bell(mass: str, kind: str, *, two: bool, pair: bool) -> str:
    """`the 12 kg kettlebell`, `one 10 kg dumbbell`, `two 5 kg dumbbells, one in each hand`."""
    if two:
        return f"two {mass} {kind}s, one in each hand"
    return f"{'one' if pair else 'the'} {mass} {kind}"


def plates(count: int, plate: str) -> str:
    """Plates of one kind on one end: `2.5 kg`, `2 × 45 lb`."""
    return plate if count == 1 else f"{count} × {plate}"


def take_plated(mass: str, kind: str, each_side: list[str], *, two: bool) -> str:
    """`handle, 2.5 kg and 1.25 kg each side`, `bar with 45 lb each side`, `empty handle`."""
    name = f"{mass} {BAR.get(kind, kind)}".strip()
    if not each_side:
        return f"two empty {name}s, one in each hand" if two else f"empty {name}"
    side = f"{joined(each_side)} each side"
    if two:
        return f"two {name}s, one in each hand: on each, {side}"
    return f"{name} with {side}" if kind == "barbell" else f"{name}, {side}"


def take_filled(name: str, filling: str, litres: str, share: int | None, *, two: bool) -> str:
    """`water jug, sand to 3.1 l (62% of its height)`."""
    height = f" ({share}% of its height)" if share is not None else ""
    return f"{_both(name, two)}{filling} to {litres} l{height}"


def take_full(name: str, filling: str, *, two: bool) -> str:
    return f"{_both(name, two)}full of {filling}"


def take_empty(name: str, *, two: bool) -> str:
    return f"{_both(name, two)}empty"


def _both(name: str, two: bool) -> str:
    return f"two of “{name}”, one in each hand: each " if two else f"{name}, "


def with_band(step: str) -> str:
    return f"with {take_band(step, two=False)}"


def take_band(step: str, *, two: bool) -> str:
    return f"two {step} bands" if two else f"the {step} band"


def in_form(rung: str) -> str:
    """The form of a movement, where there is room for a line."""
    return sentence(f"{DO_IT}: {rung}")


# Why something is as it is on an athlete's sheet, for the coach: clauses without capital and full stop


def avoids(who: str, pattern: str, because: str) -> str:
    """That an athlete avoids a movement, or all of a pattern."""
    what = f"every movement of the pattern {quoted(pattern)}" if pattern else "it"
    return f"{who} avoids {what}{f' ({quoted(because)})' if because else ''}"


def not_there(things: list[str]) -> str:
    return f"it needs {joined(things)}, which {'is' if len(things) == 1 else 'are'} not there"


def no_implement(kinds: list[str]) -> str:
    return f"it needs {joined(kinds, 'or')}, which is not there"


def no_form(form: str, things: list[str]) -> str:
    """That no rung, or none as easy as the athlete begins on, can be done."""
    forms = f"{quoted(form)} and every easier form" if form else "each of its forms"
    return f"{forms} needs what is not there: {joined(things, 'or')}"


IN_SESSION_ALREADY: Final = "it stands in this session already"


def too_heavy(lightest: str, asked: str) -> str:
    return f"the lightest load for it that can be made is {lightest}, and {asked} is asked for"


def begins_with(who: str, figure: str) -> str:
    return f"{who} begins with {figure}"


def written_load(load: str) -> str:
    return f"the program says {load}"


def share_of_maximum(share: str, maximum: str, load: str) -> str:
    return f"{share} of the training maximum of {maximum} is {load}"


def lightest_load(load: str) -> str:
    return f"nothing says with what to begin, so it begins light: {load}"


def capped_load(load: str, before: str) -> str:
    return f"alone no more than {load}, where it would be {before}"


def rounded_load(load: str, before: str) -> str:
    return f"{load} can be made of what there is, where it would be {before}"


def unknown_load(share: str) -> str:
    if share:
        return f"nobody knows the training maximum, so the sheet tells the share: {share}"
    return "nothing says with what load to begin"


def no_lighter_set(share: str) -> str:
    return f"the lighter set at {share} is left out: nothing for it can be made that is lighter than the work"


def weakest_band(step: str) -> str:
    return f"nothing says with which band to begin, so it is the weakest: {step}"


def easiest_form(form: str) -> str:
    return f"nothing says with which form to begin, so it is the easiest: {quoted(form)}"


def easier_form(form: str, before: str) -> str:
    return f"{quoted(form)} in place of {quoted(before)}, which needs what is not there"


def forms_left_out(forms: list[str]) -> str:
    return f"left out for want of what is not there: {joined([quoted(form) for form in forms])}"


# The coach's overview of a crew

OVERVIEW: Final = "Who gets what"
OVERVIEW_KIND: Final = "Overview for the coach"
OVERVIEW_PRIVATE: Final = (
    "For the coach alone: it tells why somebody does not do something. The athletes' own sheets do not tell it."
)
OVERVIEW_NEEDS: Final = "Who needs you first"
OVERVIEW_NO_NEED: Final = "Nobody: everyone has their sheets, and there is no warning."
OVERVIEW_ALL: Final = "Everyone"
OVERVIEW_INSTEAD: Final = "Who does another movement"
OVERVIEW_NOBODY_ELSE: Final = "Everyone does the movements as the program has them."
OVERVIEW_PROGRAMS: Final = "The programs"
ATHLETE: Final = "Athlete"
ATHLETES: Final = "Athletes"
PROGRAM: Final = "Program"
FITTED_HOW: Final = "What is otherwise than in the program"
OPEN: Final = "Open"
INSTEAD_WHO: Final = "Who does what instead"
NO_SHEET: Final = "No sheets: mend this first."
AS_WRITTEN: Final = "As the program has it."
NO_PROGRAM: Final = "Trains by no program here."
LEFT_OUT: Final = "left out"
NAMED: Final = 12  # people in a list of names


def overview_facts(athletes: int, without: int, warned: int) -> str:
    told = [counted(athletes, "athlete", "athletes")]
    told += [f"{without} without sheets"] if without else []
    told += [f"{warned} with warnings"] if warned else []
    return ", ".join(told)


def in_place_because(new: str, old: str, because: str) -> str:
    return f"{new} in place of {old}: {because}."


def left_out_because(old: str, because: str) -> str:
    return f"Without {old}: {because}."


def nor(title: str, because: str) -> str:
    """Why an alternative could not take the place either."""
    return f"nor {title}, because {because}"


def about(title: str, clause: str) -> str:
    return f"{title}: {clause}."


def who_instead(title: str, names: list[str], more: int) -> str:
    """Who does one movement in place of another."""
    told = f"{', '.join(names)} and {more} more" if more else joined(names)
    return f"{title}: {told}"


# Explaining a sheet, for the coach

WHY_MOVEMENT: Final = "Movement"
WHY_FORM: Final = "Form"
WHY_DOSE: Final = "What to do"
WHY_LIGHTER: Final = "First, lighter"
WHY_LOAD: Final = "Load"
WHY_TAKE: Final = "Take"
WHY_REST: Final = "Rest"
WHY_TEMPO: Final = "Tempo"
WHY_MINUTES: Final = "Minutes"
WHY_NEXT: Final = "Next step"
WHY_LOG: Final = "Log"
BY_THE_LOG: Final = "this is where the log has led"
WHY_NONE: Final = "none"
AS_PROGRAM: Final = "as the program has it"
ENTRY_SAYS: Final = "the entry says so"
BLOCK_SAYS: Final = "the entry says nothing, the block does"
PROGRAM_SAYS: Final = "the entry and its block say nothing, the program does"
NOTHING_SAYS: Final = "nothing says it: common practice"
OF_WHAT_THERE_IS: Final = "the simplest way to make it of what there is"
NO_RULE: Final = "nothing says how it advances: it stays as it is"
NO_ELSE: Final = "it has no `else` that would serve, so it is left out"
FIRST_ELSE: Final = "the first `else` that can be done takes its place"
ONLY_IF_ABLE: Final = "only whoever is able to does it"
ABLE_OR_BELOW: Final = f"{ONLY_IF_ABLE}, else what the sheet tells below it"


def explain_title(movement: str, athlete: str) -> str:
    return f"{movement}, for {athlete}"


def explain_place(program: str, revision: int, session: str, block: str) -> str:
    return f"{program}, revision {revision}: {session}, {quoted(block)}"


def not_needed(title: str) -> str:
    return f"{title} is not needed: what stands before it can be done"


def in_rounds(number: int) -> str:
    return f"{counted(number, 'round', 'rounds')}, as its block says"


def minutes_made_of(sets_told: list[str], rests: str) -> str:
    """What the time of an entry is made of."""
    return f"{joined(sets_told)}{f', and {rests} between them' if rests else ''}"


def times_of(number: int, what: str) -> str:
    return what if number == 1 else f"{number} times {what}"


def rests_of(number: int, rest: str) -> str:
    return f"{counted(number, 'rest', 'rests')} of {rest}"


# Things whose name with an article would not be English.
THINGS: Final[dict[str, str]] = {
    "floor": "room on the floor",
    "stairs": "a staircase",
    "outside": "a way outside",
}


def a_thing(thing: str) -> str:
    """The name of a thing with its article."""
    name = thing.replace("-", " ")
    return THINGS.get(thing, f"{'an' if name[:1] in 'aeiou' else 'a'} {name}")


def also_log(names: tuple[str, ...]) -> str:
    return f"Write down {joined([f'the {name}' for name in names])}."


# Tempo


def lowering(time: Quantity) -> str:
    return f"lower slowly: {amount(time)}"


def pausing(time: Quantity) -> str:
    return f"pause for {amount(time)}"


def saying_cues(number: int) -> str:
    return f"pause and say {counted(number, 'cue', 'cues')} in your mind, one a second"


def rising(time: Quantity) -> str:
    return f"come back in {amount(time)}"


RISING_FAST: Final = "come back as fast as you can keep it tidy"


def topping(time: Quantity) -> str:
    return f"wait {amount(time)} before the next one"


# Progression

WHEN_SET_REACHED: Final = "When the set reached its target"
WHEN_ALL_REACHED: Final = "When every set reached its target"
WHEN_TOTAL_BEATEN: Final = "When your total beat your best so far"
BEAT_YOUR_BEST: Final = "Try to beat your best total so far;"
WHEN_YOU_CANNOT: Final = "when you cannot"
FROM_THERE_ON: Final = "from there on"
HARDER_FORM: Final = "go to the next harder form"
AXIS_NAMES: Final[dict[str, str]] = {
    "load": "load", "reps": "repetitions", "total reps": "total of repetitions", "sets": "sets", "lower": "lowering time",
    "pause": "pause", "cues": "cues", "hold": "time held", "distance": "distance", "time": "time", "pace": "pace",
    "rest": "rest", "rung": "form",
}  # fmt: skip


def first(step: str) -> str:
    return f"first {step}"


def quoted(text: str) -> str:
    return f"“{text}”"


def in_a_row(number: int) -> str:
    return f" in {number} sessions in a row"


def stays(because: str) -> str:
    return f"It stays as it is: {because}"


def ease(missed: int, axis: str, less: int | Quantity) -> str:
    """What to do after sessions that fell short."""
    told = step_of(axis, less)
    named = isinstance(less, int) and axis in COUNT_WORDS  # `2 repetitions` say what they are
    told = f"{told} less" if named else f"{told} less {AXIS_NAMES[axis]}"
    return f"After {counted(missed, 'session', 'sessions')} in a row that fell short: {told}."


THE_BAND: Final = "band"
NEXT_BAND: Final = "take the next stronger band"
# The steps of an axis by a count or a quantity (told), and where nothing is said (None).
STEPS: Final[dict[str, tuple[str, str]]] = {
    "load": ("add {step}", "take the next heavier load"),
    "reps": ("add {step} to each set", "add a repetition to each set"),
    "total reps": ("add {step} over all sets together", "add a repetition over all sets together"),
    "sets": ("add {step}", "add a set"),
    "lower": ("lower {step} more slowly", "lower a second more slowly"),
    "pause": ("pause {step} longer", "pause a second longer"),
    "cues": ("say {step} more in the pause", "say one cue more in the pause"),
    "hold": ("hold {step} longer", "hold a little longer"),
    "distance": ("go {step} farther", "go a little farther"),
    "time": ("go on {step} longer", "go on a little longer"),
    "pace": ("be {step} quicker over the same distance", "be a little quicker over the same distance"),
    "rest": ("rest {step} less", "rest a little less"),
    "rung": (HARDER_FORM, HARDER_FORM),
}
COUNT_WORDS: Final[dict[str, tuple[str, str]]] = {
    "reps": ("a repetition", "repetitions"),
    "total reps": ("a repetition", "repetitions"),
    "sets": ("a set", "sets"),
    "cues": ("one cue", "cues"),
}


def step_of(axis: str, step: int | Quantity) -> str:
    """A step read aloud: `a repetition`, `2 sets`, `1 second`."""
    if isinstance(step, Quantity):
        return amount(step)
    one, many = COUNT_WORDS.get(axis, ("1", ""))
    return one if step == 1 else f"{step} {many}".strip()


def up_to(axis: str, bound: str) -> str:
    return f"down to {bound}" if AXES[axis].shrinks else f"up to {bound}"


def at_repetitions(step: str, reps: int) -> str:
    return f"once you reach {reps} repetitions, {step}"


def restarting(axes: tuple[str, ...], known: Mapping[str, str]) -> str:
    """What goes back, with the figures that are known."""
    unknown = [AXIS_NAMES[axis] for axis in axes if axis not in known]
    told = [known[axis] for axis in axes if axis in known]
    told += [f"the {joined(unknown)} you began with"] if unknown else []
    return f"and go back to {joined(told)}"


# What an axis goes back to, where its figure is known.
BACK_TO: Final[dict[str, str]] = {
    "load": "{}", "reps": "{}", "total reps": "{} in all", "sets": "{}", "lower": "a lowering time of {}",
    "pause": "a pause of {}", "cues": "{}", "hold": "holding for {}", "distance": "{}", "time": "{}", "rest": "a rest of {}",
    "rung": "{}",
}  # fmt: skip
ONE_OF: Final[dict[str, str]] = {"reps": "1 repetition", "total reps": "1 repetition", "sets": "1 set", "cues": "1 cue"}


def back_to(axis: str, figure: str, *, largest: bool) -> str:
    """What an axis goes back to; of unlike sets the largest is told."""
    told = BACK_TO[axis].format(ONE_OF.get(axis, figure) if figure == "1" else figure)
    if largest:
        told += " in the heaviest set" if axis == "load" else " in the largest set"
    return told


STAY_AND_ASK: Final = "stay as you are and ask your coach"
NOTHING_HEAVIER: Final = "nothing heavier can be made of what you have"
NOTHING_STRONGER: Final = "you have no stronger band"
NO_MORE_ALONE: Final = "no more while you train alone"


def too_large(load: str) -> str:
    """Why the next load is not to be taken."""
    return f"{load} would be too large a step"


def no_more_loads(why: str) -> str:
    """Why a list of next loads ends."""
    return f"Then stay as you are and ask your coach: {why}."


# How to do a movement

CUES: Final = "Say to yourself"
TAKE_CARE: Final = "Take care"
RUNGS: Final = "Forms, the easiest first"
YOUR_NEXT_LOADS: Final = "Your next loads, one after the other"
LIFT: Final = "With"
NEEDS: Final = "Needs"
IMPLEMENTS: Final[dict[str, str]] = {
    "dumbbell": "a dumbbell",
    "dumbbell pair": "a pair of dumbbells",
    "kettlebell": "a kettlebell",
    "kettlebell pair": "a pair of kettlebells",
    "handle": "a plate handle",
    "handle pair": "a pair of plate handles",
    "barbell": "a barbell",
    "container": "a filled container",
    "container pair": "a pair of filled containers",
    "band": "a band",
}


def moves(share: Quantity) -> str:
    return f"moves {amount(share)} of your body weight"


YOU_BEGIN_HERE: Final = "you begin here"


def needing(things: str) -> str:
    return f"needs {things}"


# What movements there are

LOADED_BY: Final = "Loaded by"
ITS_RUNGS: Final = "Rungs"
LIST_PATTERN: Final = "pattern"
LIST_NEEDS: Final = "needs"
LIST_LOADED: Final = "loaded by"
LIST_HELD: Final = "held"
HELD_FOR_A_TIME: Final = "for a time, such as `2 x 20 s`"
LIST_REP: Final = "repetition"
LIST_COVERS: Final = "covers"
LIST_RUNGS: Final = "rungs"
LIST_CUES: Final = "cues"
LIST_CAUTIONS: Final = "mind"
LIST_HOW: Final = "how"
MOVEMENTS_MORE: Final = "`setwright movements NAME` tells all of one."


def can_be_done(able: int, there: int, who: str) -> str:
    return f"{able} of {there} can be done by {who}, with what is there."


def can_do(who: str) -> str:
    return f"{who} can do it, with what is there."


def rungs_not_there(names: list[str]) -> str:
    return f"Not {joined(names, 'or')}: what {'it needs is' if len(names) == 1 else 'they need is'} not there."


def in_brackets(text: str, additions: list[str]) -> str:
    return f"{text} ({'; '.join(additions)})" if additions else text


# Explanations

EXPLAIN_AMRAP: Final = (
    "“As many as you can” means: go on until the next repetition would no longer look like the first, then stop. "
    "“Stop when you could still do 2 more” means: stop while two good ones would still be possible. Never go on in pain."
)
EXPLAIN_EACH_SIDE: Final = "“Each side” means: do all of it with one side, then the same with the other."
EXPLAIN_EFFORT: Final = "Effort is told from 0 (none) to 10 (nothing left)."
EXPLAIN_MAXIMUM: Final = "Your training maximum is the load your coach wrote down for you, not the most you can lift."
EXPLAIN_NEXT_LOADS: Final = (
    "Which is “the next heavier load”, or band, stands with each movement under “How to do each movement”."
)
ALONE: Final = "While nobody else is there, lift no more than this, whatever a next step says: {}."
MAXIMUM: Final = "Your training maximum, of which a step in % is a share: {}."
EXPLAIN_SOURCE: Final = (
    "The letters and figures after “Source” name the text that this sheet was made from: "
    "two sheets with the same ones agree."
)
EXPLAIN_MINUTES: Final = "Minutes are a plan, not a race: be there at about that minute after you began."

# Safety. Stop signs and what to do after: published lists of hospitals and guidelines, told in our own words.

CAUTIONS_TITLE: Final = "Before you start, and when to stop"
CAUTIONS: Final = (
    "Stop at once with pain or pressure in the chest, neck, jaw or arm; with dizziness or faintness; with breathlessness "
    "that is unusual for you; with a racing or stumbling heart; or with sharp pain in a joint.",
    "Tell somebody. If it does not pass within a few minutes, get help or call the emergency number. If it passes, do not "
    "go on that day, and see a physician before you train again.",
    "Before you start with this program, ask a physician whether it suits you, above all if you have an illness, take "
    "medicine or have not trained for long.",
    "Hold only implements that cannot slip, tip or spill: closed lids, dry handles, tight collars, bands without cracks.",
    "Keep breathing: breathe out as you lift, and never hold your breath to finish.",
    "This sheet is not medical advice. The rules of your place and the word of those licensed to treat you come first.",
)
# Of the implements that an athlete has, told below the caution of all implements.
CAUTION_OF_IMPLEMENTS: Final = 4
CAUTION_FILLED: Final = (
    "A filled container is closed tight and dry outside, and its handle cannot slip. Lift it once, a hand’s breadth, before "
    "the first set. To find the line, measure the filling in with a kitchen jug or a bottle once, and mark the line with "
    "tape. Weighing is better, with a kitchen or luggage scale: a damp filling weighs more."
)
CAUTION_PLATES: Final = "Plates: the same on both sides, and collars tight. Look at them again before every set."
CAUTION_FILLED_SHORT: Final = (
    "A filled container: closed, dry, a handle that cannot slip; lift it once before the first set."
)
CAUTION_PLATES_SHORT: Final = "Plates: collars tight on both sides."
# On a sheet that goes with the handout.
CAUTIONS_BRIEF: Final = (*CAUTIONS[:4], CAUTIONS[-1])
CAUTIONS_SHORT: Final = (
    "Before you start with this program, ask a physician whether it suits you.",
    "Stop at once with chest pain or pressure, dizziness, faintness, unusual breathlessness or sharp joint pain.",
    "If it does not pass within a few minutes, get help or call the emergency number.",
    "Hold only implements that cannot slip, tip or spill.",
    CAUTIONS[-1],
)

# Shorter versions

STAYS: Final = "What stays"
CUT: Final = "What was left out, and why"
CUT_WHAT: Final = "Left out"
CUT_WHY: Final = "Why"
CUT_SAVES: Final = "Saves about"
NOTHING_CUT: Final = "Nothing: the whole session fits into this time."
SHORT_BY: Final[dict[str, str]] = {
    "sets": "This version keeps as many movements as fit, with fewer sets.",
    "movements": "This version keeps fewer movements, with all their sets.",
}
UNDER_HALF_A_MINUTE: Final = "under half a minute"
SHORT_ORDER: Final = "Train in the order printed. Log it like any session, and write that it was the short one."
SEE_HANDOUT: Final = "How to do each movement, and its next step, stand in the handout."
CUT_REASONS: Final[dict[Reason, str]] = {
    "optional": "Marked “may”: optional movements go first.",
    "ordinary": "Marked “do”: even without any “may” there is no room for one more.",
    "priority": "Marked “key”: even without any “do” and “may” there is no room for one more.",
    "fewer-sets": "The movement stays, with fewer sets.",
    "rounds": "The movement stays, with fewer rounds.",
}


def over_the_limit(time: str) -> str:
    """Why a cut cannot be taken back."""
    return f"With it the session would run {time} over."


def complete(categories: list[str]) -> str:
    return f"No required category is missing: {joined(categories)}."


def short_line(planned: int, limit: str, whole: int) -> str:
    """The time of a shorter version, and that of the whole session."""
    return f"Planned for {minutes(planned)}, at most {limit}. The whole session is planned for {minutes(whole)}."


def short_title(session: str, limit: str) -> str:
    return f"{session}, the shorter version: {limit}"


def kept_of(kept: int, full: int, rounds: bool) -> str:
    """What stays of a movement that is cut."""
    return f"{kept} of {counted(full, 'round', 'rounds') if rounds else sets(full)} stay"


WHOLE_MOVEMENT: Final = "all of it"


# The cut list

LATE: Final = "If you run late"
CUT_NUMBER: Final = "Cut"
CUT_LEAVE: Final = "What to leave out"
CUT_SAVED: Final = "Saves"
CUT_TOGETHER: Final = "Together"
PACE_BLOCK: Final = "Block"
PACE_LAST: Final = "Last"
PACE_TITLE: Final = "Each cut by its number, and the minute after which it is needed"
NO_CUT: Final = "–"
NO_HURRY: Final = "Do not hurry, and do not shorten the rests."
READ_PACE: Final = (
    "Begin the session at a full hour if you can: then the minutes of this sheet are those of the clock. As you begin a "
    "block, read its row: make every cut whose minute is past, and none of the others. A dash stands where "
    "the work of a cut is done already."
)


def cut_order(shorts: bool) -> str:
    """How the list of cuts is used."""
    ahead = " If you know before you begin that time is short, take a shorter version instead." if shorts else ""
    return f"{NO_HURRY} Leave things out in this order, each on top of those before it.{ahead}"


def nothing_to_cut(stop: int | None) -> str:
    """For a session of which every version is the whole one."""
    told = f"Nothing of this session can be left out. {NO_HURRY}"
    return told if stop is None else f"{told} Stop at minute {stop}."


def half_minutes(number: int) -> str:
    """`½ min`, `2 min`, `2½ min`, from a number of half minutes."""
    whole, half = divmod(number, 2)
    return f"{whole or ''}{'½' if half else ''} min" if number else UNDER_HALF_A_MINUTE


def only_sets(titles: list[str], kept: int) -> str:
    """What stays of movements, all the same number of sets."""
    if not kept:
        return f"Leave out {joined(titles)}."
    return f"{joined(titles)}: only {sets(kept)}{' each' if len(titles) > 1 else ''}."


def only_rounds(blocks: list[str], kept: int) -> str:
    """What stays of circuits."""
    return f"{joined(blocks)}: only {counted(kept, 'round', 'rounds')}{' each' if len(blocks) > 1 else ''}."


def same_movement(title: str, block: str, number: int | None) -> str:
    """A movement that stands in a session more than once; the number where it does so within a block."""
    return f"{title} in “{block}”" if number is None else f"{title} in “{block}”, number {number}"


def pace_example(block: str, minute: int, cuts: list[int]) -> str:
    """How the row of a block is read."""
    told = [str(number) for number in cuts]
    return (
        f"For example: you begin “{block}” at minute {minute}. The minutes of cuts {joined(told)} are past: make these."
    )


def too_late(stop: int) -> str:
    """When no cut helps any more."""
    return (
        f"Past the minute under “{PACE_LAST}” no cut brings you in on time: do only what is marked “must”, in the order "
        f"printed, and stop at minute {stop}. When your work has grown beyond what is printed here, cut a little sooner."
    )


# Logs

LOG_WEEK: Final = "Week"
LOG_NAME: Final = "Name"
LOG_DATE: Final = "Date"
LOG_MINUTES: Final = "Minutes"
LOG_EFFORT: Final = "Effort 0–10"
LOG_FELT: Final = "How it felt"
LOG_SESSION: Final = "Which version"
LOG_WHOLE: Final = "whole"
LOG_EXTRA: Final = "Dashed boxes are for sets that are added later."
LOG_SIDES: Final = "Where both sides work, write the smaller number of the two sides."
LOG_HOW: Final = "Write a number in every box you used. An empty box is honest too: leave it empty."
LOG_COPY: Final = "Take a fresh copy for each week."
LOG_ORDER_THEN: Final = ", then "
LOG_ORDER_NONE: Final = ""
LOG_FORM: Final = "form"
LOG_BAND: Final = "band"
LOG_LOWER: Final = "lower s"
LOG_PAUSE: Final = "pause s"
LOG_CUES: Final = "cues"
LOG_CLOCK: Final = "min : s"
LOG_DONE: Final = "done"
LOG_WHOLE_SESSION: Final = "The whole session"


def sheet_line(*parts: str) -> str:
    return " · ".join(parts)


def version(limit: str) -> str:
    """The name of a shorter version, to tick."""
    return limit


def nth_time(number: int) -> str:
    """The columns of a week without fixed days."""
    ordinals = ("First", "Second", "Third", "Fourth", "Fifth", "Sixth")
    return f"{ordinals[number - 1]} session" if number <= len(ordinals) else f"{number}th session"


def rounds(number: int) -> str:
    return sentence(counted(number, "round", "rounds"))


def log_set(number: int, unit: str) -> str:
    """What stands over the box of a set."""
    return f"{number}  {unit}".strip()


def log_order(axes: str) -> str:
    return f"To progress: {axes}."


def log_instead(titles: str) -> str:
    return f"or: {titles}"


def log_text_head(program: str) -> str:
    return f"Log of {program}"


def log_text_whose(athlete: str) -> str:
    return f"1. It is the log of {athlete}: leave the lines that begin with `use` and `log` as they are."


def log_text_start(dose: str, *, begun: bool) -> str:
    return f"{'Asked for now' if begun else 'To begin with'}: {dose}"


def log_text_save(file: str, athlete: str) -> tuple[str, ...]:
    """Where a filled log goes: into the project, under a name that the compiler reads."""
    saved = (
        f"When it is filled in, save it in the folder of {file}",
        f"under a name that ends in `.coach`, as in `{f'{athlete}-log' if athlete else 'maren'}.coach`, and tell your coach.",
    )
    return (
        saved
        if athlete
        else (
            *saved,
            "If the lines about you stand in another file, your coach adds a line for it below the first `use`, as in:",
        )
    )


def log_text_forms(names: str) -> str:
    return f"Form, one of: {names}"


LOG_TABLE_SHEET: Final = "Log"
LOG_TABLE_HELP_SHEET: Final = "How to fill it in"
LOG_TABLE_SURE: Final = "Is that right?"
LOG_TABLE_DAY: Final = "A day is expected here, as 2026-06-17."
LOG_TABLE_MINUTES: Final = "Minutes are expected here, as 58."
LOG_TABLE_EFFORT: Final = "Effort is told from 0 to 10."
LOG_TABLE_LOAD: Final = "A load is expected here, as 12."
LOG_TABLE_SECONDS: Final = "Seconds are expected here, as 20."
LOG_TABLE_COUNT: Final = "A whole number is expected here, as 8."
LOG_TABLE_DISTANCE: Final = "A distance is expected here, as 2.4."
LOG_TABLE_FIGURE: Final = "A figure is expected here, as 20."
LOG_TABLE_ONE_OF: Final = "It is not one of those to choose from."
LOG_TABLE_HELP: Final = (
    "Leave the first two rows as they are.",
    "Write the day into the first row of each session you did, and there the minutes, the effort from 0 to 10, and how it felt.",
    "Write a figure for each set you did. The unit is beside it, so 20 is enough. What you did not do stays empty.",
    "For another week, copy the rows below. Send the file to your coach, or save it in the folder of the program.",
)


def log_text_bands(names: str) -> str:
    return f"Band, one of these, between the quotes: {names}"


LOG_TEXT_NAME: Final = (
    "1. Write your name (the short one your coach uses, in lower-case letters) in place of __ after the word `log`."
)
LOG_TEXT_HOW: Final = "How to fill in this log, with any text editor:"
LOG_TEXT_HELP: Final = (
    "2. For each time you trained, copy the lines of that session, and write the day in place of the",
    "   first __, as in `2026-06-17 main`.",
    "3. Put a figure in place of every other __: the load you used, then one figure for each set you did.",
    "   Take away the __ that are left over, and the lines of movements that you did not do.",
    "4. A short version: write it after the session's name, as in `main short 25 min, 24 min, rpe 6`.",
    "5. How it felt goes after the upright line: | Knee fine. Slept badly.",
    "A line that begins with # is a note for people; Setwright passes over it.",
)

# Printed sheets

GUIDE: Final = "Guide"
SEE_GUIDE: Final = (
    "Read the guide before you begin: it tells how to do each movement, what comes next, and what to leave out when you "
    "run late."
)
LOG_DONE_TOO: Final = "Done before and after"
SHORT_SEE_GUIDE: Final = "How to do each movement, and its next step, stand in the guide."
READING_SHEETS: Final = "Reading your sheets"
NEXT_STEPS: Final = "Next steps"
MARK_SHAPES: Final[dict[Priority, str]] = {
    "must": "filled square", "key": "filled diamond with a hole", "do": "ring", "may": "broken ring",
}  # fmt: skip
NO_GLYPH: Final = "[?]"
REPLACED: Final = (
    "Some characters of the program cannot be printed here, and “[?]” stands in place of them. The page for the screen "
    "has them."
)
