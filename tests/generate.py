"""Programs for tests: short ways to write parts of the model by hand, and programs made at random from a seed."""

from fractions import Fraction
from random import Random

import attrs
from setwright.compiler.clock import session_time
from setwright.compiler.model import (
    Amrap,
    Axis,
    Block,
    Category,
    Distance,
    Dose,
    Easier,
    Entry,
    Movement,
    Priority,
    Program,
    RampSet,
    Reps,
    Rule,
    Session,
    Short,
    Target,
    Tempo,
    Timed,
    WorkSet,
)
from setwright.compiler.quantity import Quantity, read_quantity
from setwright.grammar.source import Source, Span

NOWHERE = Span(Source("made by a test", ""), 0, 0)
PATTERNS = ("squat", "hinge", "push", "pull", "carry", "balance")


def quantity(text: str | None) -> Quantity | None:
    return None if text is None else read_quantity(text)


def target(text: str) -> Target:
    """`6`, `6-10`, `amrap`, `amrap 9`, `30 s` or `20 m`."""
    if text.startswith("amrap"):
        expected = text.removeprefix("amrap").strip()
        return Amrap(expect=int(expected) if expected else None)
    if text.replace("-", "").isdigit():
        low, _, high = text.partition("-")
        return Reps(int(low), int(high or low))
    amount = read_quantity(text)
    return Timed(amount) if amount.dimension == "time" else Distance(amount)


def movement(
    name: str = "lift", *patterns: str, rep: str | None = None, covers: tuple[str, str] | None = None
) -> Movement:
    pace = None if covers is None else (read_quantity(covers[0]), read_quantity(covers[1]))
    return Movement(name, name.capitalize(), patterns, rep=quantity(rep), covers=pace, span=NOWHERE)


def tempo(lower: str | None = None, pause: str | None = None, up: str | None = None, top: str | None = None) -> Tempo:
    raising = "fast" if up == "fast" else quantity(up)
    return Tempo(quantity(lower), quantity(pause), None, raising, quantity(top))


def dose(sets: int, what: str, ramp: tuple[int, ...] = (), rest: str | None = None, **more: object) -> Dose:
    lighter = tuple(RampSet(read_quantity("50%"), reps) for reps in ramp)
    return Dose((WorkSet(target(what)),) * sets, lighter, rest=quantity(rest), span=NOWHERE, **more)


def entry(priority: Priority, lift: Movement, amount: Dose) -> Entry:
    return Entry(priority, lift, amount, span=NOWHERE)


def block(
    *entries: Entry, rest: str | None = None, change: str | None = None, name: str = "block", **more: object
) -> Block:
    return Block(
        name,
        name.capitalize(),
        more.pop("kind", "work"),
        entries,
        rest=quantity(rest),
        change=quantity(change),
        span=NOWHERE,
        **more,
    )


def session(*blocks: Block, name: str = "main", **how_often: object) -> Session:
    return Session(name, f"{name.capitalize()} session", blocks, within_span=None, span=NOWHERE, **how_often)


def category(name: str, *counts: str, required: bool = True, at_least: int | None = None) -> Category:
    return Category(name, name.capitalize(), counts or (name,), required, at_least, span=NOWHERE)


def program(*sessions: Session, categories: tuple[Category, ...] = (), **more: str) -> Program:
    times = {name: read_quantity(text) for name, text in more.items()}
    return Program("store-room", "Store room", categories=categories, sessions=sessions, span=NOWHERE, **times)


# At random


def random_program(random: Random, entries: int) -> Program:
    """A program of one session, with circuits, warm-ups, ramps, sides, categories and all priorities."""
    blocks = []
    left = entries
    while left:
        size = min(left, random.randint(1, 5))
        blocks.append(_random_block(random, size))
        left -= size
    names = random.sample(PATTERNS, random.randint(0, 4))
    categories = tuple(category(name, required=random.random() < 0.8) for name in names)
    if random.random() < 0.2:
        categories += (category("trunk", "carry", "balance", required=False, at_least=random.randint(1, 3)),)
    if random.random() < 0.3:
        categories += (category("legs", "squat", "hinge"),)
    times = {}
    if random.random() < 0.8:
        times["rest"] = _random_time(random, 30, 90)
    if random.random() < 0.8:
        times["change"] = _random_time(random, 0, 60)
    return program(session(*blocks), categories=categories, **times)


def _random_block(random: Random, size: int) -> Block:
    rounds = random.randint(1, 5) if random.random() < 0.35 else None
    return block(
        *(_random_entry(random, rounds) for _ in range(size)),
        kind=random.choices(("work", "conditioning", "warm-up", "cool-down"), (6, 2, 1, 1))[0],
        rounds=rounds,
        rest=_random_time(random, 15, 90) if random.random() < 0.4 else None,
        change=_random_time(random, 0, 45) if random.random() < 0.4 else None,
    )


def _random_entry(random: Random, rounds: int | None) -> Entry:
    sets = random.randint(1, 5) if rounds is None else 1
    what = random.choice((str(random.randint(3, 15)), "6-10", "amrap 9", "amrap", "30 s", "20 m"))
    amount = dose(
        sets,
        what,
        ramp=(5, 3)[: random.randint(1, 2)] if random.random() < 0.1 else (),
        rest=_random_time(random, 15, 120) if random.random() < 0.3 else None,
        each_side=random.random() < 0.3,
        tempo=tempo(lower="3 s") if random.random() < 0.2 else Tempo(),
        least_sets=random.randint(1, sets if rounds is None else rounds) if random.random() < 0.5 else 1,
    )
    lift = movement(
        "lift", *random.sample(PATTERNS, random.randint(1, 2)), rep=random.choice((None, "2 s", "2.5 s", "4 s"))
    )
    return entry(random.choices(("must", "key", "do", "may"), (2, 3, 4, 2))[0], lift, amount)


def _random_time(random: Random, low: int, high: int) -> str:
    """Mostly the round times that coaches write; now and then an odd one, which makes the search harder."""
    seconds = random.randint(low, high)
    return f"{seconds if random.random() < 0.2 else seconds // 5 * 5} s"


def random_limit(random: Random, shortest: Fraction, full: Fraction) -> Fraction:
    """A limit in seconds: too short for anything, tight, somewhere between, or so loose that little or nothing goes."""
    spare = full - shortest
    low, high = random.choices(
        (
            (shortest / 2, shortest),
            (shortest, shortest + spare / 10),
            (shortest, full),
            (full - spare / 10, full * Fraction(21, 20)),
        ),
        (1, 3, 5, 2),
    )[0]
    return Fraction(random.randint(int(low), max(int(low), int(high))))


def random_weeks(random: Random, entries: int) -> Program:
    """A random program that runs over weeks: rules of progression, short versions, a limit, easier weeks."""
    made = random_program(random, entries)
    task = made.sessions[0]
    blocks = tuple(
        attrs.evolve(each, entries=tuple(_with_rule(random, each, one) for one in each.entries)) for each in task.blocks
    )
    whole = int(session_time(made, task))
    shorts = tuple(
        Short(Quantity(Fraction(random.randint(whole // 3, whole)), "s"), by, span=NOWHERE)
        for by in ("sets", "movements")
    )
    task = attrs.evolve(
        task,
        blocks=blocks,
        per_week=random.randint(1, 4),
        within=Quantity(Fraction(random.randint(whole, whole * 2)), "s"),
        shorts=shorts,
    )
    weeks = random.randint(4, 16)
    easier = Easier(tuple(random.sample(range(1, weeks), 2)), (("sets", -1), ("reps", -2)), span=NOWHERE)
    return attrs.evolve(made, sessions=(task,), weeks=weeks, easier=(easier,) if random.random() < 0.5 else ())


def _with_rule(random: Random, here: Block, one: Entry) -> Entry:
    """The entry with a rule of axes that suit its dose, or with none."""
    target = one.dose.sets[0].target
    axes: list[Axis] = []
    match target:
        case Reps(high=high):
            axes.append(Axis("reps", random.randint(1, 2), high + random.randint(0, 8), span=NOWHERE))
        case Amrap():
            axes.append(Axis("total reps", random.randint(1, 3), None, span=NOWHERE))
        case Timed():
            axes.append(Axis("time", read_quantity(random.choice(("5 s", "10%"))), read_quantity("75 s"), span=NOWHERE))
        case Distance():
            axes.append(
                Axis("distance", read_quantity(random.choice(("5 m", "5%"))), read_quantity("45 m"), span=NOWHERE)
            )
    if here.rounds is None and random.random() < 0.6:
        axes.append(Axis("sets", 1, len(one.dose.sets) + random.randint(1, 3), span=NOWHERE))
    if here.rounds is None and random.random() < 0.3:
        axes.append(Axis("rest", read_quantity("5 s"), read_quantity("10 s"), span=NOWHERE))
    if one.dose.tempo.lower is not None and random.random() < 0.5:
        axes.append(Axis("lower", read_quantity("1 s"), read_quantity("6 s"), span=NOWHERE))
    random.shuffle(axes)
    if len(axes) > 1 and random.random() < 0.4:
        axes[1] = attrs.evolve(axes[1], restarting=(axes[0].name,))
    ease = (axes[0].name, read_quantity("20%")) if axes[0].name in ("time", "distance") else None
    rule = Rule(tuple(axes), random.randint(1, 3), 2 if ease else None, ease, span=NOWHERE)
    return attrs.evolve(one, rule=rule if random.random() < 0.9 else None)
