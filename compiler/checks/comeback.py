"""Coming back after a break: how long it was, and the shares of the normal work week by week."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise
from textwrap import dedent, indent

from ...grammar.diagnostic import Check, Diagnostic
from ...grammar.source import Span
from ..guidelines import BREAK_WEEKS, STRENGTH_LASTS
from ..model import Program, Return
from ..quantity import Quantity
from .examples import in_program
from .places import line, on_line, part

MOST_BREAK = 104  # weeks without training; longer is no break. Common practice, no source
MOST_WEEKS = 12  # of a way back; longer is a program of its own. Common practice, no source


def _back(text: str) -> Callable[[], str]:
    """A program of these lines beside the one that it leads back to."""
    lines = indent(dedent(text).strip(), "  ")
    return lambda: f'{in_program("")()}\nprogram store-room-return "Back to the store room"\n{lines}\n'


BREAK_OUT_OF_RANGE = Check(
    code="return-break-out-of-range",
    severity="error",
    title="A break that cannot be meant",
    message="`after {after} weeks` cannot be meant: a break is 1 to {most} weeks.",
    help="Write how many weeks nobody trained, such as `return to {to} after 3 weeks`.",
    explain="A way back leads to the program that was left off. After more than two years without it nobody knows where they "
    "stand: begin the program anew.",
    wrong=_back("return to store-room after 0 weeks"),
    right=_back("return to store-room after 3 weeks"),
)


def find_break_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for back in _returns(program):
        if not 1 <= back.after <= MOST_BREAK:
            where = on_line(back.span, r"after +\d+ +weeks?")
            yield BREAK_OUT_OF_RANGE.at(where, after=back.after, most=MOST_BREAK, to=back.to)


SHARE_OUT_OF_RANGE = Check(
    code="return-share-out-of-range",
    severity="error",
    title="A share of the normal work that cannot be meant",
    message="`{share}` cannot be a share of the normal {what}: it is more than 0% and at most 100%.",
    help="Write what is left of the normal work, such as `{what} 50%, 70%, 80%, 90%`.",
    explain="Below `return` stands how much of the normal work is done in each week, not how much is taken away. Nobody does "
    "more after a break than before it.",
    wrong=_back("return to store-room after 3 weeks\n  volume 50%, 80%, 110%"),
    right=_back("return to store-room after 3 weeks\n  volume 50%, 80%, 100%"),
)


def find_share_out_of_range(program: Program) -> Iterator[Diagnostic]:
    for back in _returns(program):
        for what, shares in _shares(back):
            for number, share in enumerate(shares, start=1):
                if not 0 < share.amount <= 100:
                    yield SHARE_OUT_OF_RANGE.at(_share(back, what, number), share=share, what=what)


SHARES_FALL = Check(
    code="return-share-falls",
    severity="warning",
    title="A way back on which the work gets less",
    message="The {what} falls in week {week}, from {before} to {share}.",
    help="Write the shares rising, the smallest first; or are these the shares that are taken away?",
    explain="After a break the work grows from week to week to what it was.",
    wrong=_back("return to store-room after 3 weeks\n  volume 50%, 30%, 20%, 10%"),
    right=_back("return to store-room after 3 weeks\n  volume 50%, 70%, 80%, 90%"),
)


def find_shares_fall(program: Program) -> Iterator[Diagnostic]:
    for back in _returns(program):
        for what, shares in _shares(back):
            fall = next(
                (
                    (week, pair)
                    for week, pair in enumerate(pairwise(shares), start=2)
                    if pair[1].amount < pair[0].amount
                ),
                None,
            )
            if fall is not None:
                week, (before, share) = fall
                where = _share(back, what, week)
                yield SHARES_FALL.at(where, what=what, week=week, before=before, share=share)


SHARES_UNEVEN = Check(
    code="return-shares-uneven",
    severity="error",
    title="Shares of the volume and of the loads for unlike numbers of weeks",
    message="There are {volume} shares of the volume and {loads} of the loads.",
    help="Write as many of the one as of the other, one for each week; or leave one line out.",
    explain="Each week of a way back has a share of the normal volume and one of the normal loads. Where one of the two lines is "
    "left out, as many shares are offered as the other has.",
    wrong=_back("return to store-room after 3 weeks\n  volume 50%, 70%, 90%\n  load 80%, 90%"),
    right=_back("return to store-room after 3 weeks\n  volume 50%, 70%, 90%\n  load 80%, 90%, 95%"),
)


def find_shares_uneven(program: Program) -> Iterator[Diagnostic]:
    for back in _returns(program):
        if len(back.volume) != len(back.loads):
            yield SHARES_UNEVEN.at(_line(back, "load"), volume=len(back.volume), loads=len(back.loads))


WEEKS_MANY = Check(
    code="return-too-long",
    severity="error",
    title=f"A way back of more than {MOST_WEEKS} weeks",
    message="These are {weeks} weeks, and a way back has {most} at the most.",
    help="Take fewer weeks with larger steps. After a very long break begin the program anew, with figures of today.",
    explain="Nothing advances on the way back. Whoever needs longer is better off with a program that does.",
    wrong=_back("return to store-room after 9 weeks\n  volume " + ", ".join(f"{30 + 5 * week}%" for week in range(13))),
    right=_back("return to store-room after 9 weeks\n  volume " + ", ".join(f"{30 + 5 * week}%" for week in range(12))),
)


def find_weeks_many(program: Program) -> Iterator[Diagnostic]:
    for back in _returns(program):
        if len(back.volume) > MOST_WEEKS:
            what = "volume" if part(back.span, r"\bvolume\b").text == "volume" else "load"
            yield WEEKS_MANY.at(_line(back, what), weeks=len(back.volume), most=MOST_WEEKS)


TO_A_RETURN = Check(
    code="return-to-return",
    severity="error",
    title="A way back that leads to a way back",
    message="`{to}` itself leads back to another program.",
    help="Name the program with the sessions.",
    explain="A way back takes its sessions from the program to which it leads. One that has none of its own, itself above "
    "all, leads nowhere.",
    wrong=_back("return to store-room-return after 3 weeks"),
    right=_back("return to store-room after 3 weeks"),
)

BESIDE = Check(
    code="return-beside",
    severity="error",
    title="Something of its own in a program that leads back to another",
    message="`{word}` cannot stand in a program that leads back to another: it is as there.",
    help="Take it out, or write a program of its own without `return`.",
    explain="A way back has the sessions, categories and settings of the program to which it leads, in as many weeks as there "
    "are shares. Its own are its `revision`, `for`, `coach`, `aims` and `rules`.",
    wrong=_back("runs 4 weeks\nreturn to store-room after 3 weeks"),
    right=_back("return to store-room after 3 weeks"),
)


SHORT_BREAK = Check(
    code="return-after-short-break",
    severity="advice",
    title="A way back after less than two weeks",
    message="After {after} week without training a way back is hardly needed.",
    help="Let them go on where they were, or repeat the last week before the break.",
    explain="The published upper limits are for a break of two weeks or more (Caterisano et al., Strength Cond J "
    "2019;41(3):1-23, written for college athletes; read in its abstract).",
    wrong=_back("return to store-room after 1 week"),
    right=_back("return to store-room after 2 weeks"),
)


def find_short_break(program: Program) -> Iterator[Diagnostic]:
    for back in _returns(program):
        if 1 <= back.after < BREAK_WEEKS:
            yield SHORT_BREAK.at(on_line(back.span, r"after +\d+ +weeks?"), after=back.after)


LONG_BREAK = Check(
    code="return-after-long-break",
    severity="advice",
    title="A break that strength may not have outlasted",
    message="After {after} weeks without training the figures of before the break may be too high.",
    help="Test the maxima anew, and lower what the athletes begin with, before the first week.",
    explain=f"Strength stayed for {STRENGTH_LASTS} weeks without training, in older and in younger people; in the 19 weeks after "
    "them those of 65 to 75 years lost 13%, those of 20 to 30 lost 6% (Lemmer et al., Med Sci Sports Exerc "
    "2000;32(8):1505-1512; read in PubMed). Shares of figures that are too high are too high themselves.",
    wrong=_back("return to store-room after 20 weeks"),
    right=_back("return to store-room after 12 weeks"),
)


def find_long_break(program: Program) -> Iterator[Diagnostic]:
    for back in _returns(program):
        if STRENGTH_LASTS < back.after <= MOST_BREAK:
            yield LONG_BREAK.at(on_line(back.span, r"after +\d+ +weeks?"), after=back.after)


def _returns(program: Program) -> Iterator[Return]:
    if program.returns is not None:
        yield program.returns


def _shares(back: Return) -> Iterator[tuple[str, tuple[Quantity, ...]]]:
    """The shares that the coach writes."""
    for what, shares in (("volume", back.volume), ("load", back.loads)):
        if part(back.span, rf"\b{what}\b").text == what:
            yield what, shares


def _line(back: Return, what: str) -> Span:
    return line(part(back.span, rf"\b{what} +(?=\d)"))


def _share(back: Return, what: str, number: int) -> Span:
    """The share of a week, counted from 1."""
    return part(_line(back, what), r"\d+(\.\d+)? *%", number)
