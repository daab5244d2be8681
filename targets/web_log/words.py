"""The words of the log on the phone, for a reader of 75 who holds it in one hand. They join the catalogue of `words.py`.

`PAGE` goes into the page for its script, which fills in what stands in braces.
"""
# ruff: noqa: D103  a phrase that is a function says itself what it is

from __future__ import annotations

from typing import Final

LOG_TO_FILL: Final = "Training log"
NEEDS_SCRIPT: Final = (
    "If nothing follows here, this page cannot run: save the file, and open it with the browser of your phone (Chrome, Firefox "
    "or Safari). In the preview of a mail it does not work. Or write your log on the printed sheet."
)
STOP_SIGNS: Final = "When to stop"
MARKS: Final = "What the marks mean"
TIMER: Final = "Timer"
HOW_TO: Final = "How to do it"
WHOLE: Final = "The whole session"
THIS_WEEK_EASIER: Final = "This week is easier on purpose. What is asked for here is less already."


def week(number: int) -> str:
    return f"Week {number}"


def last_time(day: str, what: str) -> str:
    return f"Last time ({day}): {what}"


# What the sets were done with

FORM: Final = "Form"
BAND: Final = "Band"
LOWER: Final = "Lowering, in seconds"
PAUSE: Final = "Pause, in seconds"
CUES: Final = "Words said in the pause"
REST_TAKEN: Final = "Rest, in seconds"
EFFORT: Final = "Effort, 0 to 10"
UNITS: Final[dict[str, str]] = {
    "reps": "repetitions", "s": "seconds", "min": "minutes", "m": "metres", "km": "kilometres", "mi": "miles",
    "ft": "feet", "yd": "yards",
}  # fmt: skip
STEPS: Final[dict[str, int]] = {"s": 5, "m": 5, "ft": 5, "yd": 5}  # of the buttons beside a figure


def weight(unit: str, *, two: bool, heaviest: bool) -> str:
    """The name of the field for a load."""
    return f"Weight in {unit}{', in each hand' if two else ''}{', of the heaviest set' if heaviest else ''}"


# The tempo counter

PHASE_LOWER: Final = "Lower"
PHASE_PAUSE: Final = "Pause"
PHASE_CUES: Final = "Pause, say your words"
PHASE_RAISE: Final = "Come back"
PHASE_FAST: Final = "Come back, fast"
PHASE_TOP: Final = "Wait"

PAGE: Final[dict[str, str]] = {
    # The week
    "sessions": "Your sessions",
    "notBegun": "not begun",
    "begun": "begun",
    "begunOn": "begun, {day}",
    "doneOn": "done, {day}",
    "fewNotes": "Nothing is written down yet.",
    # Whose log
    "name": "Your short name, as your coach writes it",
    "nameMissing": "Write your short name first. Without it nobody knows whose log this is.",
    # Keeping
    "kept": "Everything you write is kept on this device, also when the page is closed.",
    "notKept": (
        "This browser does not let the page keep anything. What you write is lost when you close the page. Send it or save it as "
        "a file before that."
    ),
    # Sending
    "send": "Send to your coach",
    "sendHow": "Send it after each session or once a week. You can send it again: each session counts once.",
    "share": "Send the log",
    "saveFile": "Save as a file",
    "saved": "The log is saved as {file}. Look for it among your downloads.",
    "shared": "The log was handed on.",
    "shareFailed": "Sending did not work. Save the log as a file, and send that.",
    "asText": "Show the log as text",
    "asTextHow": "If neither sending nor saving works, copy this text into a message.",
    "unreadable": "Please look at this again before you send: {what}.",
    "unreadableAt": "{movement} in {session}",
    "minutesIn": "minutes or effort in {session}",
    "empty": "Empty the log",
    "emptyHow": "For the next week with the same sheet, or when somebody else has written here.",
    "emptyAsk": "Empty the whole log? Everything written here is deleted from this device. Send it to your coach first.",
    "emptySession": "Empty this session",
    "emptySessionAsk": "Empty this session? What you wrote about it is deleted from this device.",
    "yesEmpty": "Yes, empty it",
    "noKeep": "No, keep it",
    "emptied": "It is empty now.",
    # A session
    "back": "Back to the week",
    "planned": "Planned for {minutes} minutes.",
    "plannedAtMost": "Planned for {minutes} minutes, at most {limit}.",
    "date": "Date",
    "version": "Which version",
    "versionWhole": "{version} (about {minutes} minutes)",
    "versionShort": "Shorter: at most {version}",
    "startClock": "Start the clock",
    "startClockHow": "Press it as you begin. Or log without a clock.",
    "clock": "Clock",
    "minute": "Minute {minute}",
    "onTime": "On time.",
    "behind": "{minutes} min behind the plan.",
    "thenAt": "Next: {block}, minute {minute}.",
    "nothingToCut": "Leave nothing out.",
    "late": "You run late",
    "lateNow": "You run late. The page lists what to leave out.",
    "lateStep": "{what} Saves {saves}.",
    "lateSets": "Running late: only {sets} of {all} sets.",
    "lateOut": "Running late: leave this out.",
    "showLate": "What to leave out",
    "blockMinute": "from minute {minute}",
    "beginBlock": "I begin this now",
    "next": "Go on: {block}",
    "begunAt": "Begun at minute {minute}",
    "doneBlock": "Done",
    "leftOut": "Not in this version. Write here only if you did it all the same.",
    "which": "Which one did you do?",
    "doIt": "Do it",
    "take": "Take",
    "takeCare": "Take care",
    "lastHere": "Last time ({day}): {figures}",
    "with": ", with {load}",
    "nothingChosen": "not said",
    "set": "Set {number}",
    "round": "Round {number}",
    "setOf": "Set {number}, {unit}, {movement}",
    "roundOf": "Round {number}, {unit}, {movement}",
    "less": "Less: {what}",
    "more": "More: {what}",
    "fieldOf": "{field}, {movement}",
    "asAsked": "All sets as asked",
    "asAskedOf": "All sets as asked: {movement}",
    "oneMore": "One set more",
    "oneMoreOf": "One set more: {movement}",
    "figure": "Write a figure, such as {example}.",
    "sides": "Each side: write the smaller figure of the two sides.",
    "distance": "How far, in {unit}",
    "timeMinutes": "How long, minutes",
    "timeSeconds": "and seconds",
    # How it was
    "whole": "The session as a whole",
    "minutes": "Minutes it took",
    "effort": "How hard it was, from 0 (no effort) to 10 (nothing left)",
    "note": "How it felt, pain, sleep, anything your coach should know",
    "finish": "I am done with this session",
    "finished": "Well done. It is written down. Do not forget to send it.",
    # Timers
    "rest": "Rest {time}",
    "restOf": "Rest {time} after a set: {movement}",
    "restRound": "Rest {time} after the round",
    "restTitle": "Rest",
    "restOver": "The rest is over",
    "overSince": "over since {time}",
    "countTempo": "Count the tempo",
    "countTempoOf": "Count the tempo: {movement}",
    "tempoReady": "Get ready",
    "tempoCount": "Repetition {number}",
    "tempoCountOf": "Repetition {number} of {all}",
    "tempoOver": "The set is counted",
    "hold": "Time it: {time}",
    "holdOf": "Time it, {time}: {movement}",
    "holdOver": "The time is over",
    "moreTime": "+15 s: 15 seconds more",
    "moreTimeShort": "+15 s",
    "stop": "Stop",
    "close": "Close",
    "signals": "At the end of a rest",
    "vibrate": "Vibrate",
    "sound": "Sound",
    "signalsHow": (
        "The page must stay open, and a phone that sleeps gives no signal. The time goes on and is right when you look."
    ),
}
