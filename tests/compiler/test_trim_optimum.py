"""Short versions against an independent integer program, on 500 programs made at random.

`python -m tests.optimum 10000` does the same for as many as one likes, and says how long both took.
"""

import pytest

from ..optimum import compared

PROGRAMS = 500
CHUNKS = 20


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_the_integer_program_has_the_same_optimum(chunk):
    for seed in range(chunk, PROGRAMS, CHUNKS):
        assert compared(seed).difference == ""
