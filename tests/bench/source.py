"""Realistic content of any size, made from a seed: the same movements, programs, athletes and logs as source and as YAML.

The content is plain dictionaries first. `as_source` writes them in the coach's language; as YAML they are dumped as they
are, in the layout that people write by hand: one key a line.
"""

from datetime import date, timedelta
from random import Random
from typing import Any

from tests.bench.coach import as_source

Content = dict[str, list[dict[str, Any]]]

PATTERNS = ("squat", "lunge", "hinge", "push", "pull", "carry", "trunk", "balance")
MANNERS = ("slow", "steady", "wide", "narrow", "low", "high", "seated", "standing", "half", "deep")
NAMES = ("maren", "otto", "ines", "tomas", "birgit", "ravi", "solveig", "piet", "hana")
CUES = ("Chest proud", "Whole foot on the floor", "Push the floor away", "Ribs down", "Long back", "Knees follow toes")
NOTES = ("Knee fine.", "Slept badly.", "Good company today.", "No change.", "Legs like lead.", "Better than last week.")
TEXTS = (
    "Stand with the feet as wide as the shoulders, toes a little out.",
    "Go down as far as is comfortable and keep the whole foot on the floor.",
    "Breathe out on the way up, and stop when it hurts.",
    "Rest the free hand on something that cannot tip or roll.",
)


def make_content(lines: int, seed: int = 1) -> Content:
    """Content whose source has the given number of lines, or a few more."""
    random = Random(seed)
    content: Content = {"movements": [], "programs": [], "athletes": [], "logs": []}
    written = 0
    while written < lines:
        number = len(content["programs"]) + 1
        part = {
            "movements": [_movement(random, number, pattern) for pattern in PATTERNS],
            "programs": [_program(random, number)],
            "athletes": [_athlete(random, number, name) for name in random.sample(NAMES, 2)],
        }
        part["logs"] = [_log(random, number, athlete["name"]) for athlete in part["athletes"]]
        for kind, made in part.items():
            content[kind] += made
        written += as_source(part).count("\n")
    return _named(content)


def _movement(random: Random, number: int, pattern: str) -> dict[str, Any]:
    movement = {
        "name": f"{random.choice(MANNERS)}-{pattern}-{number}",
        "title": f"{pattern.capitalize()} number {number}",
        "pattern": [pattern],
        "needs": random.choice((["floor"], ["chair"], ["wall", "floor"], ["step"])),
        "rep": f"{random.randint(2, 5)} s",
        "cues": random.sample(CUES, 2),
        "cautions": ["Stop when a joint hurts sharply."],
        "how": random.sample(TEXTS, random.randint(2, 4)),
    }
    if pattern in ("squat", "hinge", "pull", "carry"):
        movement["loaded_by"] = ["dumbbell pair", "kettlebell"] if pattern != "pull" else ["dumbbell", "kettlebell"]
    if pattern == "balance":
        movement["held"] = True
        del movement["rep"]
    return movement


def _program(random: Random, number: int) -> dict[str, Any]:
    return {
        "name": f"program-{number}",
        "title": f"Strength, program {number}",
        "revision": 1,
        "date": str(date(2026, 1, 5) + timedelta(number % 300)),
        "for": "The crew, ages 24 to 71",
        "coach": "The shore coach",
        "units": "kg",
        "weeks": random.randint(6, 12),
        "rest": "60 s",
        "change": "45 s",
        "aims": ["Keep strength, muscle and balance until the relief ship comes."],
        "rules": ["Train in the order printed. Log every session.", "Stop a set before your form goes."],
        "categories": [
            {"name": "legs", "required": True, "counts": ["squat", "lunge"]},
            *({"name": name, "required": True} for name in ("push", "pull", "hinge")),
        ],
        "sessions": [_session(random, number, name) for name in ("first", "second")],
    }


def _session(random: Random, number: int, name: str) -> dict[str, Any]:
    """A session over movements that are named by their pattern until `_named` gives them the names of the program."""
    reps = random.randint(5, 8)
    loaded = [{"axis": "reps", "by": 1, "to": 12}, {"axis": "load", "restarting": ["reps"]}]
    blocks = [
        {"name": "legs", "title": "Legs", "entries": [
            _entry("must", "squat", {"sets": 3, "reps": reps, "rest": "75 s"}, loaded, else_="lunge"),
            _entry("key", "lunge", {"sets": 2, "reps": reps, "each_side": True, "lower": "3 s"},
                   [{"axis": "lower", "by": "1 s", "to": "6 s"}]),
        ]},
        {"name": "upper", "title": "Push and pull", "rounds": 3, "rest": "30 s", "entries": [
            _entry("must", "push", {"reps": reps, "lower": "2 s"}, [{"axis": "reps", "by": 1, "to": 15}]),
            _entry("must", "pull", {"reps": reps, "each_side": True}, loaded),
        ]},
        {"name": "last", "title": "Hinge, carry, trunk", "entries": [
            _entry("must", "hinge", {"sets": 3, "reps": f"{reps}-{reps + 4}"}, loaded),
            _entry("do", "carry", {"sets": 3, "distance": "20 m"}, [{"axis": "distance", "by": "5 m", "to": "40 m"}]),
            _entry("do", "trunk", {"sets": 2, "reps": 10}, [{"axis": "reps", "by": 1, "to": 20}]),
            _entry("may", "balance", {"sets": 2, "time": "20 s", "each_side": True},
                   [{"axis": "hold", "by": "5 s", "to": "30 s"}]),
        ]},
    ]  # fmt: skip
    return {"name": name, "per_week": 2, "within": "60 min", "short": [["20 min", "sets"]], "blocks": blocks}


def _entry(
    priority: str, pattern: str, dose: dict[str, Any], advance: list[dict[str, Any]], else_: str | None = None
) -> dict[str, Any]:
    entry: dict[str, Any] = {"priority": priority, "movement": pattern, "dose": dose, "advance": advance}
    return entry | ({"else": {"movement": else_, "dose": {"sets": 2, "reps": 8}}} if else_ else {})


def _athlete(random: Random, number: int, name: str) -> dict[str, Any]:
    return {
        "name": f"{name}-{number}",
        "title": name.capitalize(),
        "born": random.randint(1955, 2002),
        "body": f"{random.randint(55, 95)} kg",
        "starts": "2026-06-15",
        "days": ["mon", "wed", "fri"],
        "dumbbell_pairs": ["4 kg", "6 kg", "8 kg", "10 kg"],
        "kettlebells": ["12 kg"],
        "things": ["floor", "wall", "chair", "step"],
    }


def _log(random: Random, number: int, athlete: str) -> dict[str, Any]:
    day = date(2026, 6, 15)
    sessions = []
    for count in range(12):
        reps = 5 + count % 7
        load = random.choice(("4 kg", "6 kg"))
        sessions.append({
            "date": str(day + timedelta(2 * count + count // 2)),
            "session": ("first", "second")[count % 2],
            "took": f"{random.randint(40, 58)} min",
            "rpe": random.randint(5, 9),
            "entries": [
                {"movement": "squat", "load": load, "results": [reps] * 3},
                {"movement": "push", "results": [reps + 1, reps, reps]},
                {"movement": "pull", "load": load, "results": [reps] * 3},
                {"movement": "hinge", "load": load, "results": [reps] * 3},
                {"movement": "trunk", "results": [10, 10]},
            ],
            "note": random.choice(NOTES),
        })  # fmt: skip
    return {"athlete": athlete, "program": f"program-{number}", "revision": 1, "sessions": sessions}


def _named(content: Content) -> Content:
    """Content in which entries and logs name the movements of their own program instead of a pattern."""
    names = [
        {movement["pattern"][0]: movement["name"] for movement in content["movements"][start : start + len(PATTERNS)]}
        for start in range(0, len(content["movements"]), len(PATTERNS))
    ]

    def renamed(value: Any, own: dict[str, str]) -> Any:
        if isinstance(value, list):
            return [renamed(item, own) for item in value]
        if isinstance(value, dict):
            return {key: own[item] if key == "movement" else renamed(item, own) for key, item in value.items()}
        return value

    programs = [renamed(program, own) for program, own in zip(content["programs"], names, strict=True)]
    logs = [renamed(log, names[int(log["program"].partition("-")[2]) - 1]) for log in content["logs"]]
    return content | {"programs": programs, "logs": logs}
