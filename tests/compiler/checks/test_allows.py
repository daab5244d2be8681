"""`allow`: what it silences, where, and what it cannot."""

from __future__ import annotations

from setwright.compiler.pipeline import compile_texts

BARE = """
movement {name}
  pattern hinge
  needs {needs}
  caution "Ask for help with a wet crate."
  how
    | Squat down beside the crate, take its handles, and stand up tall.
"""
ALLOW = '  allow {} because "The crew know it."\n'


def codes(text: str) -> list[str]:
    return [one.code for one in compile_texts({"program.coach": text}).diagnostics]


def bare(name: str = "crate-lift", needs: str = "floor") -> str:
    return BARE.format(name=name, needs=needs)


def test_it_silences_in_its_own_movement_alone() -> None:
    text = bare() + ALLOW.format("movement-without-cue") + bare("can-lift")
    assert codes(text) == ["movement-without-cue"]


def test_it_silences_a_warning_of_an_earlier_stage() -> None:
    text = bare(needs="flour") + '  cue "Close"\n'
    assert codes(text) == ["need-unknown"]
    assert codes(text + ALLOW.format("need-unknown")) == []


def test_in_an_entry_a_block_a_session_or_the_program() -> None:
    entry = "      must push-up 3 x amrap leaving 2\n        advance rung at 15 reps\n"
    head, block = "use basics\n\nprogram store-room\n", "  session main\n    block legs\n"
    allow = ALLOW.format("amrap-without-expect").lstrip()
    assert codes(head + block + entry) == ["amrap-without-expect"]
    assert codes(head + block + entry + "        " + allow) == []
    assert codes(head + block + entry + "      " + allow) == []
    assert codes(head + block + entry + "    " + allow) == []
    assert codes(head + "  " + allow + block + entry) == []
    other = "      must chair-stand 3 x 8\n        advance reps by 1 to 12\n"
    assert codes(head + block + entry + other + "        " + allow) == ["amrap-without-expect", "allow-unused"]


def test_the_nearest_one_silences_and_the_other_is_told_as_unused() -> None:
    entry = "      must push-up 3 x amrap leaving 2\n        advance rung at 15 reps\n"
    allow = ALLOW.format("amrap-without-expect").lstrip()
    text = (
        "use basics\n\nprogram store-room\n  " + allow + "  session main\n    block legs\n" + entry + "        " + allow
    )
    assert codes(text) == ["allow-unused"]


def test_an_error_stays() -> None:
    text = "use basics\n\nprogram store-room\n  session main\n    block legs\n      must chair-stand 3 x 10\n"
    allow = "        " + ALLOW.format("advance-missing").lstrip()
    assert codes(text + allow) == ["advance-missing", "allow-error"]


def test_the_code_of_an_athlete() -> None:
    text = "athlete maren\n  starts 2026-06-15 on tue\n"
    assert codes(text) == ["start-on-free-day"]
    assert codes(text + ALLOW.format("start-on-free-day")) == []
