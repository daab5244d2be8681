"""The clock, the pace line with what to leave out, and the timers: right after the phone has slept, too.

The browser's clock is a stand-in that the tests move, so nothing here waits.
"""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from setwright.compiler.clock import timetable
from setwright.compiler.cut_list import cut_list
from setwright.compiler.fitting import Fitting
from setwright.targets.handout.late import late

from .conftest import open_block, open_session, set_of

BEGINNING = datetime(2026, 6, 17, 18)


@pytest.fixture
def page(visit: Callable, log_page: Path) -> Any:
    """A session that has just begun."""
    page = visit(log_page)
    page.clock.install(time=BEGINNING)
    page.reload()
    page.clock.run_for(1000)
    open_session(page, "Main session, Monday")
    page.get_by_role("button", name="Start the clock").click()
    return page


def later(page: Any, minutes: float) -> None:
    """The phone sleeps for some minutes, and wakes."""
    page.clock.fast_forward(round(minutes * 60_000))
    page.clock.run_for(600)


def clock(page: Any) -> str:
    return page.get_by_role("group", name="Clock").inner_text()


def test_the_clock_is_right_after_a_sleep(page: Any, maren: Fitting):
    session = maren.program.sessions[0]
    legs = int(timetable(maren.program, session).blocks[1].start // 60)
    assert clock(page) == f"Minute 0 On time. Next: Legs, minute {legs}."
    later(page, 4)
    assert clock(page) == f"Minute 4 On time. Next: Legs, minute {legs}."
    later(page, legs - 4 + 2)
    assert clock(page).startswith(f"Minute {legs + 2} ")
    assert "1 min behind the plan. Leave nothing out." in clock(page) or "2 min behind" in clock(page)


def test_the_clock_goes_on_when_the_page_is_loaded_again(page: Any):
    later(page, 3)
    page.reload()
    page.clock.run_for(1000)
    later(page, 2)
    assert clock(page).startswith("Minute 5")


def begin_legs(page: Any, seconds: float) -> None:
    """Begins the second block some seconds after the session."""
    page.clock.fast_forward(round(seconds * 1000) - 2000)
    page.get_by_role("button", name="Go on: Legs").click()
    page.clock.run_for(600)


@pytest.mark.parametrize("step", [0, 1, 3])
def test_what_to_leave_out_is_that_of_the_handout(step: int, page: Any, maren: Fitting):
    """A little before a cut is needed there are those before it, a little after it is there, too."""
    session = maren.program.sessions[0]
    pace = cut_list(maren.program, session).pace[1]
    told = late(maren.program, session)
    until = pace.until[step]
    assert told is not None and pace.block.title == "Legs" and until is not None
    begin_legs(page, float(until) + 5)
    page.get_by_role("button", name="What to leave out").click()
    listed = page.locator("#late li").all_inner_texts()
    assert listed == [f"{row.what} Saves {row.saves}." for row in told.cuts[: step + 1]]
    assert "You run late" in page.locator("#late").inner_text()


def test_before_the_first_cut_nothing_is_left_out(page: Any, maren: Fitting):
    until = cut_list(maren.program, maren.program.sessions[0]).pace[1].until[0]
    assert until is not None
    begin_legs(page, float(until) - 5)
    assert not page.get_by_role("button", name="What to leave out").is_visible()
    assert not page.locator("#late").is_visible()


def test_a_cut_stands_with_its_movement(page: Any, maren: Fitting):
    session = maren.program.sessions[0]
    found = cut_list(maren.program, session)
    until = found.pace[1].until[0]
    assert until is not None
    begin_legs(page, float(until) + 5)
    (less,) = found.steps[0].less
    assert less.entry is not None
    card = page.locator("article", has_text=less.entry.movement.title)
    assert f"Running late: only {less.kept} of {len(less.entry.dose.sets)} sets." in card.inner_text()
    set_of(page, 1, less.entry.movement.title).fill("8")
    set_of(page, 2, less.entry.movement.title).fill("8")
    page.clock.run_for(600)
    assert "Running late" not in card.inner_text()  # done already


def test_too_late_for_any_cut(page: Any, maren: Fitting):
    session = maren.program.sessions[0]
    told = late(maren.program, session)
    assert told is not None
    begin_legs(page, float(cut_list(maren.program, session).pace[1].last) + 30)
    page.get_by_role("button", name="What to leave out").click()
    assert told.last in page.locator("#late").inner_text()


def test_being_late_is_said_aloud_once(page: Any, maren: Fitting):
    until = cut_list(maren.program, maren.program.sessions[0]).pace[1].until[0]
    assert until is not None
    page.clock.fast_forward(round(float(until) * 1000) + 3000)
    page.clock.run_for(1000)
    assert page.get_by_role("status").first.inner_text() == "You run late. The page lists what to leave out."


def test_the_minutes_are_those_of_the_clock(page: Any):
    later(page, 47)
    page.get_by_role("button", name="I am done").click()
    page.get_by_role("link", name="Main session, Monday").click()
    assert page.get_by_label("Minutes it took").input_value() == "47"


def timer(page: Any) -> str:
    return page.locator("#bar .time").inner_text()


def test_the_rest_timer_has_the_planned_rest(page: Any):
    open_block(page, "Legs")
    page.get_by_role("button", name="Rest 1:00 after a set: Goblet squat").click()
    assert timer(page) == "1:00"
    page.clock.run_for(10_000)
    assert timer(page) in {"0:50", "0:51"}
    page.get_by_role("button", name="15 seconds more").click()
    page.clock.run_for(300)
    assert timer(page) in {"1:06", "1:05", "1:04"}
    later(page, 2)  # a sleep longer than the rest
    assert timer(page) == "The rest is over"
    assert "over since 0:5" in page.locator("#bar").inner_text()
    assert page.get_by_role("status").first.inner_text() == "The rest is over"
    page.get_by_role("button", name="Close").click()
    assert not page.locator("#bar").is_visible()


def test_a_rest_goes_on_when_the_page_is_loaded_again(page: Any):
    open_block(page, "Legs")
    page.get_by_role("button", name="Rest 1:00 after a set: Goblet squat").click()
    page.clock.run_for(10_000)
    page.reload()
    page.clock.run_for(5_000)
    assert timer(page) in {"0:46", "0:45", "0:44"}


def test_a_forgotten_timer_goes_by_itself(page: Any):
    open_block(page, "Legs")
    page.get_by_role("button", name="Rest 1:00 after a set: Goblet squat").click()
    later(page, 3)
    assert page.locator("#bar").is_visible()
    page.get_by_label("Minutes it took").focus()
    later(page, 3)
    assert not page.locator("#bar").is_visible()


def test_a_round_has_its_own_rest(page: Any):
    open_block(page, "Push and pull")
    page.get_by_role("button", name="Rest 0:30 after the round").click()
    assert timer(page) == "0:30"


def test_the_tempo_counter(page: Any):
    """A split squat: lower for three seconds, come back in half of what a repetition takes without a tempo."""
    open_block(page, "Legs")
    page.get_by_role("button", name="Count the tempo: Split squat").click()
    assert "Get ready" in page.locator("#bar").inner_text()
    seen = []
    page.clock.run_for(3000)
    for _ in range(60):
        page.clock.run_for(500)
        told = (timer(page), page.locator("#bar .count").inner_text())
        if not seen or seen[-1] != told:
            seen.append(told)
    lowered = [one for one in seen if one[1] == "Repetition 1 of 6"]
    assert [told for told, _ in lowered][:4] == ["Lower 1", "Lower 2", "Lower 3", "Come back 1"]
    assert ("Lower 1", "Repetition 6 of 6") in seen and seen[-1] == ("The set is counted", "")


def test_a_held_set_is_timed(page: Any):
    open_block(page, "Balance")
    page.get_by_role("button", name="Time it, 0:20: Single leg stand").click()
    assert "Get ready" in page.locator("#bar").inner_text()
    page.clock.run_for(3500)
    assert timer(page) in {"0:20", "0:19"}
    page.clock.run_for(20_000)
    assert timer(page) == "The time is over"


def test_nothing_vibrates_or_sounds_unless_it_is_switched_on(visit: Callable, log_page: Path):
    page = visit(log_page, before="""
        window.made = [];
        Navigator.prototype.vibrate = function (pattern) { window.made.push("vibrate"); return true; };
        window.AudioContext = class { currentTime = 0; destination = null; resume() {}
          createOscillator() { return { frequency: {}, connect() {}, start() { window.made.push("sound"); }, stop() {} }; } };
    """)  # fmt: skip
    page.clock.install(time=BEGINNING)
    page.reload()
    page.clock.run_for(1000)
    open_session(page, "Main session, Monday", "Legs")
    rest = page.get_by_role("button", name="Rest 1:00 after a set: Goblet squat")
    rest.click()
    page.clock.run_for(61_000)
    assert page.evaluate("window.made") == []
    page.get_by_label("Vibrate").check()
    page.get_by_label("Sound").check()
    rest.click()
    page.clock.run_for(61_000)
    assert sorted(set(page.evaluate("window.made"))) == ["sound", "vibrate"]
