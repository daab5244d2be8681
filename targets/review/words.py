"""The words of the review. The catalogue that all sheets share is `targets/words.py`; this is its part for what came of the logs.

Sentences for an athlete are plainer than those for a coach, and propose nothing.
"""
# ruff: noqa: D103  a phrase that is a function says itself what it is

from __future__ import annotations

from typing import Final

from ..words import AXIS_NAMES, counted, joined, sentence

REVIEW: Final = "Review for the coach"
PROGRESS: Final = "Your progress"
CREW: Final = "Who needs the coach first"
CREW_KIND: Final = "Review for the coach"
LOGGED: Final = "Logged"

# Notes to read first

READ_FIRST: Final = "Read this first"
STOP: Final = (
    "The log notes pain, dizziness, breath, heart or chest. Stop: no training until a physician has seen it and "
    "agrees. "
    "Setwright diagnoses nothing; these are the words of the log."
)
STOP_YOU: Final = (
    "You wrote of pain, dizziness, breath, heart or chest. Stop: do not train until a physician has seen it and "
    "agrees. "
    "If it comes back or does not pass within a few minutes, get help or call the emergency number. Tell your coach."
)
NAMED_TITLE: Final = "Notes that name a sign and take it back"
NAMED: Final = "Read them all the same."
NO_ALARM: Final = "No note in the log speaks of pain, dizziness, breath, heart or chest."

# What to look at

LOOK: Final = "What to look at"
NOTHING_TO_LOOK_AT: Final = "Nothing presses: every movement goes on or has just begun."
PROPOSED: Final = "Proposed, for the coach to judge"
BREAKS: Final = "Breaks"


def stopped(number: int) -> str:
    return f"Stalled: nothing has advanced in the last {counted(number, 'session', 'sessions')}."


def at_end(reasons: list[str]) -> str:
    told = f": {'; '.join(reasons)}" if reasons else ""
    return f"Its rule has nowhere to go{told}."


def coming_back(number: int) -> str:
    told = counted(number, "session", "sessions")
    return f"Coming back after a break: nothing has advanced in {told}, and that is to be expected."


def goes_on(since: int) -> str:
    if since == 0:
        return "It goes on: it advanced in the last session."
    return f"It goes on: it last advanced {counted(since, 'session', 'sessions')} before the last."


JUST_BEGUN: Final = "Just begun: nothing has advanced yet."
STAYS_AS_IT_IS: Final = "It has no rule to advance by, so it stays as it is."
YOUR_STALL: Final = "It has stayed where it is for a while. That happens; your coach sees it, too."
YOUR_END: Final = (
    "You have reached the end of what your program plans for it. Well done; ask your coach what comes next."
)
YOUR_RETURN: Final = "You are coming back after a break. Take the time it takes."
YOUR_PROGRESS: Final = "It goes on: you have moved forward."
YOUR_BEGINNING: Final = "You have just begun with it."
YOUR_SAME: Final = "It stays as it is on purpose."


def fell_short(day: str, what: str) -> str:
    return f"It fell short last on {day}. {what}"


def propose_load(load: str) -> str:
    return f"Ease: go back to {load}, and build up again from there."


def propose_easier(form: str) -> str:
    return f"Another form: go back to “{form}” for a while."


def propose_harder(form: str) -> str:
    return f"Another form: go on to “{form}”."


def propose_axis(axis: str) -> str:
    return f"Another way to advance: {AXIS_NAMES[axis]}, which its rule does not use yet."


PROPOSE_TALK: Final = "Ask the athlete how it feels, and change the movement or the rule."


def back_told(titles: list[str]) -> str:
    return f"Coming back, not advanced yet, and that is to be expected: {joined(titles)}."


def break_told(days: int, last: str, after: str) -> str:
    return f"{days} days without a session, after {last} until {after}."


def pace_told(share: int) -> str:
    """How long full sessions take, as a share of what is planned, in per cent."""
    if abs(share) < 5:
        return "Full sessions take about as long as planned."
    longer = "longer" if share > 0 else "less time"
    return f"Full sessions take about {abs(share)}% {longer} than planned (the middle one of all)."


# Weeks

WEEKS: Final = "Week by week"
WEEKS_CAPTION: Final = "Sessions, minutes and load of each week"
WEEK: Final = "Week"
BEGAN: Final = "From"
TRAINING: Final = "Training"
SHORT: Final = "of it short"
OTHER: Final = "Other"
MINUTES: Final = "Minutes"
EFFORT: Final = "Load"
MONOTONY: Final = "Monotony"
STRAIN: Final = "Strain"
MOVING: Final = "Outside, minutes"
COUNTING: Final = "count"
DISTANCE: Final = "Distance"
SO_FAR: Final = "so far"
NO_LOG: Final = "no log"
NONE: Final = "–"


def of(done: int, planned: int) -> str:
    return f"{done} of {planned}"


def marked(marks: list[str]) -> str:
    """`first, best`: what stands beside the day of a session."""
    return ", ".join(marks)


def of_advised(minutes: str, least: int) -> str:
    return f"{minutes} of {least}"


def full_and_short(full: int, short: int, planned: int) -> str:
    return f"Training sessions: {full + short} of {planned} planned, {full} in full and {short} short."


def outside_told(minutes: int, weeks_met: int, weeks: int, distance: str, pace: str) -> str:
    told = f"Outside: {minutes} minutes in all"
    told += f", {distance}" if distance else ""
    told += f", {pace} on average" if pace else ""
    return f"{told}. The weekly advice was met in {weeks_met} of {counted(weeks, 'week', 'weeks')}."


def advice_told(least: int, most: int) -> str:
    return (
        f"Advised for adults are {least} to {most} minutes a week at moderate effort, or half as many at vigorous "
        f"effort (World Health "
        "Organization 2020; Bull et al., Br J Sports Med 54:1451). Only what was logged is seen here. It is "
        "advice for people in general."
    )


GRADED: Final = (
    "A walk counts as moderate from 4.0 km an hour (3 MET) and twice from 7.2 km an hour (7 MET): Compendium of "
    "Physical Activities, "
    "2011 and 2024, for ages 19 to 59. A slower one does not count."
)
UNGRADED: Final = (
    "All minutes count here: from which speed on a walk is of moderate effort is published for ages 19 to 59 "
    "alone, and this athlete is older, "
    "or the age is not said."
)
UNGRADED_YOU: Final = "All minutes count here."
EFFORT_EXPLAINED: Final = (
    "Load is effort (0 to 10) times minutes, added up over the week. Monotony is the mean of the seven days over "
    "their spread (standard deviation of a sample), and strain is "
    "load times monotony: high where every day is alike and hard (Foster, Med Sci Sports Exerc 1998;30:1164). No "
    "bound is advised here."
)
EFFORT_YOU: Final = "Load is how hard it felt (0 to 10) times the minutes, added up over the week."

# Movements

MOVEMENTS: Final = "Movement by movement"
HOW_DRAWN: Final = (
    "How to read the pictures: each ring is a session, and a line joins them; the black diamond is the best one; "
    "the dashed line is the trend. A "
    "gap in the line is a break of two weeks or more. The figures are in the table below each picture."
)
NO_PICTURES: Final = (
    'There are no pictures on this page: drawing them needs `pip install "setwright[review]"`. All figures are in '
    "the tables."
)
SESSION_AXIS: Final = "session"
DATE: Final = "Day"
STATE: Final = "With"
SETS: Final = "Sets"
SHORT_VERSION: Final = "short version"
REPETITIONS: Final = "Reps"
VOLUME: Final = "Volume load"
CARRIED: Final = "Load × distance"
TENSION: Final = "Under tension"
MOVED: Final = "Moves"
MAXIMUM: Final = "Maximum by Epley"
TIME: Final = "Time"
PACE: Final = "Pace"
FIRST: Final = "first"
BEST: Final = "best"
LAST: Final = "last"
GROUPED: Final = "A row of several sessions tells the middle figure of them."


def figures_of(title: str) -> str:
    return f"{title}: figures."


# What a picture draws, by the measure: its name, and how a figure of it is told.
MEASURES: Final[dict[str, str]] = {
    "volume": "Volume load",
    "carried": "Load times distance",
    "repetitions": "Repetitions",
    "distance": "Distance",
    "tension": "Time under tension",
}
MEASURE_WORDS: Final[dict[str, str]] = {
    "volume": "volume load",
    "carried": "load times distance",
    "repetitions": "repetitions",
    "distance": "distance",
    "tension": "time under tension",
}
COUNT_UNITS: Final[dict[str, str]] = {"repetitions": "", "tension": "s", "distance": "m"}


def unit_title(measure: str, unit: str) -> str:
    return f"{MEASURES[measure]}, {unit}" if unit else MEASURES[measure]


def with_unit(figure: str, unit: str) -> str:
    return f"{figure} {unit}" if unit else figure


def sessions_from_to(number: int) -> str:
    return counted(number, "session", "sessions")


def from_to(first: str, last: str) -> str:
    return first if first == last else f"{first} to {last}"


def trend_clear(measure: str, slope: str, low: str, high: str, *, more: bool) -> str:
    return f"about {slope} {'more' if more else 'less'} {MEASURE_WORDS[measure]} each session; between {low} and {high}"


def trend_unclear(measure: str, less: str, more: str) -> str:
    """`less` and `more` are the ends of an interval that holds none, "" for an end that is none itself."""
    low, high = f"{less} less" if less else "none", f"{more} more" if more else "none"
    return f"no clear trend in {MEASURE_WORDS[measure]}: from one session to the next between {low} and {high}"


def trend_level(measure: str) -> str:
    return f"the same {MEASURE_WORDS[measure]} in most sessions"


def trend_told(told: str, latest: int) -> str:
    """The trend in a sentence; `latest` says of how many sessions it is told, 0 for all."""
    over = f"Over the latest {latest} sessions: " if latest else ""
    return sentence(f"{over}{told} (Theil-Sen, 95% interval)")


def trend_you(measure: str, slope: str, unit: str, sign: int) -> str:
    if sign == 0:
        return f"Your {MEASURE_WORDS[measure]} is about the same from one session to the next."
    return f"Your {MEASURE_WORDS[measure]} goes {'up' if sign > 0 else 'down'} by about {with_unit(slope, unit)} each session."


TOO_FEW: Final = "Too few sessions for a trend: four are needed."


def effective_told(form: str, share: str, load: str, body: str, source: str) -> str:
    return f"“{form}” moves {share} of the body's mass, about {load} of {body} ({source})."


NO_SOURCE: Final = "no source is named"


def maximum_told(epley: str, brzycki: str, day: str) -> str:
    return (
        f"Estimated one-repetition maximum, the largest so far ({day}): {epley} by Epley, {brzycki} by Brzycki. "
        f"Both are published for sets of "
        "up to 10 repetitions to failure; a set that stopped before that tells too little."
    )


def chart_title(movement: str, measure: str) -> str:
    return f"{movement}: {MEASURE_WORDS[measure]} by session"


def chart_told(number: int, first: str, best: str, best_day: str, last: str) -> str:
    return f"A line over {counted(number, 'session', 'sessions')}: {first} at first, {best} at best ({best_day}), {last} at last."


# The crew

CREW_PRIVATE: Final = "For the coach alone: it tells what athletes wrote, and who does better than whom."
CREW_ORDER: Final = (
    "In this order: notes that speak of pain, dizziness, breath, heart or chest; no log for long; back after a "
    "break; sessions missed; movements "
    "that stall; sessions that run over; rules at their end. Days are counted to the newest day in all logs of a program, {day}."
)
WHY: Final = "Why"
ATHLETE: Final = "Athlete"
NOTHING_PRESSES: Final = "Nothing presses."
WITHOUT_LOG: Final = "No log yet"


def need_alarm(number: int, day: str) -> str:
    notes = "A note speaks" if number == 1 else f"{number} notes speak"
    return f"{notes} of pain, dizziness, breath, heart or chest, the newest of {day}: no training until a physician agrees."


def need_silent(days: int, day: str) -> str:
    return f"No session for {days} days: the last was on {day}."


def need_returning(days: int, day: str) -> str:
    return f"Came back on {day} after {days} days without a session."


def need_missed(number: int, planned: int) -> str:
    return f"Missed {number} of the last {planned} planned training sessions."


def need_stall(titles: list[str]) -> str:
    return f"Stalled: {joined(titles)}."


def need_over_time(share: int) -> str:
    return f"Full sessions take about {share}% longer than planned."


def need_ended(titles: list[str]) -> str:
    return f"Nowhere to go: {joined(titles)}."


def crew_facts(number: int, pressing: int) -> str:
    return f"{counted(number, 'athlete', 'athletes')} with a log, {pressing} of whom need the coach"


def logged_fact(number: int, first: str, last: str) -> str:
    return f"{counted(number, 'session', 'sessions')}, {from_to(first, last)}"


OPEN_REVIEW: Final = "review"
OPEN_PROGRESS: Final = "page for the athlete"
