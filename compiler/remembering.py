"""Results that are kept for the objects that they were made from.

The values of the model are frozen, and to hash a large one takes longer than most of what is worked out from it: so what is
known is found by which objects they are, not by what is in them.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, TypeVar

P = ParamSpec("P")
R = TypeVar("R")


def remembered(size: int, *, values: int = 0) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """A function of frozen objects that keeps its last results, each with its objects, so that no other takes their place.

    Its last parameters, as many as `values`, are small: of these those that are equal are the same.
    """

    def remembering(function: Callable[P, R]) -> Callable[P, R]:
        known: dict[tuple[object, ...], tuple[object, R]] = {}

        @wraps(function)
        def result(*objects: P.args, **_: P.kwargs) -> R:
            key = (*map(id, objects[:-values]), *objects[-values:]) if values else tuple(map(id, objects))
            found = known.get(key)
            if found is None:
                while len(known) >= size:
                    known.pop(next(iter(known)), None)
                found = known[key] = (objects, function(*objects))  # type: ignore[call-arg]
            return found[1]

        return result

    return remembering
