"""Names and words that stand for something: each must lead to one thing, once."""

from __future__ import annotations

from ...grammar.diagnostic import Check

_CHAIR = """movement chair-stand "Chair stand"
  pattern squat
  needs chair
  rep 4 s
  cue "Nose over toes"
  caution "Stop when a knee hurts sharply."
  how
    | Sit, lean forward, stand up, sit down again slowly.
"""
_PROGRAM = """use basics

program winter-start "Winter start"
  revision 1, 2026-06-14
  session main "Main session", 3 a week
    block legs "Legs"
      must chair-stand 2 x 8
        advance reps by 1 to 12
"""
_LOADED = _PROGRAM + "      must goblet-squat 2 x 8\n        advance load\n"
_ATHLETE = """
athlete maren "Maren"
  born 1962
  has floor, chair
"""
_LOG = """
log maren on winter-start, revision 1

2026-06-17 main, 20 min, rpe 4
  chair-stand 8 8
"""
_DOSE = "must chair-stand 2 x 8"


def _check(  # noqa: PLR0917 (the order of `Check` itself)
    code: str, title: str, message: str, help: str, explain: str, wrong: object, right: object
) -> Check:
    return Check(code, "error", title, message, help, explain, wrong, right)  # type: ignore[arg-type]


USE_NOT_FOUND = _check(
    "use-not-found", "A file to use is not there",
    "There is no {what} `{found}` to use.",
    "{near}",
    "`use` names the shipped library (`use basics`) or a file, by its path from the file in which the line stands.",
    'use "station.coach"\n\n' + _CHAIR, {"program.coach": 'use "station.coach"\n', "station.coach": _CHAIR},
)  # fmt: skip
USE_OUTSIDE = _check(
    "use-outside-project", "A file to use lies outside the project",
    "`{found}` leads out of the project's folder.",
    "Copy the file into the folder of the project, and use it there.",
    "A project is one folder, so that it can be copied, sent and kept in git as a whole. No file outside it is read.",
    'use "../../elsewhere.coach"\n\n' + _CHAIR, {"program.coach": 'use "elsewhere.coach"\n', "elsewhere.coach": _CHAIR},
)  # fmt: skip
USE_CYCLE = _check(
    "use-cycle", "Files use each other in a ring",
    "This file is used by the file it uses: {found}.",
    "Take one of the `use` lines out: a file sees what the files it uses see.",
    "`use` goes one way. What two files both need belongs in a third that both of them use.",
    {"a.coach": 'use "b.coach"\n\n' + _CHAIR, "b.coach": 'use "a.coach"\n'},
    {"a.coach": _CHAIR, "b.coach": 'use "a.coach"\n'},
)  # fmt: skip
NAME_UNKNOWN = _check(
    "name-unknown", "A name that nothing has",
    "There is no {kind} named `{found}` here.",
    "{near}",
    "A name leads to something in this file, in a file that it uses, or in the shipped library where the file says "
    "`use basics`.",
    _PROGRAM.replace("chair-stand", "chair-stant"), _PROGRAM,
)  # fmt: skip
NAME_TWICE = _check(
    "name-twice", "Two things with one name",
    "The name `{found}` is taken: another {kind} has it.",
    "Give one of the two another name{near}.",
    "A name must lead to one thing. Programs are told apart by name and revision together.",
    _CHAIR + "\n" + _CHAIR, _CHAIR + "\n" + _CHAIR.replace("chair-stand", "high-chair-stand"),
)  # fmt: skip
GROUP_AS_ATHLETE = _check(
    "group-named-as-athlete", "A group with the name of an athlete",
    "The group `{found}` has the name of an athlete, so `--for {found}` could mean either.",
    "Give the group another name, such as `all-of-{found}`, or the name of its place.",
    "`setwright build --for` and others take an athlete or a group by its name, so no two of these may have the same.",
    _PROGRAM + _ATHLETE + "\ngroup maren: maren\n", _PROGRAM + _ATHLETE + "\ngroup crew: maren\n",
)  # fmt: skip
WORD_UNKNOWN = _check(
    "word-unknown", "A word that is not one of the few that can stand here",
    "`{found}` is not {what}.",
    "Write {near}.",
    "Some words stand for one of a few things: days, axes of progression, kinds of blocks and implements, units.",
    _PROGRAM.replace("reps by 1 to 12", "rebs by 1 to 12"), _PROGRAM,
)  # fmt: skip
NEED_UNKNOWN = Check(
    "need-unknown", "warning", "A thing that nobody is known to have",
    "`{found}` is not a thing that is known here, and no athlete has one.",
    "{near}",
    "A need that is misspelt can never be met. The page on the language lists the things that are known; whatever an "
    "athlete `has` is known, too.",
    _CHAIR.replace("needs chair", "needs chiar"), _CHAIR,
)  # fmt: skip
DATE_IMPOSSIBLE = _check(
    "date-impossible", "A day that is in no calendar",
    "There is no day {found}.",
    "Dates are year, month and day: `2026-06-14`.",
    "A date is written as year, month and day, and must be a day of the calendar.",
    _PROGRAM.replace("2026-06-14", "2026-02-31"), _PROGRAM,
)  # fmt: skip
SAID_TWICE = _check(
    "said-twice", "The same thing said twice",
    "`{found}` is said twice here.",
    "Keep the line that is right, and delete the other.",
    "Each of these can be said once: two of them would leave open which one counts.",
    _PROGRAM.replace("_", "_").replace('  session', '  units kg\n  units lb\n  session'),
    _PROGRAM.replace('  session', '  units lb\n  session'),
)  # fmt: skip
SETS_LOOSE = _check(
    "sets-loose", "A second set without the word `sets`",
    "`{found}` is a set of its own, but the list of sets does not begin with `sets`.",
    "For unlike sets write `sets` first, as in `sets 8, 6, 6`; for like sets write their number, as in `3 x 6`.",
    "A list of unlike sets begins with `sets`, so that it cannot be taken for a slip after a comma.",
    _PROGRAM.replace("2 x 8", "8, 6"), _PROGRAM.replace("2 x 8", "sets 8, 6"),
)  # fmt: skip
LOG_HEADER_MISSING = _check(
    "log-header-missing", "A logged session that belongs to no log",
    "This session belongs to no log: no line `log NAME on PROGRAM` stands above it.",
    "Write `log NAME on PROGRAM, revision N` above the first session.",
    "The sessions of a log stand below its first line, which says whose log it is and of which program.",
    _PROGRAM + _ATHLETE + _LOG.replace("log maren on winter-start, revision 1\n\n", ""), _PROGRAM + _ATHLETE + _LOG,
)  # fmt: skip
IMPLEMENT_BARE = _check(
    "implement-bare", "An implement without its weight",
    "`{found}` is an implement: say how heavy it is.",
    "{near}",
    "What an athlete can lift follows from the weights of the implements.",
    _LOADED + _ATHLETE.replace("has floor, chair", "has floor, dumbbell"),
    _LOADED + _ATHLETE.replace("chair", "chair\n  has dumbbell 6 kg"),
)  # fmt: skip

CHECKS: tuple[Check, ...] = (
    USE_NOT_FOUND, USE_OUTSIDE, USE_CYCLE, NAME_UNKNOWN, NAME_TWICE, GROUP_AS_ATHLETE, WORD_UNKNOWN, NEED_UNKNOWN,
    DATE_IMPOSSIBLE, SAID_TWICE, SETS_LOOSE, LOG_HEADER_MISSING, IMPLEMENT_BARE,
)  # fmt: skip
