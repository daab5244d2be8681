"""What there is to lift: figures that cannot be meant, plates that cannot balance, containers that cannot be filled."""

# ruff: noqa: D103 - the Check above each function says what it finds.

from __future__ import annotations

from collections.abc import Iterator

from ...grammar.diagnostic import Check, Diagnostic
from ...grammar.source import Span
from ..implements import MOST_LITRES, MOST_LOADS, MOST_PLATES, left_out
from ..model import Athlete, Implement
from ..quantity import Quantity
from .examples import in_athlete
from .places import header, on_line

MOST_MASS = 500  # kg that one thing may weigh

IMPLEMENT_UNFIT = Check(
    code="implement-unfit",
    severity="error",
    title="An implement that is told in figures of another",
    message="{what}.",
    help="Write {instead}.",
    explain="A dumbbell, kettlebell or barbell is told by its weight, a handle or bar by its weight and its plates, a container "
    "by the litres it holds, and bands by their names: how hard one pulls changes with its length, so that no weight is true.",
    wrong=in_athlete("has dumbbell 5 l, fill water"),
    right=in_athlete("has container 5 l weighing 0.3 kg, fill water"),
)


def find_implement_unfit(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        kind = implement.kind
        weighed = f"`has {kind} 6 kg`, with the weight of yours"
        named = '`has band "light", "heavy"`, with what you call yours, the weakest first'
        if kind == "band" and not implement.steps:
            unfit = "A band has no weight, and holds no plates and no litres: it is told by its name", named
        elif kind != "band" and implement.steps:
            litres = "`has container 5 l`, with the litres that yours holds"
            unfit = f"A {kind} is not told by a name alone", litres if kind == "container" else weighed
        elif kind != "container" and implement.volume is not None:
            unfit = f"Litres are told of a container, and not of a {kind}", weighed
        elif kind in ("kettlebell", "container") and implement.plates:
            unfit = f"No plates go on a {kind}", "`handle` or `barbell`, whichever takes the plates"
        else:
            continue
        yield IMPLEMENT_UNFIT.at(header(implement.span), what=unfit[0], instead=unfit[1])


PLATES_ODD = Check(
    code="plates-odd",
    severity="error",
    title="Plates that cannot be put on evenly",
    message="{count} plates of {mass} do not go evenly on {ends}.",
    help="Count the plates of {all_ends} together, such as `{even} x {mass}`, and leave out those that are over.",
    explain="A bar or handle is loaded alike at both ends, so its plates of each kind make pairs. For a pair of handles they "
    "make groups of four.",
    wrong=in_athlete("has handle 2 kg with plates 3 x 1.25 kg"),
    right=in_athlete("has handle 2 kg with plates 2 x 1.25 kg"),
)


def find_plates_odd(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        group = 4 if implement.pair else 2
        ends = f"the four ends of two {implement.kind}s" if implement.pair else f"the two ends of a {implement.kind}"
        all_ends = "all four ends" if implement.pair else "both ends"
        for count, mass in implement.plates:
            if count % group or not count:
                even = max(count // group, 1) * group
                where = on_line(implement.span, rf"\b0*{count} *[x×] *{_written(mass)}")
                yield PLATES_ODD.at(where, count=count, mass=mass, ends=ends, all_ends=all_ends, even=even)


PLATES_MANY = Check(
    code="plates-many",
    severity="error",
    title="More plates of one kind than anyone has",
    message="{count} plates of {mass} cannot be meant: at most {most} of one kind are counted.",
    help="Write how many of them can be put on at once, such as `4 x {mass}`.",
    explain="Every load that can be made of the plates is worked out.",
    wrong=in_athlete("has barbell 20 kg with plates 400 x 5 kg"),
    right=in_athlete("has barbell 20 kg with plates 4 x 5 kg"),
)


def find_plates_many(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        for count, mass in implement.plates:
            if count > MOST_PLATES:
                where = on_line(implement.span, rf"\b0*{count} *[x×] *{_written(mass)}")
                yield PLATES_MANY.at(where, count=count, mass=mass, most=MOST_PLATES)


PLATES_TOO_FINE = Check(
    code="plates-too-fine",
    severity="warning",
    title="Plates that make more loads than can be told apart",
    message="These plates make more than {most} loads, so those of {plates} are not counted.",
    help="Leave out the kinds of plates that are not used.",
    explain="Every load that can be made of a bar and its plates is worked out, each once. Where many kinds of plates in "
    "kilograms and pounds are mixed, the loads differ by grams, and nobody could tell one from the next. Then the lightest "
    "plates are left out.",
    wrong=in_athlete(
        "has barbell 20 kg with plates 12 x 20 kg, 12 x 15.1 kg, 12 x 10.2 kg, 12 x 5.3 kg, 12 x 45 lb, 12 x 25.1 lb, 12 x 5.2 lb"
    ),
    right=in_athlete(
        "has barbell 20 kg with plates 12 x 20 kg, 12 x 10 kg, 12 x 5 kg, 12 x 2.5 kg, 12 x 45 lb, 12 x 25 lb"
    ),
)


def find_plates_too_fine(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        plates = left_out(implement)
        if plates:
            told = ", ".join(map(str, plates))
            yield PLATES_TOO_FINE.at(header(implement.span), most=f"{MOST_LOADS:,}", plates=told)


MASS_OUT_OF_RANGE = Check(
    code="implement-mass-out-of-range",
    severity="error",
    title="An implement that weighs nothing, or more than anyone lifts",
    message="{what} of {mass} cannot be meant: it is more than 0 kg and at most {most} kg.",
    help="Write what one of them weighs, such as `has {kind} {example}`.",
    explain="What an athlete can lift follows from the weights of the implements; for a pair, write the weight of one.",
    wrong=in_athlete("has dumbbell pair 4 kg, 6000 kg"),
    right=in_athlete("has dumbbell pair 4 kg, 6 kg"),
)


def find_mass_out_of_range(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        example = "5 l weighing 0.3 kg, limit 8 kg" if implement.volume is not None else "8 kg"
        for what, mass in _weighed(implement):
            if not 0 < mass.base <= MOST_MASS:
                where = on_line(implement.span, rf"\b{_written(mass)}")
                yield MASS_OUT_OF_RANGE.at(
                    where, what=what, kind=implement.kind, mass=mass, most=MOST_MASS, example=example
                )


def _weighed(implement: Implement) -> Iterator[tuple[str, Quantity]]:
    yield from ((f"A {implement.kind}", mass) for mass in implement.masses)
    yield from (("A plate", mass) for _, mass in implement.plates)
    if implement.weighing is not None:
        yield "A container with a weight of its own", implement.weighing
    if implement.limit is not None:
        yield "A limit", implement.limit


VOLUME_OUT_OF_RANGE = Check(
    code="container-out-of-range",
    severity="error",
    title="A container that holds nothing, or more than anyone lifts",
    message="A container of {volume} cannot be meant: it holds more than 0 l and at most {most} l.",
    help="Write what it holds when full, such as `has container 5 l`.",
    explain="The load of a container is worked out from its volume and what it is filled with.",
    wrong=in_athlete('has container 5000 l "water jug" weighing 0.3 kg, fill water'),
    right=in_athlete('has container 5000 ml "water jug" weighing 0.3 kg, fill water'),
)


def find_volume_out_of_range(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        if implement.volume is not None and not 0 < implement.volume.base <= MOST_LITRES:
            where = on_line(implement.span, r"[\d.]+ *m?l\b")
            yield VOLUME_OUT_OF_RANGE.at(where, volume=implement.volume, most=MOST_LITRES)


CONTAINER_EMPTY = Check(
    code="container-without-fill",
    severity="advice",
    title="A container without anything to fill it with",
    message="Nothing says what the container of {volume} can be filled with, so no load is made of it.",
    help="Add what is at hand, such as `fill water, sand`.",
    explain="The load of a container is worked out from its volume and what it is filled with.",
    wrong=in_athlete('has container 5 l "water jug" weighing 0.3 kg'),
    right=in_athlete('has container 5 l "water jug" weighing 0.3 kg, fill water'),
)


def find_container_empty(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        if implement.volume is not None and not implement.fill:
            yield CONTAINER_EMPTY.at(header(implement.span), volume=implement.volume)


CONTAINER_WEIGHTLESS = Check(
    code="container-without-weighing",
    severity="advice",
    title="A container of which nobody says what it weighs empty",
    message="Nothing says what the container of {volume} weighs empty, so it counts as weighing nothing.",
    help="Weigh it empty, and add it: `weighing 0.5 kg`.",
    explain="The load of a container is what it weighs empty and what is filled in. Without the first all loads are told too "
    "light.",
    wrong=in_athlete('has container 5 l "water jug", fill water'),
    right=in_athlete('has container 5 l "water jug" weighing 0.3 kg, fill water'),
)


def find_container_weightless(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        if implement.kind == "container" and implement.volume is not None and implement.fill and not implement.weighing:
            yield CONTAINER_WEIGHTLESS.at(header(implement.span), volume=implement.volume)


CONTAINER_OVER_LIMIT = Check(
    code="container-over-limit",
    severity="error",
    title="A container that weighs its limit when it is empty",
    message="The container weighs {weighing} empty and may not weigh more than {limit}, so nothing can be filled in.",
    help="Write what it weighs empty after `weighing`, and what it may weigh filled after `limit`.",
    explain="`limit` is the most that a container may weigh with what is in it: what its handle, its floor and its lid bear.",
    wrong=in_athlete("has container 10 l weighing 12 kg, limit 12 kg, fill sand"),
    right=in_athlete("has container 10 l weighing 0.6 kg, limit 12 kg, fill sand"),
)


def find_container_over_limit(athlete: Athlete) -> Iterator[Diagnostic]:
    for implement in athlete.implements:
        weighing, limit = implement.weighing, implement.limit
        if weighing is not None and limit is not None and weighing.base >= limit.base:
            where = on_line(implement.span, rf"\blimit +{_written(limit)}")
            yield CONTAINER_OVER_LIMIT.at(where, weighing=weighing, limit=limit)


IMPLEMENT_TWICE = Check(
    code="implement-twice",
    severity="warning",
    title="The same thing to lift, said twice",
    message="{athlete} has the same {what} twice, and it counts once.",
    help="{mend}.",
    explain="What can be lifted with one of them can be lifted with either. Two that are lifted together are a pair.",
    wrong=in_athlete("has dumbbell 8 kg\nhas dumbbell 8 kg, 12 kg"),
    right=in_athlete("has dumbbell pair 8 kg\nhas dumbbell 12 kg"),
)


def find_implement_twice(athlete: Athlete) -> Iterator[Diagnostic]:
    seen: set[object] = set()
    for implement in athlete.implements:
        for one, what, where in _things(implement):
            if one in seen:
                single = not implement.pair and implement.kind != "band"
                pair = f"Write `{implement.kind} pair` if there are two to be lifted together, or take one out"
                mend = pair if single else "Take one of them out"
                yield IMPLEMENT_TWICE.at(where, athlete=athlete.title, what=what, mend=mend)
            seen.add(one)


def _things(implement: Implement) -> Iterator[tuple[object, str, Span]]:
    """Each thing to lift of a line: what makes it the same as another, what it is called, and where it stands."""
    kind, pair = implement.kind, "pair of " * implement.pair
    if implement.volume is not None or implement.plates:
        yield implement, f"{pair}{kind}s" if pair else kind, header(implement.span)
        return
    for nth, mass in enumerate(implement.masses):
        again = sum(mass == other for other in implement.masses[: nth + 1])
        where = on_line(implement.span, rf"\b{_written(mass)}(?:.*\b{_written(mass)}){{{again - 1}}}")
        yield (kind, implement.pair, mass.base), f"{pair}{kind}{'s' * bool(pair)} of {mass}", where
    for step in implement.steps:
        yield (kind, step), f'{kind} "{step}"', header(implement.span)


def _written(mass: Quantity) -> str:
    """What matches a weight on its line."""
    figure = str(mass).split(" ")[0]
    zeros = "0*" if "." in figure else r"(?:\.0+)?"
    return figure.replace(".", r"\.") + rf"{zeros} *{mass.unit}\b"
