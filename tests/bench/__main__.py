"""What compiling costs, as ratios from one run, and loads in milliseconds: `python -m tests.bench`.

The two sides of a ratio take turns, and the figure is the median of the ratios of their turns, so that a machine that is
busy or slow for a while tells the same. Exit code 1 where a bar is missed.
"""

import platform
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

import attrs
import yaml
from lark import Lark
from lark.indenter import Indenter
from ruamel.yaml import YAML
from setwright.compiler.pipeline import compile_texts

from tests.bench.coach import as_source
from tests.bench.crews import lines as crews
from tests.bench.loads import lines as loads_of_plates
from tests.bench.logs import lines as reading_logs
from tests.bench.models import Everything
from tests.bench.papers import lines as papers
from tests.bench.processes import CLEAN, installed, peak_megabytes
from tests.bench.review import lines as reviewing
from tests.bench.source import make_content
from tests.bench.trimming import lines as trimming
from tests.bench.web_log import lines as on_phones
from tests.bench.weeks import lines as looking_ahead

ROOT = Path(__file__).resolve().parents[2]
LINES = 10_000


@attrs.frozen
class Figure:
    """One line of the table: what was measured, the figure, its bar if it has one, and the times behind it."""

    what: str
    figure: float
    bar: float | None
    behind: str

    def __str__(self) -> str:
        verdict = "" if self.bar is None else "pass" if self.figure <= self.bar else "MISS"
        return (
            f"{self.what:<72} {self.figure:>8.4g} {'' if self.bar is None else self.bar:>6} {verdict:<5} {self.behind}"
        )


class PlainIndenter(Indenter):
    """Lark's own indentation, as its documentation shows it."""

    NL_type = "_NL"
    OPEN_PAREN_types: list[str] = []  # noqa: RUF012 (the base class asks for lists)
    CLOSE_PAREN_types: list[str] = []  # noqa: RUF012
    INDENT_type = "_INDENT"
    DEDENT_type = "_DEDENT"
    tab_len = 8


def main() -> int:
    say(f"Python {platform.python_version()}, {platform.machine()}; medians of ratios, both sides in turns")
    content, large = make_content(LINES), as_source(make_content(10 * LINES))
    text = as_source(content)
    result = compile_texts({"bench.coach": text})
    assert not result.has_errors, result.diagnostics[:3]
    say(f"source: {text.count(chr(10)):,} and {large.count(chr(10)):,} lines; findings: {len(result.diagnostics)}\n")
    say(f"{'':<72} {'figure':>8} {'bar':>6}")
    figures = [against_lark(text), *against_yaml(text, content), growth(text, large), *whole_processes(text)]
    figures += [
        told(Figure(*line))
        for lines in (
            loads_of_plates(),
            trimming(),
            looking_ahead(),
            crews(),
            papers(),
            reviewing(),
            reading_logs(),
            on_phones(),
        )
        for line in lines
    ]
    return 1 if any(figure.bar is not None and figure.figure > figure.bar for figure in figures) else 0


def say(line: object) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def told(figure: Figure) -> Figure:
    say(figure)
    return figure


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def turns(times: int, ours: Callable[[], object], theirs: Callable[[], object]) -> tuple[float, str]:
    """The median of the ratios of both sides' turns, and the median times."""
    pairs = []
    for turn in range(times):
        first, second = (ours, theirs) if turn % 2 == 0 else (theirs, ours)
        one, other = seconds(first), seconds(second)
        pairs.append((one, other) if first is ours else (other, one))
    a, b = (median(side) for side in zip(*pairs, strict=True))
    return median(one / other for one, other in pairs), f"{a * 1000:,.0f} ms / {b * 1000:,.0f} ms, {times} turns"


def compiled(text: str) -> Callable[[], object]:
    return lambda: compile_texts({"bench.coach": text})


def against_lark(text: str) -> Figure:
    bare = Lark.open(
        str(ROOT / "grammar" / "coach.lark"),
        start="file",
        parser="lalr",
        lexer="contextual",
        postlex=PlainIndenter(),
        propagate_positions=False,
    )
    bare.parse(text)
    ratio, behind = turns(9, compiled(text), lambda: bare.parse(text))
    return told(Figure("parse, resolve and check 10,000 lines / Lark's bare parse of them", ratio, 2.5, behind))


def against_yaml(text: str, content: dict[str, list[dict[str, object]]]) -> list[Figure]:
    written = yaml.safe_dump(content, sort_keys=False)

    def careful() -> object:
        return Everything.model_validate(YAML(typ="rt").load(written))

    def quick() -> object:
        return Everything.model_validate(yaml.load(written, yaml.CSafeLoader))

    assert len(quick().programs) == len(content["programs"])
    ratio, behind = turns(3, compiled(text), careful)
    lines = f"{written.count(chr(10)):,}"
    figures = [
        told(Figure(f"the same / the same content as {lines} lines of YAML: ruamel, pydantic", ratio, 0.5, behind))
    ]
    ratio, behind = turns(5, compiled(text), quick)
    return [
        *figures,
        told(Figure("the same / PyYAML's C loader (no places in the text), pydantic", ratio, None, behind)),
    ]


def growth(text: str, large: str) -> Figure:
    ratio, behind = turns(3, compiled(large), compiled(text))
    return told(Figure("100,000 lines / 10,000 lines", ratio, 11, behind))


def whole_processes(text: str) -> list[Figure]:
    folder = Path(tempfile.mkdtemp())
    try:
        python, how = installed(ROOT, folder)
        (folder / "bench.coach").write_text(text, "utf-8")

        def process(*command: str) -> Callable[[], object]:
            return lambda: subprocess.run(command, env=CLEAN, check=True, stdout=subprocess.DEVNULL)

        station, command = ROOT / "programs" / "tern-holm", str(python.with_name("setwright"))
        program = process(command, "check", str(station / "winter-store-room.coach"))
        everything = process(command, "check", str(station))
        theirs = process(str(python), "-c", "import lark")
        for warm in (program, everything, theirs):
            warm()
        ratio, behind = turns(21, program, theirs)
        ratio_of_all, behind_all = turns(11, everything, theirs)
        peaks = [peak_megabytes(python, folder / "bench.coach") for _ in range(3)]
    finally:
        shutil.rmtree(folder)
    return [
        told(Figure("setwright check, the station's program / python -c 'import lark'", ratio, 3, f"{behind}; {how}")),
        told(Figure("the same, the station's folder with crew and logs", ratio_of_all, None, f"{behind_all}; {how}")),
        told(Figure("peak memory of a process that checks 10,000 lines, MB", median(peaks), 150, f"{how}, 3 runs")),
    ]


if __name__ == "__main__":
    sys.exit(main())  # noqa: TID251 (a command of its own)
