"""Results that are kept for the objects that they were made from.

The values of the model are frozen, and to hash a large one takes longer than most of what is worked out from it: so what is
known is found by which objects they are, not by what is in them.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import wraps
from typing import Generic, ParamSpec, TypeVar

P = ParamSpec("P")
R = TypeVar("R")


class Last(Generic[R]):
    """The results that were asked for last, by keys: as many as `size`, each worked out once for as long as it is kept."""

    def __init__(self, size: int) -> None:
        self.size, self.known = size, dict[Hashable, R]()

    def of(self, key: Hashable, make: Callable[[], R]) -> R:
        """The result of a key, which `make` works out where it is not known. None is never kept."""
        found = self.known.pop(key, None)
        if found is None:
            found = make()
            while len(self.known) >= self.size:
                self.known.pop(next(iter(self.known)), None)
        self.known[key] = found  # at the end
        return found


def remembered(size: int, *, values: int = 0) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """A function of frozen objects that keeps its last results, each with its objects, so that no other takes their place.

    Its last parameters, as many as `values`, are small: of these those that are equal are the same.
    """

    def remembering(function: Callable[P, R]) -> Callable[P, R]:
        known: Last[tuple[object, R]] = Last(size)

        @wraps(function)
        def result(*objects: P.args, **_: P.kwargs) -> R:
            key = (*map(id, objects[:-values]), *objects[-values:]) if values else tuple(map(id, objects))
            return known.of(key, lambda: (objects, function(*objects)))[1]  # type: ignore[call-arg]

        return result

    return remembering
