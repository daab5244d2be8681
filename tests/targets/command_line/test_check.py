"""`setwright check`: findings, summary and exit code."""

import json
from collections.abc import Callable
from pathlib import Path

from setwright.targets.command_line import terminal

ROOT = Path(__file__).resolve().parents[3]


def broken(path: Path, name: str = "broken.coach") -> Path:
    other = path.parent / name
    other.write_text(path.read_text("utf-8").replace("3 x 8\n", "3 x eight\n", 1), "utf-8")
    return other


def test_nothing_to_report(run: Callable, hall: Path):
    ran = run("check", "hall.coach")
    assert (ran.code, ran.out, ran.err) == (0, "1 file: nothing to report.\n", "")


def test_a_finding_has_its_place_and_the_code_says_errors(run: Callable, hall: Path):
    broken(hall)
    ran = run("check", "broken.coach")
    assert ran.code == 1
    assert "broken.coach:12:28" in ran.out
    assert "error[" in ran.out
    assert ran.out.splitlines()[-1] == "1 file: 1 error."


def test_several_sources_in_one_run(run: Callable, hall: Path):
    broken(hall)
    ran = run("check", "hall.coach", "broken.coach")
    assert ran.code == 1
    assert ran.out.splitlines()[-1] == "2 files: 1 error."


def test_a_file_that_two_sources_use_is_told_once(run: Callable, hall: Path):
    broken(hall)
    for name in ("one", "two"):
        hall.with_name(f"{name}.coach").write_text('use "broken.coach"\n')
    ran = run("check", "one.coach", "two.coach")
    assert ran.out.count("broken.coach:12:28") == 1


def test_a_folder_holds_all_its_files(run: Callable, hall: Path):
    (hall.parent / "sub").mkdir()
    broken(hall, "sub/deep.coach")
    ran = run("check", ".")
    assert ran.code == 1
    assert "sub/deep.coach:12:28" in ran.out


def test_json_is_one_document(run: Callable, hall: Path):
    broken(hall)
    ran = run("check", "broken.coach", "hall.coach", "--format", "json")
    assert ran.code == 1
    assert json.loads(ran.out)
    assert ran.err == "2 files: 1 error.\n"


def test_json_without_findings(run: Callable, hall: Path):
    ran = run("check", "hall.coach", "--format", "json")
    assert ran.code == 0
    json.loads(ran.out)


def test_json_is_utf8_on_every_terminal(process: Callable, hall: Path):
    broken(hall, "größer.coach")
    ran = process("check", "größer.coach", "--format", "json", PYTHONIOENCODING="ascii")
    assert json.loads(ran.out)["findings"][0]["file"] == "größer.coach"


def test_colour_only_where_it_is_wanted(run: Callable, hall: Path):
    broken(hall)
    assert "\x1b[" not in run("check", "broken.coach").out
    assert "\x1b[" not in run("check", "broken.coach", "--color", "never").out
    assert "\x1b[" in run("check", "broken.coach", "--color", "always").out
    assert "\x1b[" not in run("check", "broken.coach", "--color", "always", "--format", "json").out


def test_colour_on_a_terminal_unless_it_is_refused(monkeypatch):
    class Terminal:
        def isatty(self) -> bool:
            return True

    monkeypatch.setenv("TERM", "xterm")
    assert terminal.colour("auto", Terminal())
    assert not terminal.colour("never", Terminal())
    assert not terminal.colour("auto", None)
    monkeypatch.setenv("TERM", "dumb")
    assert not terminal.colour("auto", Terminal())
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv("NO_COLOR", "1")
    assert not terminal.colour("auto", Terminal())
    assert terminal.colour("always", None)


def test_a_source_that_is_not_there(run: Callable, hall: Path):
    ran = run("check", "hal.coach")
    assert (ran.code, ran.out) == (2, "")
    assert "Did you mean `hall.coach`?" in ran.err


def test_a_project_that_is_not_there(run: Callable, hall: Path):
    ran = run("check", "hall.coach", "--project", "nowhere")
    assert ran.code == 2
    assert "--project" in ran.err


def test_the_worked_examples(run: Callable):
    ran = run("check", str(ROOT / "programs" / "tern-holm"))
    assert ran.code == 0, ran.out


def test_check_loads_no_templates(process: Callable, hall: Path):
    script = (
        "import sys; from setwright.targets.command_line import main; main(); "
        "print([name for name in ('jinja2', 'markdown_it', 'shtab', 'json.decoder') if name in sys.modules])"
    )
    assert "jinja2" not in process("check", "hall.coach", code=script).out
    assert "markdown_it" not in process("check", "hall.coach", code=script).out
