"""The content of the bench, written in the coach's language."""

from collections.abc import Iterator
from typing import Any


def as_source(content: dict[str, list[dict[str, Any]]]) -> str:
    """The source of the content, with the blank lines and comments that a person would set."""
    lines = ["# Tern Holm field station, made at random."]
    for write, kind in ((_movement, "movements"), (_program, "programs"), (_athlete, "athletes"), (_log, "logs")):
        for thing in content.get(kind, ()):
            lines += ["", *write(thing)]
    return "\n".join(lines) + "\n"


def _movement(movement: dict[str, Any]) -> Iterator[str]:
    yield f'movement {movement["name"]} "{movement["title"]}"'
    yield f"  pattern {' and '.join(movement['pattern'])}"
    if movement.get("held"):
        yield "  held"
    yield f"  needs {' and '.join(movement['needs'])}"
    if "loaded_by" in movement:
        yield f"  loaded by one of {', '.join(movement['loaded_by'])}"
    if "rep" in movement:
        yield f"  rep {movement['rep']}"
    yield from (f'  cue "{cue}"' for cue in movement["cues"])
    yield from (f'  caution "{caution}"' for caution in movement["cautions"])
    yield "  how"
    yield from (f"    | {line}" for line in movement["how"])


def _program(program: dict[str, Any]) -> Iterator[str]:
    yield f'program {program["name"]} "{program["title"]}"'
    yield f"  revision {program['revision']}, {program['date']}"
    yield f'  for "{program["for"]}"'
    yield f'  coach "{program["coach"]}"'
    yield f"  units {program['units']}"
    yield f"  runs {program['weeks']} weeks"
    yield f"  rest {program['rest']}, change {program['change']}    # between sets; between movements"
    for section in ("aims", "rules"):
        yield f"  {section}"
        yield from (f"    | {line}" for line in program[section])
    for category in program["categories"]:
        counts = f", counts {' and '.join(category['counts'])}" if "counts" in category else ""
        yield f"  category {category['name']} required{counts}"
    for session in program["sessions"]:
        yield ""
        yield from (f"  {line}" for line in _session(session))


def _session(session: dict[str, Any]) -> Iterator[str]:
    yield f"session {session['name']}, {session['per_week']} a week"
    yield f"  within {session['within']}"
    yield from (f"  short {limit} by {by}" for limit, by in session["short"])
    for block in session["blocks"]:
        clauses = "".join(f", {clause} {block[clause]}" for clause in ("rounds", "rest") if clause in block)
        yield f'  block {block["name"]} "{block["title"]}"{clauses}'
        for entry in block["entries"]:
            yield f"    {entry['priority']:<4} {entry['movement']} {_dose(entry['dose'])}"
            yield f"      advance {', then '.join(_axis(axis) for axis in entry['advance'])}"
            if "else" in entry:
                yield f"      else {entry['else']['movement']} {_dose(entry['else']['dose'])}"


def _dose(dose: dict[str, Any]) -> str:
    done = next(str(dose[key]) for key in ("reps", "distance", "time") if key in dose)
    text = f"{dose['sets']} x {done}" if "sets" in dose else done
    text += " each side" if dose.get("each_side") else ""
    return text + "".join(f", {clause} {dose[clause]}" for clause in ("lower", "rest") if clause in dose)


def _axis(axis: dict[str, Any]) -> str:
    parts = [axis["axis"], *(f"{word} {axis[word]}" for word in ("by", "to") if word in axis)]
    return " ".join([*parts, *(f"restarting {name}" for name in axis.get("restarting", ()))])


def _athlete(athlete: dict[str, Any]) -> Iterator[str]:
    yield f'athlete {athlete["name"]} "{athlete["title"]}"'
    yield f"  born {athlete['born']}"
    yield f"  body {athlete['body']}"
    yield f"  starts {athlete['starts']} on {', '.join(athlete['days'])}"
    yield f"  has dumbbell pair {', '.join(athlete['dumbbell_pairs'])}"
    yield f"  has kettlebell {', '.join(athlete['kettlebells'])}"
    yield f"  has {', '.join(athlete['things'])}"


def _log(log: dict[str, Any]) -> Iterator[str]:
    yield f"log {log['athlete']} on {log['program']}, revision {log['revision']}"
    for session in log["sessions"]:
        yield ""
        yield f"{session['date']} {session['session']}, {session['took']}, rpe {session['rpe']}"
        for entry in session["entries"]:
            state = f"{entry['load']}  " if "load" in entry else ""
            yield f"  {entry['movement']:<18} {state}{' '.join(map(str, entry['results']))}"
        yield f"  | {session['note']}"
