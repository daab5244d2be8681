"""Short versions against an independent integer program, on 500 programs made at random.

`python -m tests.optimum 10000` does the same for as many as one likes, and says how long both took.
"""

import pytest
from setwright.compiler.trim import Infeasible, trim

from .. import optimum

PROGRAMS = 500
CHUNKS = 20


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_the_integer_program_has_the_same_optimum(chunk):
    for seed in range(chunk, PROGRAMS, CHUNKS):
        assert optimum.compared(seed).difference == "", seed


def test_a_version_that_is_not_the_best_is_noticed(monkeypatch):
    def a_little_less(made, task, limit, by):
        """The best version of a limit that is a tenth shorter."""
        found = trim(made, task, limit * 9 / 10, by)
        return trim(made, task, limit, by) if isinstance(found, Infeasible) else found

    right = {seed: optimum.compared(seed) for seed in range(20)}
    monkeypatch.setattr(optimum, "trim", a_little_less)
    noticed = [seed for seed in right if optimum.compared(seed).difference.startswith("level")]
    assert len(noticed) > 10
