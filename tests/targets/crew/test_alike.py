"""What athletes who begin alike share: whoever comes first, each gets the same pack.

Of a dozen people each differs from the first in one line that some figure or word of a pack depends on. Two processes that
keep nothing of each other build them, one in the opposite order: had an athlete something that belongs to another, it would
be another athlete's in the other order.
"""

import subprocess
import sys
from pathlib import Path

from setwright.compiler.disk import files_at
from setwright.compiler.project import load
from setwright.compiler.roster import Roster, shared_texts
from setwright.targets.crew.outcome import Shared, Wanted
from setwright.targets.crew.partition import build_partition
from setwright.targets.crew.record import edition
from setwright.targets.printing import KINDS, Printing

PROGRAM = """\
use basics

program shed "Shed class"
  revision 1, 2026-06-14
  weeks 4: sets by -1, load by -10%
  runs 8 weeks
  category legs required, counts squat and lunge
  session main "Main session", 3 a week
    within 60 min
    short 20 min by sets
    block strength "Strength"
      must goblet-squat 3 x 8
        advance reps by 1 to 12, then load restarting reps
        else chair-stand 3 x 12
          advance reps by 1 to 20
      key  deadlift sets 5 at 65%, 5 at 75%, ramp 40% x 5
        advance load by 5% to 90%
      do   push-up 3 x 8
        advance reps by 1 to 12, then rung restarting reps
      do   jerrycan-carry 2 x 20 m
        advance distance by 5 m to 40 m, then load restarting distance
      do   plank 2 x 20 s
        advance hold by 5 s to 60 s
      may  band-row 2 x 12
        advance reps by 1 to 15, then load restarting reps
"""
FIRST = {
    "born": "born 1960",
    "starts": "starts 2026-06-15 on mon, wed, fri",
    "bells": "has kettlebell 8 kg, 12 kg, 16 kg",
    "bar": "has barbell 20 kg with plates 2 x 10 kg, 2 x 5 kg, 2 x 2.5 kg",
    "can": 'has container 10 l "jerrycan" weighing 0.5 kg, fill water, sand',
    "band": 'has band "yellow", "red"',
    "things": "has floor, chair, wall, table, corridor, door, rack",
    "squat": "begins goblet-squat at 12 kg",
    "press": "begins push-up on knees, 8 reps",
    "plank": "begins plank 20 s",
    "max": "max deadlift 60 kg",
}
# What the next differ in: a line of the first instead of which they have this one, or a further line.
OTHERWISE = {
    "alone": ("", "trains alone\n  alone at most 70%"),
    "jump": ("", "jump 50%"),
    "heavier": ("squat", "begins goblet-squat at 16 kg"),
    "unmade": ("squat", "begins goblet-squat at 13 kg"),
    "bell": ("", "has kettlebell 14 kg"),
    "plate": ("bar", "has barbell 20 kg with plates 2 x 10 kg, 2 x 5 kg"),
    "bars": ("", "has barbell 15 kg"),
    "cans": ("", 'has container 5 l "jerrycan" weighing 0.3 kg, fill water'),
    "sand": ("can", 'has container 10 l "jerrycan" weighing 0.5 kg, fill sand'),
    "strong": ("max", "max deadlift 80 kg"),
    "bands": ("band", 'has band "yellow", "red", "black"'),
    "more": ("press", "begins push-up on knees, 10 reps"),
    "harder": ("press", "begins push-up on toes, 8 reps"),
    "longer": ("plank", "begins plank 30 s"),
    "avoids": ("", 'avoids goblet-squat "both knees"'),
    "bare": ("bells", ""),
    "large": ("", "prints large"),
    "other-lines": ("", "body 70 kg"),
}


def _athlete(name: str, line: str, instead: str) -> str:
    said = {**FIRST, line: instead} if line else {"more": instead, **FIRST}
    return f'athlete {name} "{name.title()}"\n' + "".join(f"  {one}\n" for one in said.values() if one) + "\n"


def _build(project: Path, backwards: bool, to: Path) -> None:
    files = files_at(project)
    roster = Roster(files.fetch)
    texts = shared_texts(load(list(files.paths), roster.fetch))
    people = [Wanted(name, roster.pieces(name)) for name in roster.athletes]
    shared = Shared(texts, "", str(to), None, None, edition(), Printing(without=KINDS))
    outcomes = build_partition(shared, people[::-1] if backwards else people)
    assert {one.what for one in outcomes} == {"made"}, [
        found[2] for one in outcomes for found in one.findings if found[1] == "error"
    ]


def _files(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_whoever_comes_first_each_gets_the_same_pack(tmp_path: Path) -> None:
    project = tmp_path / "shed"
    project.mkdir()
    (project / "shed.coach").write_text(PROGRAM)
    people = [_athlete("first", "", ""), *(_athlete(name, *change) for name, change in OTHERWISE.items())]
    (project / "people.coach").write_text('use basics\nuse "shed.coach"\n\n' + "".join(people))
    for order in ("forwards", "backwards"):
        subprocess.run([sys.executable, __file__, project, order, tmp_path / order], check=True)
    forwards, backwards = _files(tmp_path / "forwards"), _files(tmp_path / "backwards")
    assert forwards.keys() == backwards.keys()
    assert [name for name in forwards if forwards[name] != backwards[name]] == []
    told: dict[str, list[str]] = {}
    for name in ("first", *OTHERWISE):
        text = forwards[f"{name}/{name}-shed-handout.md"].decode()
        told.setdefault(text[text.index("\n## Main session") :], []).append(name)
    alike = [names for names in told.values() if len(names) > 1]
    assert alike == [["first", "unmade", "large", "other-lines"]]


if __name__ == "__main__":
    _build(Path(sys.argv[1]), sys.argv[2] == "backwards", Path(sys.argv[3]))
