"""The words that stand for one of a few things."""

from __future__ import annotations

# The patterns of the shipped movements; a coach's own movements may have others.
PATTERNS = ("squat", "lunge", "hinge", "push", "pull", "carry", "trunk", "balance", "mobility", "locomotion")

# Implements that can be lifted, as they stand in `loaded by` and `has`.
IMPLEMENTS = ("dumbbell", "kettlebell", "handle", "barbell", "container", "band")

# Things that a movement can need; whatever an athlete has is known too.
THINGS = frozenset(
    "floor wall chair bench step stairs table door bar rack mat towel band strap rope stick rail partner outside "
    "corridor bag cushion box".split()
)

# What a container can be filled with.
FILLINGS = ("water", "sand", "gravel", "soil", "loam", "beans", "rice", "salt")

LOGGED = ("load", "reps", "distance", "time", "tempo", "effort")
PRINTS = ("large",)

# Accents by name: dark enough that a copier keeps them.
ACCENTS = {
    "black": "#000000", "blue": "#143d52", "green": "#1f5130", "red": "#7d1f1a", "violet": "#4a2a63", "brown": "#5f3a1c",
}  # fmt: skip
