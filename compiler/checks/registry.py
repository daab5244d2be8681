"""The checks: one function for each, with its code, title, severity, source and examples.

The functions stand in tuples by what they look at, the checks in one tuple in the order of the reference.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

import attrs

from ...grammar.diagnostic import Check, Diagnostic
from ...grammar.problems import CHECKS as GRAMMAR_CHECKS
from ..model import Athlete, Log, Movement, Program, Project
from . import (
    advice,
    allows,
    at_hand,
    athletes,
    beginnings,
    bounds,
    comeback,
    coverage,
    dose,
    dose_fit,
    ease,
    easier,
    fitted_sessions,
    fitting,
    fittings,
    follow,
    implements,
    load_steps,
    log_figures,
    log_files,
    logged,
    logs,
    look,
    minutes,
    movements,
    names,
    outgrown,
    progress,
    projects,
    shape,
    tempo,
    text,
    training,
    undone,
)

if TYPE_CHECKING:
    from ..fitting import Fitting

PROGRAM_CHECKS: tuple[Callable[[Program], Iterator[Diagnostic]], ...] = (
    shape.find_program_empty, shape.find_session_empty, shape.find_block_empty, shape.find_movement_twice,
    shape.find_else_itself, shape.find_rounds_out_of_range, shape.find_weeks_out_of_range,
    shape.find_how_often_missing, shape.find_revision_zero, shape.find_jump_out_of_range,
    shape.find_days_out_of_range, shape.find_day_twice, easier.find_week_out_of_range, easier.find_week_twice,
    easier.find_weeks_without_runs, easier.find_all_weeks_easier, easier.find_axis_unfit, easier.find_unit_unfit,
    easier.find_not_down, easier.find_leaves_nothing, easier.find_leaves_little,
    easier.find_changes_nothing, coverage.find_category_empty,
    coverage.find_optional_carries_category, coverage.find_category_unreached,
    coverage.find_category_counts_nothing, minutes.find_session_over_limit, minutes.find_short_impossible,
    minutes.find_short_not_shorter, minutes.find_short_cuts_nothing, minutes.find_short_twice,
    minutes.find_limit_out_of_range, minutes.find_rest_out_of_range, dose.find_rep_range_backwards,
    dose.find_sets_out_of_range, dose.find_reps_out_of_range, dose.find_dose_out_of_range,
    dose.find_least_sets_out_of_range, dose.find_leaving_without_amrap, dose.find_leaving_out_of_range,
    dose.find_amrap_without_expect, dose.find_percent_out_of_range, dose.find_load_zero, dose.find_rpe_out_of_range,
    dose_fit.find_held_without_time, dose_fit.find_load_without_implement, dose_fit.find_ramp_without_implement,
    dose_fit.find_ramp_not_rising, dose_fit.find_circuit_with_sets, dose_fit.find_rest_in_circuit,
    tempo.find_tempo_on_hold, tempo.find_pause_twice, tempo.find_tempo_out_of_range, tempo.find_tempo_zero,
    progress.find_advance_missing, progress.find_after_without_advance, progress.find_axis_twice,
    progress.find_needs_load, progress.find_axis_unfit, progress.find_step_missing,
    progress.find_restarting_unknown, progress.find_restarting_itself, progress.find_after_out_of_range,
    bounds.find_step_unit, bounds.find_bound_unit, bounds.find_step_zero, bounds.find_bound_passed,
    bounds.find_step_past_bound, bounds.find_rung_bound_unknown, bounds.find_axis_never_reached,
    ease.find_ease_unfit, ease.find_at_unfit, ease.find_at_above_bound, advice.find_strength_days_few,
    advice.find_strength_minutes_few,
    advice.find_more_push_than_pull, look.find_accent_pale, look.find_logo_untold, load_steps.find_step_over_jump,
    load_steps.find_load_step_large, load_steps.find_jump_large, text.find_unfinished, text.find_no_glyph,
)  # fmt: skip

# Of a program that leads back to another: what is wrong with that one is told there.
RETURN_CHECKS: tuple[Callable[[Program], Iterator[Diagnostic]], ...] = (
    shape.find_revision_zero, comeback.find_break_out_of_range, comeback.find_share_out_of_range,
    comeback.find_shares_fall, comeback.find_shares_uneven, comeback.find_weeks_many,
    comeback.find_short_break, comeback.find_long_break, look.find_accent_pale, look.find_logo_untold, text.find_unfinished,
    text.find_no_glyph,
)  # fmt: skip

MOVEMENT_CHECKS: tuple[Callable[[Movement], Iterator[Diagnostic]], ...] = (
    movements.find_without_pattern, movements.find_without_cue, movements.find_without_caution,
    movements.find_without_how, movements.find_rungs_alone, movements.find_rungs_falling,
    movements.find_share_out_of_range, movements.find_rep_time_out_of_range, movements.find_held_with_rep_time,
    movements.find_speed_out_of_range, text.find_unfinished, text.find_no_glyph,
)  # fmt: skip

ATHLETE_CHECKS: tuple[Callable[[Athlete], Iterator[Diagnostic]], ...] = (
    athletes.find_born_out_of_range, athletes.find_body_out_of_range, athletes.find_cap_out_of_range,
    athletes.find_cap_without_alone, athletes.find_cap_without_maximum, athletes.find_athlete_jump,
    athletes.find_start_on_free_day,
    athletes.find_begins_twice, athletes.find_begins_and_avoids, athletes.find_begins_zero,
    athletes.find_max_out_of_range, athletes.find_max_twice, athletes.find_day_twice_of_athlete,
    beginnings.find_band_unknown, implements.find_implement_unfit, implements.find_plates_odd,
    implements.find_plates_many, implements.find_plates_too_fine, implements.find_mass_out_of_range,
    implements.find_volume_out_of_range, implements.find_container_empty,
    implements.find_container_weightless, implements.find_container_over_limit,
    implements.find_implement_twice, text.find_unfinished, text.find_no_glyph,
)  # fmt: skip

LOG_CHECKS: tuple[Callable[[Log, Project], Iterator[Diagnostic]], ...] = (
    logs.find_before_start, logs.find_logged_twice, logs.find_out_of_order, logs.find_minutes_out_of_range,
    logs.find_logged_rpe_out_of_range, logs.find_short_unknown, logs.find_movement_logged_twice,
    logs.find_before_revision, logs.find_figure_unfit, logs.find_logged_band_unknown,
    log_figures.find_load_not_makeable, log_figures.find_figure_unlikely,
    logged.find_over_cap, logged.find_load_unfit, logged.find_load_missing, logged.find_after_end, text.find_unfinished,
)  # fmt: skip

PROJECT_CHECKS: tuple[Callable[[Project], Iterator[Diagnostic]], ...] = (
    projects.find_revision_backwards, projects.find_member_twice, projects.find_group_in_itself,
)  # fmt: skip

# On athletes and the programs that they train by: of each athlete they find the same in a project of that athlete alone.
TRAINING_CHECKS: tuple[Callable[[Project], Iterator[Diagnostic]], ...] = (
    beginnings.find_begins_past_bound, training.find_begins_unused, training.find_begins_unfit, training.find_max_unused,
    training.find_max_missing, training.find_follows_twice, training.find_days_few, training.find_days_clash,
    advice.find_balance_days_few, at_hand.find_implement_unused, at_hand.find_nothing_at_hand,
)  # fmt: skip

# The checks in the order of the reference: the title of a family, and its checks.
FAMILIES: tuple[tuple[str, tuple[Check, ...]], ...] = (
    ("The frame of a program", (
        shape.PROGRAM_EMPTY, shape.SESSION_EMPTY, shape.BLOCK_EMPTY, shape.MOVEMENT_TWICE, shape.ELSE_ITSELF,
        shape.ROUNDS_OUT_OF_RANGE, shape.WEEKS_OUT_OF_RANGE, shape.HOW_OFTEN_MISSING, shape.REVISION_ZERO,
        shape.JUMP_OUT_OF_RANGE, shape.DAYS_OUT_OF_RANGE, shape.DAY_TWICE,
    )),
    ("Easier weeks", (
        easier.WEEK_OUT_OF_RANGE, easier.WEEK_TWICE, easier.WEEKS_WITHOUT_RUNS, easier.ALL_WEEKS_EASIER,
        easier.AXIS_UNFIT, easier.UNIT_UNFIT, easier.NOT_DOWN, easier.LEAVES_NOTHING, easier.LEAVES_LITTLE,
        easier.CHANGES_NOTHING,
    )),
    ("Coming back after a break", (
        comeback.BREAK_OUT_OF_RANGE, comeback.SHARE_OUT_OF_RANGE, comeback.SHARES_FALL, comeback.SHARES_UNEVEN,
        comeback.WEEKS_MANY, comeback.TO_A_RETURN, comeback.BESIDE, comeback.SHORT_BREAK, comeback.LONG_BREAK,
    )),
    ("Categories", (
        coverage.CATEGORY_EMPTY, coverage.OPTIONAL_CARRIES_CATEGORY, coverage.CATEGORY_UNREACHED,
        coverage.CATEGORY_COUNTS_NOTHING,
    )),
    ("Minutes", (
        minutes.SESSION_OVER_LIMIT, minutes.SHORT_IMPOSSIBLE, minutes.SHORT_NOT_SHORTER,
        minutes.SHORT_CUTS_NOTHING, minutes.SHORT_TWICE, minutes.LIMIT_OUT_OF_RANGE, minutes.REST_OUT_OF_RANGE,
    )),
    ("Doses", (
        dose.REP_RANGE_BACKWARDS, dose.SETS_OUT_OF_RANGE, dose.REPS_OUT_OF_RANGE, dose.DOSE_OUT_OF_RANGE,
        dose.LEAST_SETS_OUT_OF_RANGE, dose.LEAVING_WITHOUT_AMRAP, dose.LEAVING_OUT_OF_RANGE,
        dose.AMRAP_WITHOUT_EXPECT, dose.PERCENT_OUT_OF_RANGE, dose.LOAD_ZERO, dose.RPE_OUT_OF_RANGE,
        dose_fit.HELD_WITHOUT_TIME, dose_fit.LOAD_WITHOUT_IMPLEMENT, dose_fit.RAMP_WITHOUT_IMPLEMENT,
        dose_fit.RAMP_NOT_RISING, dose_fit.CIRCUIT_WITH_SETS, dose_fit.REST_IN_CIRCUIT, tempo.TEMPO_ON_HOLD,
        tempo.PAUSE_TWICE, tempo.TEMPO_OUT_OF_RANGE, tempo.TEMPO_ZERO,
    )),
    ("Progression", (
        progress.ADVANCE_MISSING, progress.AFTER_WITHOUT_ADVANCE, progress.AXIS_TWICE, progress.NEEDS_LOAD,
        progress.AXIS_UNFIT, progress.STEP_MISSING, progress.RESTARTING_UNKNOWN, progress.RESTARTING_ITSELF,
        progress.AFTER_OUT_OF_RANGE, bounds.STEP_UNIT, bounds.BOUND_UNIT, bounds.STEP_ZERO, bounds.BOUND_PASSED,
        bounds.STEP_PAST_BOUND, bounds.RUNG_BOUND_UNKNOWN, bounds.AXIS_NEVER_REACHED, load_steps.STEP_OVER_JUMP, ease.EASE_UNFIT,
        ease.AT_UNFIT, ease.AT_ABOVE_BOUND,
    )),
    ("Movements", (
        movements.WITHOUT_PATTERN, movements.WITHOUT_CUE, movements.WITHOUT_CAUTION, movements.WITHOUT_HOW,
        movements.RUNGS_ALONE, movements.RUNGS_FALLING, movements.SHARE_OUT_OF_RANGE,
        movements.REP_TIME_OUT_OF_RANGE, movements.HELD_WITH_REP_TIME, movements.SPEED_OUT_OF_RANGE,
    )),
    ("Athletes", (
        athletes.BORN_OUT_OF_RANGE, athletes.BODY_OUT_OF_RANGE, athletes.CAP_OUT_OF_RANGE, athletes.CAP_WITHOUT_ALONE,
        athletes.CAP_WITHOUT_MAXIMUM,
        athletes.ATHLETE_JUMP, athletes.START_ON_FREE_DAY, athletes.BEGINS_TWICE, athletes.BEGINS_AND_AVOIDS,
        athletes.BEGINS_ZERO, beginnings.BEGINS_WITHOUT_LOAD, beginnings.BEGINS_WITHOUT_BAND, beginnings.BAND_UNKNOWN,
        beginnings.BEGINS_PAST_BOUND, athletes.MAX_OUT_OF_RANGE, athletes.MAX_TWICE,
    )),
    ("What there is to lift", (
        implements.IMPLEMENT_UNFIT, implements.PLATES_ODD, implements.PLATES_MANY, implements.PLATES_TOO_FINE,
        implements.MASS_OUT_OF_RANGE, implements.VOLUME_OUT_OF_RANGE, implements.CONTAINER_EMPTY, implements.CONTAINER_WEIGHTLESS,
        implements.CONTAINER_OVER_LIMIT, implements.IMPLEMENT_TWICE, at_hand.IMPLEMENT_UNUSED,
        at_hand.NOTHING_AT_HAND,
    )),
    ("Athletes and the programs that they train by", (
        training.FOLLOWS_TWICE, training.BEGINS_UNUSED, training.BEGINS_UNFIT, training.MAX_UNUSED,
        training.MAX_MISSING, training.DAYS_FEW, training.DAYS_CLASH,
    )),
    ("A program fitted to an athlete", (
        fitting.MUST_IMPOSSIBLE, fitting.CATEGORY_UNFILLED, fitting.LEFT_OUT, fitting.ELSE_STAYS,
        fitting.BEGINS_UNMAKEABLE, fitting.BEGINS_RUNG_MISSING, undone.BEGINS_UNDONE, fitted_sessions.FITTED_OVER_LIMIT,
        fitted_sessions.FITTED_SHORT_IMPOSSIBLE, fitted_sessions.FITTED_WEEK_UNREACHED, outgrown.OUTGROWN,
        outgrown.SHORT_OUTGROWN,
    )),
    ("Logs", (
        logs.BEFORE_START, logs.LOGGED_TWICE, logs.OUT_OF_ORDER, logs.MINUTES_OUT_OF_RANGE, logs.SHORT_UNKNOWN,
        logs.MOVEMENT_LOGGED_TWICE, logs.BEFORE_REVISION, logs.FIGURE_UNFIT, beginnings.LOGGED_WITHOUT_BAND,
        logs.LOGGED_BAND_UNKNOWN, logs.LOGGED_VOLUME, log_figures.LOAD_NOT_MAKEABLE, log_figures.FIGURE_UNLIKELY,
        logged.FAR_AHEAD, logged.SETS_MANY, logged.OVER_CAP, logged.LOAD_UNFIT, logged.LOAD_MISSING, logged.AFTER_END,
    )),
    ("Logs as tables", log_files.CHECKS),
    ("How sheets look", look.CHECKS),
    ("Revisions and groups", (
        projects.REVISION_BACKWARDS, projects.MEMBER_TWICE, projects.GROUP_IN_ITSELF,
    )),
    ("Advice on a week of training, and on steps of the load", (
        advice.TOO_FEW_STRENGTH_DAYS, advice.TOO_FEW_STRENGTH_MINUTES, advice.TOO_FEW_BALANCE_DAYS,
        advice.MORE_PUSH_THAN_PULL, load_steps.JUMP_LARGE, load_steps.STEP_LARGE,
    )),
    ("Texts, and what is allowed", (
        text.UNFINISHED, text.NO_GLYPH, allows.ALLOW_UNKNOWN, allows.ALLOW_ERROR, allows.ALLOW_UNUSED,
    )),
)  # fmt: skip

ALL: tuple[Check, ...] = tuple(check for _, checks in FAMILIES for check in checks)
KNOWN: tuple[Check, ...] = (*GRAMMAR_CHECKS, *names.CHECKS, *ALL)


def check_project(project: Project, earlier: Iterable[Diagnostic] = ()) -> tuple[Diagnostic, ...]:
    """All findings in a project, and those of earlier stages, in the order of the source.

    Left out are those that the coach allows, and those that only follow from an error of an earlier stage.
    """
    told = tuple(earlier)
    found = [*told, *_found_in_programs(project), *_found_in_people(project), *_found_together(project)]
    found += fittings.unfit(project, found)
    return follow.without_follow_on(allows.settle(project, found, KNOWN), told)


def check_person(project: Project, earlier: Iterable[Diagnostic], fitted: list[Fitting]) -> tuple[Diagnostic, ...]:
    """The findings on the athletes and logs of a project whose programs are checked elsewhere, as `check_project` has them.

    `fitted` takes the programs of the athletes, fitted to them.
    """
    told = tuple(earlier)
    alone = attrs.evolve(project, movements=(), programs=())
    found = [*told, *_found_in_people(project)]
    found += fittings.unfit(project, found, fitted)
    settled = allows.settle(alone, found, KNOWN)
    return follow.without_follow_on(allows.without_allowed(project, settled) if settled else settled, told)


def _found_in_programs(project: Project) -> Iterator[Diagnostic]:
    for movement in project.movements:
        for find_in_movement in MOVEMENT_CHECKS:
            yield from find_in_movement(movement)
    for program in project.programs:
        for find_in_program in PROGRAM_CHECKS if program.returns is None else RETURN_CHECKS:
            yield from find_in_program(program)


def _found_in_people(project: Project) -> Iterator[Diagnostic]:
    for athlete in project.athletes:
        for find_in_athlete in ATHLETE_CHECKS:
            yield from find_in_athlete(athlete)
    for log in project.logs:
        for find_in_log in LOG_CHECKS:
            yield from find_in_log(log, project)
    for find_in_training in TRAINING_CHECKS:
        yield from find_in_training(project)


def _found_together(project: Project) -> Iterator[Diagnostic]:
    for find_in_project in PROJECT_CHECKS:
        yield from find_in_project(project)
