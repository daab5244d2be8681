"""What each word of the grammar is called when the coach is told that it was expected: a phrase, and how it looks.

The order is the order in which expectations are told: figures and names before words, words before punctuation.
"""

from __future__ import annotations

from collections.abc import Iterable

PHRASES: dict[str, str] = {
    "NAME": "a name (`goblet-squat`)",
    "AXIS": "an axis (`load`, `total reps`)",
    "EASED": "what an easier week lowers (`sets by -1`, `load by -10%`)",
    "STRING": 'a text in quotes (`"Ribs down"`)',
    "PROSE": "a line of text that begins with `|`",
    "DATE": "a date (`2026-06-14`)",
    "SETS_X": "a number of sets (`3 x`)",
    "INT": "a whole number (`6`)",
    "RANGE": "a range (`6-10`)",
    "DECIMAL": "a number (`7.5`)",
    "TIME": "a time (`60 s`, `45 min`)",
    "MASS": "a weight (`12 kg`, `25 lb`)",
    "LENGTH": "a distance (`20 m`, `2.4 km`)",
    "LITRES": "a volume (`5 l`)",
    "PERCENT": "a percentage (`70%`)",
    "A": "`a week` (`3 a week`)",
    "CLOCK": "a time by the clock (`31:00`)",
    "RAMP_SET": "a lighter set (`40% x 5`)",
    "TEMPO_FIGURES": "four figures (`3-1-x-0`)",
    "_COMMA": "a comma",
    "_COLON": "a colon",
    "MINUS": "a minus sign (`-`)",
    "_INDENT": "lines set further in below it",
    "_NL": "the end of the line",
    "_DEDENT": "the end of the lines below",
    "$END": "the end of the text",
    "WORD": "a word",
    "QUOTE": "a sign",
}

# Words of the language, told as themselves: everything the coach types letter by letter.
WORDS = frozenset(
    "use movement program block athlete group log pattern held needs loaded by one of pair rep covers in cue "
    "caution rungs moves source how revision for coach ask units runs weeks rest change jump letterhead accent "
    "logo showing aims rules return "
    "volume load category required at least a week counts session every day on within short rounds must key do "
    "may else after good missed ease advance then none because to restarting total reps sets amrap each side "
    "leaving rpe lower pause cues raise fast tempo expect ramp if able has born body trains alone with starts "
    "follows avoids begins max most prints plates weighing fill limit straight allow and".split()
)


def phrase(terminal: str) -> str:
    """The phrase of a terminal: its own word in backticks, or the phrase of the table."""
    return PHRASES[terminal] if terminal in PHRASES else f"`{terminal.lower()}`"


def expectations(terminals: Iterable[str], most: int = 6) -> str:
    """What was expected, in the coach's words: at most `most` phrases and a word that there are more, if there are."""
    order = {name: place for place, name in enumerate(PHRASES)}
    told = [name for name in terminals if name not in ("WORD", "QUOTE", "_DEDENT", "$END")]
    if {"NAME", "TOTAL"} <= set(told):  # `total` begins nothing but the name of an axis
        told = ["AXIS", *(name for name in told if name not in ("NAME", "TOTAL"))]
    told.sort(key=lambda name: (name.startswith("_"), order.get(name, -1 if name in ("AMRAP",) else 5), name))
    phrases = [phrase(name) for name in told] or ["nothing more"]
    if len(phrases) > most:
        phrases = [*phrases[:most], "something else"]
    return phrases[0] if len(phrases) == 1 else f"{', '.join(phrases[:-1])} or {phrases[-1]}"
