"""Where findings stand: the words that are wrong, and no others."""

from __future__ import annotations

import pytest
from setwright.compiler.pipeline import compile_texts

HEAD = "use basics\n\nprogram store-room\n"


def found(text: str) -> list[tuple[str, str]]:
    return [(one.code, one.span.text) for one in compile_texts({"program.coach": text}).diagnostics]


def block(*lines: str, clauses: str = "", session: str = "") -> str:
    body = "".join(f"      {line}\n" for line in lines)
    return f"{HEAD}  session main{session}\n    block legs{clauses}\n{body}"


MORE = "  advance reps by 1 to 15"
ENTRY = "must chair-stand 3 x 10"


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        # doses
        ([f"{ENTRY}-6", "  advance sets by 1 to 5"], [("rep-range-backwards", "10-6")]),
        (["must chair-stand 0 x 10", "  advance rung"], [("sets-out-of-range", "0 x")]),
        (["must chair-stand 3 x 0", "  advance rung"], [("reps-out-of-range", "0")]),
        (["must walk 1 x 0 km", "  advance distance by 5%"], [("dose-out-of-range", "0 km")]),
        (["must walk 1 x 30 h", "  advance time by 5%"], [("dose-out-of-range", "30 h")]),
        ([f"{ENTRY}, at least 0 sets", MORE], [("least-sets-out-of-range", "at least 0 sets")]),
        ([f"{ENTRY}, expect 9", MORE], [("leaving-without-amrap", "expect 9")]),
        (
            ["must back-squat sets 5 at 65%, 5 at 0%, amrap at 85%, expect 5", "  advance load"],
            [("percent-out-of-range", "0%")],
        ),
        (["must back-squat 3 x 5, ramp 130% x 5", "  advance load"], [("percent-out-of-range", "130%")]),
        ([f"{ENTRY} at rpe 10.5", MORE], [("rpe-out-of-range", "rpe 10.5")]),
        # an alternative has its own dose
        ([ENTRY, MORE, "  else plank 3 x 10"], [("held-without-time", "3 x 10")]),
        ([ENTRY, MORE, "  else plank 3 x 30 s, raise fast"], [("tempo-on-hold", "raise fast")]),
        # tempo on a timed dose of a movement with repetitions
        (["must chair-stand 3 x 30 s, pause 2 s", "  advance time by 5 s"], [("tempo-on-hold", "pause 2 s")]),
        (["must goblet-squat 3 x 8, tempo 90-1-1-0", "  advance load"], [("tempo-out-of-range", "tempo 90-1-1-0")]),
        # axes that the dose does not have
        (["must plank 2 x 30 s", "  advance lower by 1 s to 6 s"], [("advance-axis-unfit", "lower by 1 s to 6 s")]),
        ([ENTRY, "  advance hold by 5 s"], [("advance-axis-unfit", "hold by 5 s")]),
        ([ENTRY, "  advance distance by 5 m"], [("advance-axis-unfit", "distance by 5 m")]),
        ([ENTRY, "  advance cues by 1 to 5"], [("advance-axis-unfit", "cues by 1 to 5")]),
        ([ENTRY, "  advance lower by 1 s to 5 s"], [("advance-axis-unfit", "lower by 1 s to 5 s")]),
        (
            ["must split-squat 3 x 8, pause 3 cues", "  advance pause by 1 s to 4 s"],
            [("advance-axis-unfit", "pause by 1 s to 4 s")],
        ),
        (["must split-squat 3 x 8, pause 3 cues", "  advance cues by 1 to 6"], []),
        (["must split-squat 3 x 8, pause 3 s", "  advance pause by 1 s to 4 s"], []),
        (["must split-squat 3 x 8", "  advance rung"], [("advance-axis-unfit", "rung")]),
        (["must push-up 3 x amrap, expect 9", MORE], [("advance-axis-unfit", "reps by 1 to 15")]),
        (["must chair-stand sets 10, 8", "  advance sets by 1 to 5"], [("advance-axis-unfit", "sets by 1 to 5")]),
        # steps and bounds
        ([ENTRY, "  advance reps by 2 s"], [("step-unit-mismatch", "by 2 s")]),
        ([ENTRY, "  advance rung by 1"], [("step-unit-mismatch", "by 1")]),
        ([ENTRY, "  advance reps by 0"], [("step-zero", "by 0")]),
        ([ENTRY, "  advance reps by 1 to ten"], [("bound-unit-mismatch", "to ten")]),
        ([ENTRY, "  advance reps by 1 to 10"], [("bound-below-start", "to 10")]),
        ([f"{ENTRY}, rest 30 s", "  advance rest by 5 s to 60 s"], [("bound-below-start", "to 60 s")]),
        ([f"{ENTRY}, rest 60 s", "  advance rest by 45 s to 30 s"], [("step-past-bound", "rest by 45 s to 30 s")]),
        ([ENTRY, "  advance rest by 15 s to 30 s"], []),  # from the 60 s that stand where nothing is said
        (["must walk 1 x 30 min, log distance and time", "  advance distance by 5% to 4 km"], []),
        (["must goblet-squat 3 x 8 at 12 kg", "  advance load to 12 kg"], [("bound-below-start", "to 12 kg")]),
        (["must goblet-squat 3 x 8 at 25 lb", "  advance load to 11 kg"], [("bound-below-start", "to 11 kg")]),
        (["must goblet-squat 3 x 8 at 70%", "  advance load by 2.5% to 85%"], []),
        (["must chair-stand 3 x 6-10", "  advance reps by 1 to 10"], []),
        # a bound that is passed at the start, on every axis that has a start
        (["must chair-stand 3 x 8", "  advance total reps by 1 to 24"], [("bound-below-start", "to 24")]),
        (["must chair-stand 3 x 8", "  advance sets by 1 to 3"], [("bound-below-start", "to 3")]),
        (["must push-up 3 x amrap, expect 9", "  advance total reps by 1 to 20"], [("bound-below-start", "to 20")]),
        (["must split-squat 3 x 8, lower 3 s", "  advance lower by 1 s to 2 s"], [("bound-below-start", "to 2 s")]),
        (["must split-squat 3 x 8, pause 3 s", "  advance pause by 1 s to 3 s"], [("bound-below-start", "to 3 s")]),
        (["must split-squat 3 x 8", "  advance pause by 1 s to 0 s"], [("bound-below-start", "to 0 s")]),
        (["must split-squat 3 x 8", "  advance pause by 3 s to 2 s"], [("step-past-bound", "pause by 3 s to 2 s")]),
        (["must split-squat 3 x 8, pause 3 cues", "  advance cues by 1 to 2"], [("bound-below-start", "to 2")]),
        (["must plank 2 x 30 s", "  advance hold by 5 s to 20 s"], [("bound-below-start", "to 20 s")]),
        (["must walk 1 x 10 min", "  advance time by 1 min to 600 s"], [("bound-below-start", "to 600 s")]),
        (["must jerrycan-carry 2 x 20 m", "  advance distance by 5 m to 10 m"], [("bound-below-start", "to 10 m")]),
        (["must goblet-squat 3 x 8 at 70%", "  advance load by 2.5% to 65%"], [("bound-below-start", "to 65%")]),
        (["must back-squat sets 5 at 65%, 5 at 85%", "  advance load by 2% to 80%"], [("bound-below-start", "to 80%")]),
        (["must back-squat sets 5 at 65%, 5 at 75%", "  advance load by 2% to 80%"], []),
        (["must goblet-squat 3 x 8", "  advance load to 0 kg"], [("bound-below-start", "to 0 kg")]),
        (["must walk 1 x 10 min, log distance", "  advance distance by 5% to 0 km"], [("bound-below-start", "to 0 km")]),
        ([ENTRY, "  advance rung to low"], [("rung-bound-unknown", "to low")]),
        ([ENTRY, "  advance rung at 15 reps, then sets by 1 to 5"], []),
        # restarting
        ([ENTRY, "  advance rung restarting reps"], [("restarting-unknown-axis", "restarting reps")]),
        ([ENTRY, "  advance reps by 1 to 15, then rung restarting reps and total reps"],
         [("restarting-unknown-axis", "restarting reps and total reps")]),
        # easing
        ([ENTRY, MORE, "  after 2 missed, ease reps 0%"], [("ease-unfit", "ease reps 0%")]),
        ([ENTRY, MORE, "  after 2 missed, ease reps 100%"], [("ease-unfit", "ease reps 100%")]),
        ([ENTRY, MORE, "  after 2 missed, ease hold 5 s"], [("ease-unfit", "ease hold 5 s")]),
        # texts
        ([ENTRY, MORE, "  | Sit down ..."], [("unfinished-text", "...")]),
        ([ENTRY, MORE, "  | Hold on to <what>."], [("unfinished-text", "<what>")]),
        ([ENTRY, MORE, "  | Ask ____ for the key."], [("unfinished-text", "____")]),
        ([ENTRY, MORE, "  | And breathe... then stand up. 3 < 5 > 2."], []),
        ([ENTRY, MORE, "  # TODO: ask the shore coach"], []),
        ([ENTRY, '  advance none because ""'], [("unfinished-text", '""')]),
    ],
)  # fmt: skip
def test_the_words_that_are_wrong(lines: list[str], expected: list[tuple[str, str]]) -> None:
    assert found(block(*lines)) == expected


def test_the_rounds_of_a_circuit_are_its_sets() -> None:
    for bound, expected in (("25", []), ("24", [("bound-below-start", "to 24")])):
        lines = ("must chair-stand 8", f"  advance total reps by 1 to {bound}")
        assert found(block(*lines, clauses=", rounds 3")) == expected


def test_a_comment_is_not_taken_for_the_words() -> None:
    text = (
        HEAD
        + "  # runs 0 weeks is no use\n  runs 0 weeks\n  session main\n    block legs, warm-up\n      do walk 1 x 5 min\n"
    )
    (one,) = compile_texts({"program.coach": text}).diagnostics
    assert (one.span.line, one.span.text) == (5, "runs 0 weeks")


def test_a_block_that_two_sessions_share_is_told_once() -> None:
    text = "use basics\n\nblock legs\n  must chair-stand 3 x 10\n\nprogram store-room\n"
    text += "  session one\n    block legs\n  session two\n    block legs\n"
    assert found(text) == [("advance-missing", "chair-stand")]


def test_findings_stand_in_the_order_of_the_source() -> None:
    text = block("must chair-stand 3 x 10", "must plank 3 x 10", MORE, session=", 0 a week")
    starts = [one.span.start for one in compile_texts({"program.coach": text}).diagnostics]
    assert starts == sorted(starts) and len(starts) == 3


@pytest.mark.parametrize(
    "line",
    ["advance rebs by 1 to 15", "advance reps bye 1 to 15", "advance reps by 1 to", "advance"],
)
def test_an_advance_that_could_not_be_read_is_not_told_as_missing(line: str) -> None:
    assert "advance-missing" not in dict(found(block(ENTRY, f"  {line}")))


def test_nothing_is_told_as_missing_where_an_entry_could_not_be_read() -> None:
    text = (
        HEAD
        + "  category pull required, at least 2 a week\n  session main\n    block back\n      must one-arm-row 3 y 8\n"
    )
    assert {code for code, _ in found(text)} <= {"line-not-understood"}


def test_an_unknown_axis_brings_no_second_finding() -> None:
    lines = [ENTRY, "  advance rebs by 1 to 15, then rung restarting reps"]
    assert [code for code, _ in found(block(*lines))] == ["word-unknown"]


@pytest.mark.parametrize("rounds", [0, 21, 999999999])
def test_rounds_beyond_the_limit_cost_no_time(rounds: int) -> None:
    text = block(
        "must chair-stand 8", MORE, clauses=f", rounds {rounds}", session="\n    within 5 min\n    short 3 min by sets"
    )
    assert found(text) == [("rounds-out-of-range", f"rounds {rounds}")]
