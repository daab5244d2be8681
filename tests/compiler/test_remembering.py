"""Results are kept for the objects that they were made from, not for others that are equal to them."""

import gc

from setwright.compiler.remembering import remembered


def test_the_same_objects_are_asked_once():
    asked = []

    @remembered(4)
    def joined(one: list[int], other: list[int]) -> list[int]:
        asked.append((one, other))
        return one + other

    left, right = [1], [2]
    assert joined(left, right) == [1, 2]
    assert joined(left, right) is joined(left, right)
    assert joined(right, left) == [2, 1]
    assert joined([1], right) == [1, 2]  # an equal one is another
    assert len(asked) == 3


def test_an_object_in_the_place_of_one_that_is_gone_is_not_taken_for_it():
    @remembered(2)
    def first(numbers: list[int]) -> int:
        return numbers[0]

    for number in range(1000):
        assert first([number]) == number


def test_no_more_is_kept_than_was_said():
    class Thing:
        alive = 0

        def __init__(self) -> None:
            Thing.alive += 1

        def __del__(self) -> None:
            Thing.alive -= 1

    @remembered(3)
    def known(thing: Thing) -> str:
        return "known"

    for _ in range(10):
        known(Thing())
    gc.collect()
    assert Thing.alive == 3
