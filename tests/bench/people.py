"""A project of any number of athletes for the station's program.

Those of a crew share a room, as crews do: no two rooms hold the same, and a quarter of the people have a bell of their own
beside it. No two people begin alike, and every second one must not do something.
"""

import shutil
from pathlib import Path
from random import Random

ROOT = Path(__file__).resolve().parents[2]
CLUB = 250  # athletes in one file
CREW = 25  # athletes who share a room
GIVEN = ("maren", "otto", "ines", "tomas", "birgit", "ravi", "solveig", "piet", "hana")
THINGS = ("floor", "wall", "chair", "table", "step", "towel", "cushion", "corridor", "outside")
AVOIDED = ("split-squat", "push-up", "suitcase-hinge", "jerrycan-carry", "side-plank", "step-up", "heel-raise")
MOVEMENTS = ("goblet-squat", "one-arm-row", "suitcase-hinge", "jerrycan-carry")
RUNGS = {
    "push-up": ("wall", "knees", "toes"),
    "single-leg-stand": ("fingertip", "free", "head-turns"),
    "side-plank": ("wall", "knees", "feet"),
    "heel-raise": ("two-feet", "two-up", "one-foot"),
}


def write_project(folder: Path, people: int, seed: int = 1) -> None:
    """The station's program, and files of athletes with a group of each."""
    folder.mkdir(parents=True)
    for name in ("winter-store-room.coach", "station-movements.coach"):
        shutil.copy(ROOT / "programs" / "tern-holm" / name, folder)
    random = Random(seed)
    for first in range(0, people, CLUB):
        numbers = range(first, min(first + CLUB, people))
        names = [f"{random.choice(GIVEN)}-{number}" for number in numbers]
        rooms = [room(random) for _ in range(0, CLUB, CREW)]
        text = "".join(athlete(random, name, rooms[place // CREW]) for place, name in enumerate(names))
        club = f"group club-{first // CLUB}: {', '.join(names)}\n"
        (folder / f"club-{first // CLUB:03}.coach").write_text(
            f'use basics\nuse "winter-store-room.coach"\n\n{text}{club}'
        )


def room(random: Random) -> list[str]:
    """What there is to lift in the room of a crew."""
    pairs = sorted(random.sample(range(3, 13), random.randint(2, 4)))
    bells = sorted(random.sample((8, 10, 12, 14, 16, 20, 24), random.randint(1, 3)))
    plates = ", ".join(f"{random.choice((2, 4))} x {mass} kg" for mass in random.sample(("1.25", "2.5", "5", "0.5"), 2))
    return [
        f"has dumbbell pair {', '.join(f'{mass} kg' for mass in pairs)}",
        f"has kettlebell {', '.join(f'{mass} kg' for mass in bells)}",
        f"has handle 2 kg with plates {plates}",
        f'has container {random.choice((5, 10, 12))} l "jerrycan" weighing 0.{random.randint(2, 9)} kg, fill water, sand',
        f"has {', '.join(THINGS)}",
    ]


def athlete(random: Random, name: str, shared: list[str]) -> str:
    """One athlete as a coach writes them."""
    lines = [
        f'athlete {name} "{name.partition("-")[0].capitalize()}"',
        f"born {random.randint(1950, 2004)}",
        f"body {random.randint(50, 100)} kg",
        *(["trains alone"] if random.random() < 0.4 else []),
        f"starts {random.choice(('2026-06-15 on mon, wed, fri', '2026-06-16 on tue, thu, sat'))}",
        *shared,
        *([f"has kettlebell {random.choice((9, 11, 13, 18))} kg"] if random.random() < 0.25 else []),
    ]
    if random.random() < 0.5:
        lines.append(f'avoids {random.choice(AVOIDED)} "left side, since spring"')
    lines += [f"begins {movement} at {random.choice((5, 7, 8, 10, 12))} kg" for movement in MOVEMENTS]
    lines += [f"begins {movement} on {random.choice(rungs)}" for movement, rungs in RUNGS.items()]
    lines += ["prints large"] if random.random() < 0.1 else []
    return "\n  ".join(lines) + "\n\n"
