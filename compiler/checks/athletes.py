"""Athletes: figures that cannot be theirs, and settings that contradict one another."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic
from ..model import DAYS, Athlete
from .examples import in_athlete
from .places import part
from .shape import DAY_TWICE

BORN_FIRST = 1900
BORN_OUT_OF_RANGE = Check(
    code="born-out-of-range",
    severity="error",
    title="A year of birth that cannot be",
    message="{athlete} cannot be born in {year}{reason}.",
    help="Write the year of birth with its four figures, such as `born 1962`.",
    explain="The year is used for what published guidelines advise by age, and for nothing else. Leave the line out where it is "
    "not known.",
    wrong=in_athlete("born 62"),
    right=in_athlete("born 1962"),
)


def find_born_out_of_range(athlete: Athlete) -> Iterator[Diagnostic]:
    if athlete.born is None:
        return
    where = part(athlete.span, r"\bborn +\d+")
    if not BORN_FIRST <= athlete.born <= 2100:
        reason = ": a year is between 1900 and 2100"
        yield BORN_OUT_OF_RANGE.at(where, athlete=athlete.title, year=athlete.born, reason=reason)
    elif athlete.starts is not None and athlete.born > athlete.starts.year:
        reason = f" and start in {athlete.starts.year}"
        yield BORN_OUT_OF_RANGE.at(where, athlete=athlete.title, year=athlete.born, reason=reason)


BODY_OUT_OF_RANGE = Check(
    code="body-out-of-range",
    severity="error",
    title="A body mass that cannot be",
    message="{athlete} cannot weigh {mass}: a body mass is between 20 kg and 300 kg.",
    help="Write the figure with its unit, such as `body 68 kg` or `body 150 lb`.",
    explain="The body mass gives the load of movements that lift a part of the body. Leave the line out where it is not known.",
    wrong=in_athlete("body 680 kg"),
    right=in_athlete("body 68 kg"),
)


def find_body_out_of_range(athlete: Athlete) -> Iterator[Diagnostic]:
    if athlete.body is not None and not 20 <= athlete.body.base <= 300:
        where = part(athlete.span, r"\bbody +[\d.]+ *[a-z]+")
        yield BODY_OUT_OF_RANGE.at(where, athlete=athlete.title, mass=athlete.body)


CAP_OUT_OF_RANGE = Check(
    code="cap-out-of-range",
    severity="error",
    title="A limit for training alone that cannot be meant",
    message="`alone at most {cap}` cannot be meant: it is 1% to 100% of the training maximum.",
    help="Write a share such as `alone at most 85%`.",
    explain="The limit holds back every load while nobody watches.",
    wrong=in_athlete("trains alone\nalone at most 0%\nmax deadlift 80 kg"),
    right=in_athlete("trains alone\nalone at most 85%\nmax deadlift 80 kg"),
)


def find_cap_out_of_range(athlete: Athlete) -> Iterator[Diagnostic]:
    if athlete.alone_cap is not None and not 1 <= athlete.alone_cap.amount <= 100:
        yield CAP_OUT_OF_RANGE.at(part(athlete.span, r"\balone +at +most +[\d.]+ *%"), cap=athlete.alone_cap)


CAP_WITHOUT_ALONE = Check(
    code="cap-without-alone",
    severity="warning",
    title="A limit for training alone, for somebody who does not",
    message="`alone at most {cap}` does nothing, because {athlete} is not said to train alone.",
    help="Add the line `trains alone`, or take this one out.",
    explain="The limit holds back loads only while nobody watches.",
    wrong=in_athlete("trains with coach\nalone at most 85%"),
    right=in_athlete("trains alone\nalone at most 85%\nmax deadlift 80 kg"),
)


def find_cap_without_alone(athlete: Athlete) -> Iterator[Diagnostic]:
    if athlete.alone_cap is not None and not athlete.alone:
        where = part(athlete.span, r"\balone +at +most +[\d.]+ *%")
        yield CAP_WITHOUT_ALONE.at(where, cap=athlete.alone_cap, athlete=athlete.title)


CAP_WITHOUT_MAXIMUM = Check(
    code="cap-without-maximum",
    severity="warning",
    title="A limit for training alone that is a share of nothing",
    message="`alone at most {cap}` holds back no load, because {athlete} has no training maximum of which it would be a share.",
    help="Add a line such as `max deadlift 80 kg` for each movement whose load is to be held back.",
    explain="The limit is a share of the training maximum in each movement. Where nobody knows the maximum, loads are as the "
    "program tells them.",
    wrong=in_athlete("trains alone\nalone at most 85%"),
    right=in_athlete("trains alone\nalone at most 85%\nmax deadlift 80 kg"),
)


def find_cap_without_maximum(athlete: Athlete) -> Iterator[Diagnostic]:
    # A maximum can follow from the load that an athlete begins with, where the dose tells a share.
    known = athlete.maxima or any(start.load is not None for start in athlete.begins)
    if athlete.alone and athlete.alone_cap is not None and not known:
        where = part(athlete.span, r"\balone +at +most +[\d.]+ *%")
        yield CAP_WITHOUT_MAXIMUM.at(where, cap=athlete.alone_cap, athlete=athlete.title)


ATHLETE_JUMP = Check(
    code="athlete-jump-out-of-range",
    severity="error",
    title="A largest jump of an athlete's load that cannot be meant",
    message="`jump {jump}` cannot be meant for {athlete}: it is more than 0% and at most 100%.",
    help="Write a share such as `jump 10%`.",
    explain="`jump` is the largest step from one load to the next; an athlete's own goes before that of the program.",
    wrong=in_athlete("jump 250%"),
    right=in_athlete("jump 25%"),
)


def find_athlete_jump(athlete: Athlete) -> Iterator[Diagnostic]:
    if athlete.jump is not None and not 0 < athlete.jump.amount <= 100:
        where = part(athlete.span, r"\bjump +[\d.]+ *%")
        yield ATHLETE_JUMP.at(where, jump=athlete.jump, athlete=athlete.title)


START_ON_FREE_DAY = Check(
    code="start-on-free-day",
    severity="advice",
    title="A start on a day without training",
    message="{athlete} starts on {date}, which is a {day}, but trains on {days}.",
    help="Write the date of the first training day, or add `{weekday}` to the days.",
    explain="Dates of sessions are counted from the start over the training days. A start on another day is often a slip in "
    "the date.",
    wrong=in_athlete("starts 2026-06-15 on tue, thu, sat"),
    right=in_athlete("starts 2026-06-16 on tue, thu, sat"),
)


def find_start_on_free_day(athlete: Athlete) -> Iterator[Diagnostic]:
    if athlete.starts is None or not athlete.days:
        return
    weekday = DAYS[athlete.starts.weekday()]
    if weekday not in athlete.days:
        where = part(athlete.span, r"\bstarts +[\d-]+")
        yield START_ON_FREE_DAY.at(
            where,
            athlete=athlete.title,
            date=athlete.starts,
            weekday=weekday,
            day=athlete.starts.strftime("%A"),
            days=", ".join(athlete.days),
        )


BEGINS_TWICE = Check(
    code="begins-twice",
    severity="error",
    title="Two beginnings of one movement",
    message="{athlete} begins `{movement}` twice, so nobody can say which counts.",
    help="Put all of it on one line, such as `begins push-up on knees, 8 reps`.",
    explain="`begins` says where an athlete starts in a movement: the load, the rung, the repetitions, the time.",
    wrong=in_athlete("begins push-up on knees\nbegins push-up 8 reps"),
    right=in_athlete("begins push-up on knees, 8 reps"),
)


def find_begins_twice(athlete: Athlete) -> Iterator[Diagnostic]:
    seen: set[str] = set()
    for start in athlete.begins:
        if start.movement in seen:
            yield BEGINS_TWICE.at(start.span, athlete=athlete.title, movement=start.movement)
        seen.add(start.movement)


BEGINS_AND_AVOIDS = Check(
    code="begins-what-is-avoided",
    severity="warning",
    title="A beginning for a movement that is avoided",
    message="{athlete} begins `{movement}`, but also avoids it.",
    help="Take one of the two lines out.",
    explain="A movement that an athlete avoids is never put on the sheet, so a beginning for it says nothing.",
    wrong=in_athlete('avoids push-up "right wrist"\nbegins push-up on knees'),
    right=in_athlete('avoids pull-up "right wrist"\nbegins push-up on knees'),
)


def find_begins_and_avoids(athlete: Athlete) -> Iterator[Diagnostic]:
    avoided = {exclusion.movement for exclusion in athlete.avoids}
    for start in athlete.begins:
        if start.movement in avoided:
            yield BEGINS_AND_AVOIDS.at(start.span, athlete=athlete.title, movement=start.movement)


BEGINS_ZERO = Check(
    code="begins-with-nothing",
    severity="error",
    title="A beginning with nothing",
    message="{athlete} cannot begin `{movement}` with {amount}.",
    help="Write the figure of the first session, or leave it out.",
    explain="`begins` says where an athlete starts; without it the figures of the program stand.",
    wrong=in_athlete("begins push-up on knees, 0 reps"),
    right=in_athlete("begins push-up on knees, 8 reps"),
)


def find_begins_zero(athlete: Athlete) -> Iterator[Diagnostic]:
    for start in athlete.begins:
        told = [f"{start.reps} repetitions"] if start.reps == 0 else []
        told += [str(amount) for amount in (start.load, start.amount) if amount is not None and amount.base == 0]
        if told:
            yield BEGINS_ZERO.at(start.span, athlete=athlete.title, movement=start.movement, amount=told[0])


MAX_OUT_OF_RANGE = Check(
    code="max-out-of-range",
    severity="error",
    title="A training maximum that cannot be",
    message="{athlete} cannot have a training maximum of {mass} in `{movement}`: it is more than 0 kg and at most {most} kg.",
    help="Write the load of one good repetition, or a little less, such as `max {movement} 80 kg`.",
    explain="Loads that are told as shares, such as `at 70%`, are shares of the training maximum.",
    wrong=in_athlete("max deadlift 0 kg"),
    right=in_athlete("max deadlift 80 kg"),
)


def find_max_out_of_range(athlete: Athlete) -> Iterator[Diagnostic]:
    most = 500
    for movement, mass in athlete.maxima:
        if not 0 < mass.base <= most:
            where = part(athlete.span, rf"\bmax +{movement} +[\d.]+ *[a-z]+")
            yield MAX_OUT_OF_RANGE.at(where, athlete=athlete.title, movement=movement, mass=mass, most=most)


MAX_TWICE = Check(
    code="max-twice",
    severity="error",
    title="Two training maxima in one movement",
    message="{athlete} has two training maxima in `{movement}`.",
    help="Keep the one that holds now.",
    explain="Loads that are told as shares, such as `at 70%`, are shares of the one training maximum.",
    wrong=in_athlete("max deadlift 70 kg\nmax deadlift 80 kg"),
    right=in_athlete("max deadlift 80 kg"),
)


def find_max_twice(athlete: Athlete) -> Iterator[Diagnostic]:
    names = [movement for movement, _ in athlete.maxima]
    for name in dict.fromkeys(name for name in names if names.count(name) > 1):
        written = rf"(?<=[ \n])max +{name} +[\d.]+ *[a-z]+"
        yield MAX_TWICE.at(part(athlete.span, written, nth=2), athlete=athlete.title, movement=name)


def find_day_twice_of_athlete(athlete: Athlete) -> Iterator[Diagnostic]:
    for day in dict.fromkeys(day for day in athlete.days if athlete.days.count(day) > 1):
        yield DAY_TWICE.at(part(athlete.span, rf"\bon [a-z, ]*\b{day}\b"), day=day)
