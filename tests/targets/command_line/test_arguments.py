"""What can be typed, and the answer to what cannot."""

import re
from collections.abc import Callable
from itertools import takewhile

import pytest
from setwright import __version__
from setwright.targets.command_line.arguments import make_parser

COMMANDS = tuple(make_parser()[1])


def test_version(run: Callable):
    ran = run("--version")
    assert (ran.code, ran.out, ran.err) == (0, f"setwright {__version__}\n", "")


def test_help_tells_all_commands_and_exit_codes(run: Callable):
    ran = run("--help")
    assert ran.code == 0
    for word in (*COMMANDS, "exit codes:", "examples:", "130"):
        assert word in ran.out


@pytest.mark.parametrize("command", COMMANDS)
def test_every_example_of_the_help_is_a_command_that_can_be_typed(run: Callable, command: str):
    ran = run(command, "--help")
    assert ran.code == 0
    examples = [line.strip() for line in ran.out.partition("examples:")[2].splitlines() if "setwright" in line]
    assert len(examples) >= 2
    parser, _ = make_parser()
    for example in examples:
        words = re.findall(r'"[^"]+"|\S+', re.split(r"  +| > ", example)[0])
        assert words[:2] == ["setwright", command]
        assert parser.parse_args([word.strip('"') for word in words[1:]]).command == command


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("chekc x.coach", "Did you mean `check`?"),
        ("Build x.coach", "Did you mean `build`?"),
        ("help", "Known: new, check, build, trim, week, horizon, explain, next, review, movements, completion."),
        ("", "which command?"),
        ("--verison", "Did you mean `--version`?"),
        ("check x.coach --fromat json", "Did you mean `--format`?"),
        ("check x.coach --fromat=json", "Did you mean `--format`?"),
        ("check x.coach --format jsno", "Did you mean `json`?"),
        ("check x.coach --colour never", "Did you mean `--color`?"),
        ("check", "SOURCE"),
        ("trim x.coach --too 30min", "Did you mean `--to`?"),
        ("trim x.coach --to 30min --by set", "Did you mean `sets`?"),
        ("trim x.coach --to 30min y.coach", "`y.coach` is one word too many."),
        ("trim x.coach --to 30 min", "Did you mean `30min`?"),
        ("--color never check x.coach", "write `--color` after the command"),
        ("--color never chekc x.coach", "there is no option `--color`"),
        ("build x.coach --revision two", "a revision is a whole number"),
        ("build x.coach --revision " + "9" * 5000, "a revision is a whole number"),
        ("horizon x.coach --weeks -3", "argument --weeks: a whole number from 1 to 104"),
        ("horizon x.coach --weeks=-3", "argument --weeks: a whole number from 1 to 104"),
        ("horizon x.coach --rise -5%", "argument --rise: a share above 0%, up to 999%, as in --rise 20%, not `-5%`"),
        ("horizon x.coach --rise 1000%", "argument --rise: a share above 0%, up to 999%"),
        ("horizon x.coach --rise 999.5%", "argument --rise: a share above 0%, up to 999%"),
        ("build x.coach --revision -1", "a revision is a whole number"),
        ("trim x.coach -5min", "there is no option `-5min`"),
        ("trim x.coach --all -5min", "there is no option `-5min`"),
        ("completion bsh", "Did you mean `bash`?"),
    ],
)
def test_a_mistake_is_answered_with_the_nearest_word(run: Callable, typed: str, answer: str):
    ran = run(*typed.split())
    assert (ran.code, ran.out) == (2, "")
    assert answer in ran.err
    assert "--help" in ran.err


def test_a_negative_time_is_refused_as_the_value_it_is(run: Callable, hall: object):
    ran = run("trim", "hall.coach", "--to", "-5min")
    assert (ran.code, ran.out) == (2, "")
    assert "--to: `-5min` is not a time" in ran.err


def test_a_file_may_begin_with_a_hyphen(run: Callable):
    ran = run("check", "--", "--odd.coach")
    assert ran.code == 2
    assert "there is no file or folder --odd.coach" in ran.err


def test_every_option_has_a_help():
    _, commands = make_parser()
    for parser in commands.values():
        assert all(action.help for action in parser._actions)


def test_the_parts_of_a_command_that_are_not_needed_are_not_imported(process: Callable):
    script = (
        "import sys; from setwright.targets.command_line import main; main(); "
        "print([name for name in ('lark', 'attrs', 'jinja2', 'markdown_it', 'shtab') if name in sys.modules])"
    )
    for words in (["--version"], ["--help"], ["check", "--help"]):
        assert process(*words, code=script).out.splitlines()[-1] == "[]"


@pytest.mark.parametrize("shell", ["bash", "zsh"])
def test_completion_knows_all_commands_and_options(run: Callable, shell: str):
    ran = run("completion", shell)
    assert ran.code == 0
    _, commands = make_parser()
    for name, parser in commands.items():
        assert name in ran.out
        for action in parser._actions:
            longest = [*takewhile(lambda option: option.startswith("--"), action.option_strings)]
            assert all(option in ran.out for option in longest)
