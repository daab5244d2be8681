"""What can be wrong with the text itself, before anything is known of training: each with its words and examples."""

from __future__ import annotations

from .diagnostic import Check

LIMIT_CHARACTERS = 4_000_000
LIMIT_DEPTH = 12
LIMIT_DIGITS = 9

_HEAD = "# Tern Holm field station\n\n"
_MOVE = 'movement chair-stand "Chair stand"\n  pattern squat\n  needs chair\n  rep 4 s\n  cue "Nose over toes"\n'
_MOVE += (
    '  caution "Stop when a knee hurts sharply."\n  how\n    | Sit, lean forward, stand up, sit down again slowly.\n'
)
_SIGHT = _MOVE.replace("  rep 4 s\n", "{}")


def _movement(line: str) -> str:
    """A movement that is complete but for one line of it."""
    return _HEAD + _SIGHT.format(line)


NOT_A_DECLARATION = Check(
    code="not-a-declaration",
    severity="error",
    title="A line at the left edge that begins nothing",
    message="`{found}` cannot begin a line at the left edge.",
    help="A line at the left edge begins with `use`, `movement`, `program`, `block`, `athlete`, `group`, `log`, or with the "
    "date of a logged session. Set the line further in if it belongs to what stands above it, or put `#` before it.",
    explain="Everything in a file, be it a program, a movement or an athlete, begins at the left edge with its own word. "
    "The lines that belong to it are set further in.",
    wrong=_HEAD + "Remember to order chalk.\n\n" + _MOVE,
    right=_HEAD + "# Remember to order chalk.\n\n" + _MOVE,
)

WORD_MISSPELT = Check(
    code="word-misspelt",
    severity="error",
    title="A word is nearly one of the language's own",
    message="`{found}` is not a word that can stand here; {near} is.",
    help="Write {near}.",
    explain="Lines and their parts begin with words of the language. This one is near to a word that could stand here, and the "
    "rest of the line was read as if it had been written so.",
    wrong=_movement("  repp 4 s\n"),
    right=_movement("  rep 4 s\n"),
)

LINE_NOT_UNDERSTOOD = Check(
    code="line-not-understood",
    severity="error",
    title="A word or figure stands where it cannot",
    message="`{found}` cannot stand {where}.",
    help="What can stand here: {expected}.",
    explain="The line was read from the left up to the marked word, which does not fit there. The rest of the line is "
    "left out; all other lines are read.",
    wrong=_movement("  rep slow 4 s\n"),
    right=_movement("  rep 4 s\n"),
)

LINE_UNFINISHED = Check(
    code="line-unfinished",
    severity="error",
    title="A line ends before it is complete",
    message="The line ends too early, after `{found}`.",
    help="What must follow: {expected}.",
    explain="Something that must follow is missing at the end of the line.",
    wrong=_movement("  rep\n"),
    right=_movement("  rep 4 s\n"),
)

COMMA_MISSING = Check(
    code="comma-missing",
    severity="error",
    title="Two parts of a line without a comma between them",
    message="A comma is missing {where}.",
    help="Write `{instead}`.",
    explain="Commas keep the parts of a line apart.",
    wrong=_HEAD
    + "program easy\n  revision 1 2026-06-14\n  category legs, counts squat\n".replace("legs, counts", "legs counts")
    + '  session main "Main", 3 a week\n    block one, warm-up\n      do chair-stand 1 x 10\n\n'
    + _MOVE,
    right=_HEAD + "program easy\n  revision 1, 2026-06-14\n  category legs counts squat\n"
    '  session main "Main", 3 a week\n    block one, warm-up\n      do chair-stand 1 x 10\n\n' + _MOVE,
)

QUOTE_MISSING = Check(
    code="quote-missing",
    severity="error",
    title="A text in quotes is not closed",
    message="The text that begins here has no closing quote on its line.",
    help='Write a `"` at the end of the text. A text cannot run over two lines: use lines that begin with `|` for that.',
    explain='A text in quotes begins and ends with `"` on one line.',
    wrong=_HEAD + _MOVE.replace('"Nose over toes"', '"Nose over toes'),
    right=_HEAD + _MOVE,
)

NAME_NOT_LOWERCASE = Check(
    code="name-not-lowercase",
    severity="error",
    title="A name with capitals, spaces or other signs",
    message="`{found}` is not a name: names are small letters and digits, joined by hyphens.",
    help="Write `{near}`{title}.",
    explain="Names are what other lines refer to, so they have one plain spelling: `goblet-squat`. What is printed is the "
    "text in quotes after the name.",
    wrong=_HEAD + _MOVE.replace("movement chair-stand ", "movement Chair_stand "),
    right=_HEAD + _MOVE,
)

UNIT_UNKNOWN = Check(
    code="unit-unknown",
    severity="error",
    title="A unit that is not known",
    message="`{found}` is not a unit that can stand here.",
    help="Write `{near}`. Units are s, min, h; kg, g, lb; m, km, cm, mi, ft, yd; l, ml; %.",
    explain="A quantity is a figure and one of the units of the language, always spelt the same.",
    wrong=_movement("  rep 4 sec\n"),
    right=_movement("  rep 4 s\n"),
)

UNIT_MISSING = Check(
    code="unit-missing",
    severity="error",
    title="A figure without its unit",
    message="`{found}` has no unit.",
    help="What can stand here: {expected}.",
    explain="Times, weights, distances and volumes are never told by a figure alone, so that nobody has to guess.",
    wrong=_movement("  rep 4\n"),
    right=_movement("  rep 4 s\n"),
)

FIGURE_NEGATIVE = Check(
    code="figure-negative",
    severity="error",
    title="A figure below nothing",
    message="`{found}` has a minus sign, and no such figure can be less than nothing.",
    help="Write `{near}` if that was meant. The line was read as if it had been.",
    explain="Weights, times, distances, volumes, shares and counts are never less than nothing. Only the changes of easier "
    "weeks go down, such as `sets by -1`.",
    wrong=_movement("  rep -4 s\n"),
    right=_movement("  rep 4 s\n"),
)

DECIMAL_COMMA = Check(
    code="decimal-comma",
    severity="error",
    title="A decimal written with a comma",
    message="`{found}` has a comma where the decimal point belongs.",
    help="Write `{near}`.",
    explain="Decimals are written with a point, because commas keep the parts of a line apart.",
    wrong=_movement("  rep 4,5 s\n"),
    right=_movement("  rep 4.5 s\n"),
)

BLANK_LEFT = Check(
    code="blank-left",
    severity="error",
    title="A blank of a log that nobody filled in",
    message="This blank is not filled in yet.",
    help="Write the figure over the `__`. What was not done is left out: delete the `__`, or the whole line.",
    explain="A blank log has `__` wherever a figure goes. A line with blanks in it is not read, so that nothing is guessed.",
    wrong=_HEAD
    + _MOVE
    + '\nmovement heel-raise\n  pattern balance\n  rep __ s\n  cue "Tall"\n  caution "Hold a chair."\n'
    "  how\n    | Rise on the toes.\n",
    right=_HEAD
    + _MOVE
    + '\nmovement heel-raise\n  pattern balance\n  rep 3 s\n  cue "Tall"\n  caution "Hold a chair."\n'
    "  how\n    | Rise on the toes.\n",
)

_LOGGED = (
    _HEAD
    + _MOVE
    + """
program easy
  session main
    block one
      must chair-stand 3 x 10
        advance reps by 1 to 15

athlete maren
  starts 2026-06-15
  has chair

log maren on easy

{} main, 20 min
  chair-stand 10 10 10
"""
)

DAY_UNREADABLE = Check(
    code="logged-day-unreadable",
    severity="error",
    title="A logged session whose day is not written as a date",
    message="`{found}` is not the day of a session.",
    help="Write year, month and day, as in `{near}`.",
    explain="A logged session begins with its day: year, month and day. What stands below it is looked at, but does not count.",
    wrong=_LOGGED.format("17 june"),
    right=_LOGGED.format("2026-06-17"),
)

LOOK_ALIKE = Check(
    code="look-alike-character",
    severity="error",
    title="A character that only looks like the right one",
    message="{found} only looks like {near}.",
    help="Write {near} instead. Word processors put such characters in by themselves.",
    explain="Curly quotes, long dashes and special spaces look right on the screen, but are other characters. The line was "
    "read as if the plain character stood there.",
    wrong=_HEAD + _MOVE.replace('"Nose over toes"', "\u201cNose over toes\u201d"),
    right=_HEAD + _MOVE,
)

UNSEEN_CHARACTER = Check(
    code="unseen-character",
    severity="error",
    title="A character that cannot be seen",
    message="A character that cannot be seen stands here: {found}.",
    help="Delete it. It was read as a space, and so were others like it in this file.",
    explain="Control characters come into a text by accident, mostly from another program. No sheet could print them.",
    wrong=_HEAD + _MOVE.replace("Nose over", "Nose\x07over"),
    right=_HEAD + _MOVE,
)

TAB = Check(
    code="tab-in-source",
    severity="error",
    title="A tab where only spaces may stand",
    message="A tab stands here{more}; lines are set in by spaces.",
    help="Replace each tab by two spaces. Editors can do so as you type: look for “insert spaces” in the settings.",
    explain="A tab is as wide as each editor likes, so two people could see different programs in one text.",
    wrong=_HEAD + _MOVE.replace("  needs chair", "\tneeds chair").replace("\t", "\t", 1).replace("  rep", "\trep"),
    right=_HEAD + _MOVE,
)

INDENT_UNEVEN = Check(
    code="indent-uneven",
    severity="error",
    title="A line that is set in between two levels",
    message="This line is set in by {found} spaces; the lines it could belong with are set in by {near}.",
    help="Set it in by {near} spaces.",
    explain="Lines that belong together begin at the same column.",
    wrong=_HEAD + _MOVE.replace("    | Sit", "      | Sit") + "    | Three times.\n",
    right=_HEAD + _MOVE.replace("    | Sit", "      | Sit") + "      | Three times.\n",
)

INDENT_MISSING = Check(
    code="indent-missing",
    severity="error",
    title="Lines that should be set in are not there",
    message="Below `{found}` nothing is set further in.",
    help="Set the lines that belong to it two spaces further in.",
    explain="Some lines only open a section: what belongs to it follows below, set further in.",
    wrong=_HEAD + _MOVE.replace("    | Sit", "  | Sit"),
    right=_HEAD + _MOVE,
)

INDENT_UNEXPECTED = Check(
    code="indent-unexpected",
    severity="error",
    title="A line is set in below one that can have nothing below it",
    message="This line is set further in, but nothing can stand below {where}.",
    help="Set it in as far as the line above, or move it to where it belongs.",
    explain="Only some lines open a section. A line that is set in belongs to the line above it that is set in less.",
    wrong=_HEAD + _MOVE.replace("  cue", "    cue"),
    right=_HEAD + _MOVE,
)

NESTED_TOO_DEEP = Check(
    code="nested-too-deep",
    severity="error",
    title="Lines are set in too far",
    message="This line is more than {limit} levels deep.",
    help="Nothing in the language goes deeper than five levels: look for the line above from which the lines drift to the right.",
    explain=f"Lines are read to a depth of {LIMIT_DEPTH} levels; the deepest that means anything is five.",
    wrong=_HEAD + _MOVE + "".join(" " * depth + "x\n" for depth in range(5, LIMIT_DEPTH + 6)),
    right=_HEAD + _MOVE,
)

NUMBER_TOO_LONG = Check(
    code="number-too-long",
    severity="error",
    title="A number with too many digits",
    message="This number has {found} digits; the limit is {limit}.",
    help="Check the figure: nothing in a program needs so many digits.",
    explain=f"A number may have {LIMIT_DIGITS} digits before or after the point, far more than any load, time or distance needs.",
    wrong=_movement("  rep 4000000000 s\n"),
    right=_movement("  rep 4 s\n"),
)

TOO_MANY = Check(
    code="too-many-problems",
    severity="error",
    title="So many lines could not be read that the rest was left",
    message="So many lines from here up could not be read ({found}) that the lines below were left out.",
    help="Mend the first ones and check again.",
    explain="After some hundred lines that cannot be read, those below are not looked at: most likely the file is not a "
    "program at all.",
    wrong=_HEAD + _MOVE + "  !!\n" * 300,
    right=_HEAD + _MOVE,
)

NOT_UTF8 = Check(
    code="not-utf8",
    severity="error",
    title="A file is not saved as UTF-8",
    message="The file is not saved as UTF-8: the character here cannot be read (byte {found}, after {place} others).",
    help="Save it again as UTF-8 (a choice in the editor's “Save as”).",
    explain="UTF-8 is the common way to save the letters of every language. Old word processors and spreadsheets save in "
    "ways of their own.",
    wrong={"program.coach": (_HEAD + _MOVE).encode() + "# f\u00fcr Otto\n".encode("latin-1")},
    right={"program.coach": (_HEAD + _MOVE + "# f\u00fcr Otto\n").encode()},
)

FILE_TOO_LARGE = Check(
    code="file-too-large",
    severity="error",
    title="A file is larger than the limit",
    message="The file has more than {limit} bytes, which is the limit for one file.",
    help="Split it, one program or one person's log a file. If it is no program at all, give its name another "
    "ending than `.coach`.",
    explain=f"A file may have {LIMIT_CHARACTERS:,} bytes: about a hundred thousand lines, more than any coach writes.",
    wrong=lambda: {"program.coach": (_HEAD + _MOVE).encode() + b"# " + b"x" * LIMIT_CHARACTERS + b"\n"},
    right={"program.coach": (_HEAD + _MOVE).encode()},
)

FILE_EMPTY = Check(
    code="file-empty",
    severity="warning",
    title="A file with nothing in it",
    message="There is nothing in this file, or nothing but notes.",
    help="Write a program into it (`setwright new NAME` makes one to begin with), or delete the file.",
    explain="A file without a program, a movement or an athlete in it is most likely one that was not saved.",
    wrong=_HEAD,
    right=_HEAD + _MOVE,
)

WINDOWS_LINE_ENDS = Check(
    code="windows-line-ends",
    severity="advice",
    title="A file with Windows line ends",
    message="Lines of this file end the Windows way (carriage return and line feed).",
    help="It was read all the same. Save with “LF” line ends, so that git does not show lines as changed that are not.",
    explain="Both kinds of line ends are read alike. Where people with other systems share the folder, mixed kinds make git "
    "show every line as changed.",
    wrong={"program.coach": (_HEAD + _MOVE).replace("\n", "\r\n").encode()},
    right={"program.coach": (_HEAD + _MOVE).encode()},
)

CHECKS: tuple[Check, ...] = (
    NOT_A_DECLARATION, WORD_MISSPELT, LINE_NOT_UNDERSTOOD, LINE_UNFINISHED, COMMA_MISSING, QUOTE_MISSING,
    NAME_NOT_LOWERCASE, UNIT_UNKNOWN, UNIT_MISSING, FIGURE_NEGATIVE, DECIMAL_COMMA, BLANK_LEFT, DAY_UNREADABLE, LOOK_ALIKE,
    UNSEEN_CHARACTER, TAB, INDENT_UNEVEN, INDENT_MISSING, INDENT_UNEXPECTED, NESTED_TOO_DEEP, NUMBER_TOO_LONG, TOO_MANY,
    NOT_UTF8, FILE_TOO_LARGE, FILE_EMPTY, WINDOWS_LINE_ENDS,
)  # fmt: skip
