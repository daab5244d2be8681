"""What a note speaks of: stop signs that a coach reads before all else, or their names where the note says that there is none.

Nothing is diagnosed here, and nothing is left out: a note that names a stop sign is always told. Where in doubt it is an alarm.

Stop signs: allinahealth.org and geisinger.org (both read), in everyday words: pain or pressure in chest, neck, jaw or arm;
dizziness, fainting; nausea, cold sweat; breathless beyond talking; racing or irregular heart; vision change; numbness or sudden
weakness; severe headache; new joint or muscle pain. Which words of a note take it back is common practice, no source.
"""

from __future__ import annotations

import re
from typing import Literal

Speaks = Literal["alarm", "named", "nothing"]

_SIGN = re.compile(
    r"\b(pain(?:s|ful|fully|less|lessly|free)?\b|hurt\w*|ache[ds]?|aching|headache\w*|dizz\w+|giddy|vertigo|faint\w*|light-?headed\w*|collaps\w+|"
    r"(?:black|pass)(?:ed|ing)? out|chest|jaw|breathless\w*|(?:out|short(?:ness)?) of breath|palpitation\w*|"
    r"(?:racing|irregular) heart\w*|heart\s?(?:beat)?\s(?:\w+\s)?(?:rac|stumbl|flutter|skip|pound)\w+|numb\w*|nause\w+|"
    r"sick to|cold sweat\w*|blurr\w+|(?:double vision|seeing double|saw stars)|sudden(?:ly)? weak\w*|no feeling in|"
    r"(?:cannot|can't|could not|couldn't|unable to) (?:breathe|(?:get|catch) my breath))",
    re.IGNORECASE,
)
_CLAUSES = re.compile(
    r"[.!?;:,\n()]|\b(?:but|and then|until|till|before|except|apart from|although|though)\b", re.IGNORECASE
)
# Between the word that takes back and the sign only these may stand: "no more knee pain", and not "no sleep for the pain".
_BETWEEN = (
    r"(?:(?:a|any|more|longer|real|further|new|sign|signs|trace|of|or|nor|the|my|in|left|right|upper|lower|back|knee|knees|hip|hips|"
    r"shoulder|shoulders|elbow|wrist|ankle|foot|neck|arm|leg|muscle|joint|chest|pain|dizziness|feeling|felt|at|all|been)\s+)*"
)
_TAKEN_BACK = re.compile(
    rf"(?<!\bnot\s)(?<!n't\s)\b(?:no|not|nor|never|nothing|without|zero|free of|free from|isn't|wasn't|didn't|"
    rf"don't|doesn't)\s+{_BETWEEN}$",
    re.IGNORECASE,
)
_INSTRUCTION = re.compile(r"\bstop(?:s|ped)?\s+(?:when|if|at|as soon as)\s+(?:\w+\s+){0,3}$", re.IGNORECASE)
_OVER = re.compile(
    r"^\s*(?:-?free|(?:is|are|has|have|had)?\s*(?:all\s+|completely\s+)?(?:gone|over|vanished))\s*$", re.IGNORECASE
)
_PLACE = re.compile(r"^[\s-]*(?:opener\w*|press\w*|pass\w*|high|height)\b", re.IGNORECASE)
_RELIEF = re.compile(r"\s*(?:relief|killer)", re.IGNORECASE)  # "no pain relief" is no good news
_HARMLESS = frozenset(("painless", "painlessly", "painfree"))


def speaks(note: str) -> Speaks:
    """What a note speaks of: `alarm` for a stop sign, `named` where it names one and takes it back, else `nothing`."""
    found: Speaks = "nothing"
    for clause in _CLAUSES.split(note.replace("’", "'")):
        for sign in _SIGN.finditer(clause):
            if not _is_calm(clause[: sign.start()], sign[0].lower(), clause[sign.end() :]):
                return "alarm"
            found = "named"
    return found


def _is_calm(before: str, sign: str, after: str) -> bool:
    """Whether the words around a stop sign say that there was none."""
    if sign in _HARMLESS or (sign == "chest" and _PLACE.match(after)):
        return True
    taken_back = any(pattern.search(before) for pattern in (_TAKEN_BACK, _INSTRUCTION)) and not _RELIEF.match(after)
    return taken_back or bool(_OVER.match(after))
