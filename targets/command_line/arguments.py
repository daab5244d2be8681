"""What can be typed: the commands, their options and examples, and what is said of a word that is none of them."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import partial
from itertools import takewhile
from typing import Any, NoReturn

from .terminal import suggestion

COMMANDS = """\
exit codes:
  0    done; warnings and advice may have been told
  1    errors in the source, or no version of a session fits the limit
  2    the command was misspelt, or something could not be read or written
  3    a fault of Setwright itself
  130  stopped with Ctrl-C

examples:
  setwright new my-program              write a first program to change as you like
  setwright check my-program.coach      tell what is wrong with it
  setwright build my-program.coach      make its sheets

Setwright {command} --help tells more about each command."""

NEW = """\
examples:
  setwright new winter-strength                     winter-strength.coach in this folder
  setwright new winter-strength --to programs/hall  the same in another folder, made if missing"""

CHECK = """\
examples:
  setwright check winter.coach                one file, and the files that it uses
  setwright check .                           every .coach file in this folder and below
  setwright check winter.coach --format json  for an editor or another program"""

BUILD = """\
examples:
  setwright build winter.coach                         into the folder sheets
  setwright build . --to /tmp/print                    all programs of this folder
  setwright build . --program winter --revision 2      an earlier revision
  setwright build . --for maren                        the pack of one athlete
  setwright build . --for crew --to packs              a pack for each of a group, and an overview
  setwright build . --for all --to s3://hall/packs --scheduler tcp://10.0.0.5:8786

With errors in the source nothing is written. Files that would not change are left alone."""

TRIM = """\
examples:
  setwright trim winter.coach --to 30min               every session in 30 minutes, with fewer sets
  setwright trim winter.coach --to 25min --by movements --session main
  setwright trim . --program winter --to "1 h"
  setwright trim winter.coach                          all limits: from which time on what is kept
  setwright trim winter.coach --all                    the same to the last set

Nothing that is a `must` goes, and no required category is left empty. Errors about minutes alone, of a
session over its limit or of a short version that cannot be, are told and do not stop it."""

WEEK = """\
examples:
  setwright week winter.coach                          sets of each category, days and minutes of a week
  setwright week . --program winter --revision 2"""

HORIZON = """\
examples:
  setwright horizon winter.coach                       what each movement asks for, week by week
  setwright horizon . --program winter --athlete maren --weeks 24
  setwright horizon winter.coach --loads "4kg 6kg 10kg" --missed-every 4

Every rule of progression is followed twice: with every session good, and with some of them missed."""

EXPLAIN = """\
examples:
  setwright explain maren goblet-squat                 why her sheet says what it says of it
  setwright explain otto split-squat programs/hall     a movement that he does not do: why, and what instead
  setwright explain maren squat . --program winter

Each figure is told from its causes, with the file and line that each comes from."""

NEXT = """\
examples:
  setwright next --for maren                           what her next sessions ask for, and why
  setwright next programs/hall --for crew --session main

What was logged is judged session by session. Without a log it is where the athlete begins."""

REVIEW = """\
examples:
  setwright review .                                   everybody who has a log, into the folder review
  setwright review . --for maren                       one athlete
  setwright review . --for crew --to /tmp/review       a group; it tells who has no log yet, too

For each athlete a page for the coach and one to hand to the athlete, and a page of all: who needs the coach
first, and why. Pictures need the extra `review` of the package; without it the figures stand in tables alone."""

MOVEMENTS = """\
examples:
  setwright movements                                  all movements that ship with Setwright, by their patterns
  setwright movements pull                             those of one pattern
  setwright movements goblet-squat                     all of one movement: rungs, cues, how it is done
  setwright movements squat programs/hall --for maren  those that an athlete can do, with what is there

With a file or folder its own movements are among them."""

COMPLETION = """\
examples:
  setwright completion bash > ~/.local/share/bash-completion/completions/setwright
  setwright completion zsh > ~/.zfunc/_setwright       a folder that stands in your fpath"""


class Parser(argparse.ArgumentParser):
    """A parser that answers a mistake with one sentence and, where a known word is near, with that word."""

    def __init__(self, **settings: Any) -> None:
        # A width of our own: to ask for that of the terminal argparse loads more than all the rest of a start-up.
        layout = partial(argparse.RawDescriptionHelpFormatter, max_help_position=30, width=98)
        super().__init__(allow_abbrev=False, formatter_class=layout, **settings)

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"{self.prog}: {message}\nTry `{self.prog} --help`.\n")

    def _check_value(self, action: argparse.Action, value: Any) -> None:
        """Called by argparse for a value of every argument that has choices; its own sentence suggests nothing."""
        if action.choices is None or value in action.choices:
            return
        known = [str(choice) for choice in action.choices]
        what = action.option_strings[-1] if action.option_strings else str(action.metavar).lower()
        self.error(f"there is no {what} `{value}`. {suggestion(str(value), known)}")

    def negatives_joined(self, words: Sequence[str]) -> list[str]:
        """The words, with `--weeks -3` as `--weeks=-3`: after an option that takes a value a negative figure is that value."""
        valued = {name for action in self._actions if action.nargs is None for name in action.option_strings}
        joined: list[str] = []
        for word in words:
            if "--" not in joined and joined and joined[-1] in valued and re.match(r"-[\d.]", word):
                joined[-1] = f"{joined[-1]}={word}"
            else:
                joined.append(word)
        return joined

    def refuse_unknown(self, words: Sequence[str]) -> None:
        """End at the first option that there is not, before argparse tells what is missing because of it."""
        options = [option for action in self._actions for option in action.option_strings]
        for option in _options(words):
            if option not in options:
                told = suggestion(option, [known for known in options if known.startswith("--")])
                self.error(f"there is no option `{option}`. {told}")


def read(arguments: Sequence[str] | None) -> argparse.Namespace:
    """The options as typed; a mistake, `--help` and `--version` end in SystemExit, as argparse has it."""
    parser, commands = make_parser()
    words = list(sys.argv[1:] if arguments is None else arguments)
    start = next((place for place, word in enumerate(words) if word in commands), None)
    if start is None:
        parser.refuse_unknown(words)
        parser.parse_args(words)
        parser.error(f"which command? {', '.join(commands)}")
    meant = commands[words[start]]
    early = next((option for option in _options(words[:start]) if option not in ("-h", "--help", "--version")), None)
    if early:
        meant.error(f"write `{early}` after the command: {meant.prog} ... {early}")
    words[start:] = meant.negatives_joined(words[start:])
    meant.refuse_unknown(words[start:])
    options, more = parser.parse_known_args(words)
    if more:
        before = words[words.index(more[0]) - 1]
        joined = f" Did you mean `{before}{more[0]}`?" if before.isdigit() else ""
        meant.error(f"`{more[0]}` is one word too many.{joined}")
    return options


def _options(words: Sequence[str]) -> Iterator[str]:
    """The options among words, without their values."""
    for word in takewhile(lambda word: word != "--", words):
        if word.startswith("-") and len(word) > 1:
            yield word.partition("=")[0]


def _of_build(build: argparse.ArgumentParser) -> None:
    """What is made, where to, and by whom."""
    build.add_argument("--to", metavar="FOLDER", default="sheets", help="where to write (sheets)")
    build.add_argument(
        "--templates", metavar="FOLDER", help="templates of your own, in the place of those that come with it"
    )
    build.add_argument("--jobs", metavar="N", type=partial(_whole, "jobs", 1, 256),
                       help="with --for: how many processes build at once (one a core)")  # fmt: skip
    build.add_argument("--scheduler", metavar="ADDRESS", help="with --for: build on the Dask cluster of this scheduler")


def make_parser() -> tuple[Parser, dict[str, Parser]]:
    """The whole command line, and the parser of each command by name."""
    from ... import __version__

    parser = Parser(
        prog="setwright",
        description="Strength programs written as plain text, compiled into sheets to print and to fill in.",
        epilog=COMMANDS.replace("{command}", "COMMAND"),
    )
    parser.add_argument("--version", action="version", version=f"setwright {__version__}")
    places = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands", prog="setwright")

    def command(name: str, summary: str, examples: str, parents: Sequence[Parser] = ()) -> Parser:
        made: Parser = places.add_parser(
            name, help=summary, description=summary[0].upper() + summary[1:] + ".", epilog=examples, parents=parents
        )
        return made

    findings, choice = _findings(), _choice()
    new = command("new", "write a first program, with comments, to change as you like", NEW)
    new.add_argument("name", metavar="NAME", help="its name: lower-case words joined by hyphens")
    new.add_argument("--to", metavar="FOLDER", default=".", help="where to put it (this folder)")

    check = command("check", "tell what is wrong with programs, and what to write instead", CHECK, [findings])
    check.add_argument("sources", metavar="SOURCE", nargs="+", help="a .coach file, or a folder of them")

    build = command(
        "build", "make the sheets of the newest revision of each program", BUILD, [findings, choice, _printing()]
    )
    build.add_argument("source", metavar="SOURCE", help="a .coach file, or a folder of them")
    build.add_argument("--for", metavar="NAME", action="append", dest="people",
                       help="a pack for an athlete or for each of a group; `all` is everybody; may be given again")  # fmt: skip
    _of_build(build)

    trim = command("trim", "show the best version of a session for a limit, or for all", TRIM, [findings, choice])
    trim.add_argument("source", metavar="SOURCE", help="a .coach file, or a folder of them")
    trim.add_argument("--to", metavar="LIMIT", help="the time there is: 30min, 90min, 1h (all limits, as a table)")
    trim.add_argument("--all", action="store_true", help="every change in the table, not only where more is kept")
    trim.add_argument("--by", choices=("sets", "movements"), default="sets", metavar="WHAT",
                      help="cut sets, or whole movements: sets, movements (sets)")  # fmt: skip
    trim.add_argument("--session", metavar="NAME", help="this session alone")

    week = command("week", "show what a week holds: sets of each category, days, minutes", WEEK, [findings, choice])
    week.add_argument("source", metavar="SOURCE", help="a .coach file, or a folder of them")

    ahead = command("horizon", "run a program forward: what comes, week by week", HORIZON, [findings, choice])
    ahead.add_argument("source", metavar="SOURCE", help="a .coach file, or a folder of them")
    ahead.add_argument("--athlete", metavar="NAME", help="for an athlete of the project (nobody in particular)")
    ahead.add_argument("--loads", metavar="LOADS", help='loads at hand for all that is loaded, as in "4kg 6kg 10kg"')
    ahead.add_argument("--weeks", metavar="N", type=partial(_whole, "weeks", 1, 104),
                       help="how many weeks, 1 to 104 (those of the program, else 12)")  # fmt: skip
    ahead.add_argument("--missed-every", metavar="N", type=partial(_whole, "missed-every", 2, 12), default=3,
                       help="which session is missed in the second run, 2 to 12 (3)")  # fmt: skip
    ahead.add_argument("--rise", metavar="SHARE", type=_rise, default="25%",
                       help="by how much a week may ask for more than the one before (25%%)")  # fmt: skip

    why = command("explain", "tell why an athlete's sheet says what it says of a movement", EXPLAIN, [findings, choice])
    why.add_argument("athlete", metavar="ATHLETE", help="the name of an athlete")
    why.add_argument("movement", metavar="MOVEMENT", help="the name of a movement of the program")
    why.add_argument("source", metavar="SOURCE", nargs="?", default=".", help="a .coach file, or a folder of them (.)")

    following = command("next", "tell what the next session asks for, and why", NEXT, [findings, choice])
    following.add_argument(
        "source", metavar="SOURCE", nargs="?", default=".", help="a .coach file, or a folder of them (.)"
    )
    following.add_argument("--for", metavar="NAME", dest="people", required=True, help="an athlete, or a group of them")
    following.add_argument("--session", metavar="NAME", help="this session alone")

    back = command("review", "tell what came of the logs, and who needs the coach first", REVIEW, [findings, choice])
    back.add_argument("source", metavar="SOURCE", nargs="?", default=".", help="a .coach file, or a folder of them (.)")
    back.add_argument("--for", metavar="NAME", action="append", dest="people",
                      help="an athlete or a group; `all` is everybody; may be given again (all who have a log)")  # fmt: skip
    back.add_argument("--to", metavar="FOLDER", default="review", help="where to write (review)")

    _of_movements(command("movements", "list the movements that there are, or all of one", MOVEMENTS, [findings]))

    completion = command("completion", "print what completes commands in your shell", COMPLETION)
    completion.add_argument("shell", choices=("bash", "zsh"), metavar="SHELL", help="bash or zsh")
    return parser, dict(places.choices)


def _of_movements(library: Parser) -> None:
    """Options of `movements`, whose words can be left out."""
    library.add_argument("words", metavar="SOURCE", nargs="*",
                         help="a pattern or a movement, then a .coach file or a folder; either can be left out")  # fmt: skip
    library.add_argument("--for", metavar="NAME", dest="person", help="only what this athlete can do (SOURCE: .)")


def _findings() -> Parser:
    """Options of every command that reads sources."""
    findings = Parser(add_help=False)
    findings.add_argument("--format", choices=("text", "json"), default="text", metavar="FORMAT",
                          help="how findings are told: text, or one JSON document: json (text)")  # fmt: skip
    findings.add_argument("--color", choices=("auto", "always", "never"), default="auto", metavar="WHEN",
                          help="auto, always, never; auto: on a terminal, unless NO_COLOR is set (auto)")  # fmt: skip
    findings.add_argument("--project", metavar="FOLDER",
                          help="the folder that no `use` may leave (that of the source)")  # fmt: skip
    return findings


def _choice() -> Parser:
    """Options of every command that works on one program."""
    choice = Parser(add_help=False)
    choice.add_argument("--program", metavar="NAME", help="this program alone")
    choice.add_argument("--revision", metavar="N", type=revision, help="this revision (the newest)")
    return choice


def _printing() -> Parser:
    """Options on how sheets are made."""
    printing = Parser(add_help=False)
    printing.add_argument("--paper", choices=("a4", "letter"), default="a4", metavar="PAPER",
                          help="what the PDFs are printed on: a4, letter (a4)")  # fmt: skip
    printing.add_argument("--large", action="store_true", help="everything in large print, for everybody")
    printing.add_argument("--without", metavar="KIND", action="append", default=[], type=_kinds,
                          help="leave out files: tables (CSV and XLSX), pdf, phone, calendar; several with commas")  # fmt: skip
    return printing


def revision(text: str) -> int:
    """The figure of a revision; argparse shows the sentence of the error."""
    if not text.isascii() or not text.isdigit() or len(text) > 9:
        raise argparse.ArgumentTypeError(f"a revision is a whole number, as in --revision 3, not `{text}`")
    return int(text)


def _whole(option: str, least: int, most: int, text: str) -> int:
    """A whole number within bounds."""
    if text.isascii() and text.isdigit() and len(text) <= 9 and least <= int(text) <= most:
        return int(text)
    raise argparse.ArgumentTypeError(f"a whole number from {least} to {most}, as in --{option} {least}, not `{text}`")


def _kinds(text: str) -> list[str]:
    """Kinds of files, joined by commas."""
    return [kind.strip() for kind in text.split(",")]


def _rise(text: str) -> Fraction:
    """A share written as `20%`; argparse turns the default over to this as well."""
    figure = text.strip().removesuffix("%")
    written = text.strip().endswith("%") and re.fullmatch(r"\d{1,3}(\.\d{1,2})?", figure, re.ASCII)
    if written and 0 < Fraction(figure) <= 999:
        return Fraction(figure) / 100
    raise argparse.ArgumentTypeError(f"a share above 0%, up to 999%, as in --rise 20%, not `{text}`")
