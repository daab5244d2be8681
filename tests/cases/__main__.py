"""Writes what comes out of every case over what is expected of it."""

from .test_cases import CASES, printed, told

for case in CASES:
    (case / "told.txt").write_text(told(case), "utf-8")
    for name, text in printed(case).items():
        assert isinstance(text, str)
        (case / "printed" / name).write_text(text, "utf-8")
