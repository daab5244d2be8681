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


HALL = """use basics

program hall
  revision 1, 2026-09-01
  runs 12 weeks
{allow}  session main, 1 a week
    block strength
      must goblet-squat 3 x 8
        advance load to 16 kg
      must push-up 3 x 8
        advance reps by 1 to 12

athlete agnes "Agnes"
  born 1943
  has floor
  has kettlebell 12 kg, 20 kg
  begins goblet-squat at 20 kg
"""


def test_advice_on_a_week_is_silenced_in_its_program() -> None:
    told = ["strength-days-few", "pull-below-push", "balance-days-few", "begins-past-bound"]
    assert sorted(codes(HALL.format(allow=""))) == sorted(told)
    for code in told[:3]:
        assert sorted(codes(HALL.format(allow=ALLOW.format(code)))) == sorted({*told} - {code})


def test_a_beginning_is_silenced_in_its_athlete() -> None:
    assert "begins-past-bound" not in codes(HALL.format(allow="") + ALLOW.format("begins-past-bound"))


def test_advice_is_for_the_athletes_who_log_the_program() -> None:
    logged = "\nlog agnes on hall, revision 1\n\n2026-09-02 main, 20 min\n  push-up 8 8 8\n"
    other = (
        HALL.format(allow="").split("\nathlete")[0].replace("use basics\n", "").replace("program hall", "program home")
    )
    started = HALL.format(allow="") + "  starts 2026-09-01\n" + other
    assert "balance-days-few" not in codes(started)  # two programs, and nothing says which is hers
    assert codes(started + logged).count("balance-days-few") == 1
    assert codes(started + logged).count("begins-past-bound") == 1


def test_advice_is_for_the_newest_revision() -> None:
    mended = HALL.format(allow="").split("\nathlete")[0].replace("use basics\n", "").replace("revision 1", "revision 2")
    mended = mended.replace("16 kg", "24 kg").replace("push-up 3 x 8", "single-leg-stand 3 x 30 s each side")
    mended = mended.replace("reps by 1 to 12", "hold by 5 s to 60 s").replace("1 a week", "3 a week")
    found = codes(HALL.format(allow="") + mended)
    assert "balance-days-few" not in found
    assert "begins-past-bound" not in found
