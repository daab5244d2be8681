"""The command line: the one place that reads options, prints and exits.

Nothing is imported here that a command may not need: `--help` and `--version` answer before the parser of the language
or a template is loaded.
"""

from __future__ import annotations

import gc
import importlib
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import NoReturn

DEBUG = "SETWRIGHT_DEBUG"


def console() -> NoReturn:
    """The program as a process of its own: `main`, with Python's search for unreachable rings kept rare.

    A command lives for a moment and makes many small objects, hardly any of them in rings: searching them again and again
    would take a tenth of the time of a check. At the end none of them is given back one by one: the system takes all at once.
    """
    gc.set_threshold(100_000, 20, 20)
    code = main()
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError, AttributeError):  # there may be none, or nobody who reads it
            stream.flush()
    os._exit(code)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit code; every failure is one plain sentence on the error output."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")  # a name that the terminal cannot show is no reason to stop
    try:
        code = _run(arguments)
        if sys.stdout is not None:
            sys.stdout.flush()
    except BrokenPipeError:
        _give_up_output()  # whoever read the output has seen enough: `setwright check . | head`
        return 141
    except KeyboardInterrupt:
        return _end("stopped.", 130)
    except OSError as error:
        _give_up_output()
        return _end(_os_sentence(error), 2)
    except MemoryError:
        return _end("there is not enough memory for this.", 2)
    except Exception as error:
        if os.environ.get(DEBUG):
            raise
        return _end(_fault_sentence(error), 3)
    return code


def _run(arguments: Sequence[str] | None) -> int:
    from .arguments import read
    from .terminal import Refusal

    try:
        options = read(arguments)
        code: int = importlib.import_module(f".{options.command}", __name__).run(options)
    except Refusal as refusal:
        return _end(str(refusal), refusal.code)
    except SystemExit as end:  # how argparse answers --help, --version and mistakes
        return end.code if isinstance(end.code, int) else 0
    return code


def _end(sentence: str, code: int) -> int:
    print(f"setwright: {sentence}", file=sys.stderr)
    return code


def _os_sentence(error: OSError) -> str:
    """What the system refused, with the place where it did."""
    reason = (error.strerror or str(error) or type(error).__name__).lower()
    return f"{error.filename}: {reason}." if error.filename else f"the output could not be written: {reason}."


def _fault_sentence(error: Exception) -> str:
    return (
        f"this is a fault of Setwright, not of your program ({type(error).__name__}). Please report it, with your "
        f"source and with what is printed when you set {DEBUG}=1 and run the command again."
    )


def _give_up_output() -> None:
    """Lead what is still to be printed nowhere, so that Python does not fail on it once more while it ends."""
    if sys.stdout is None:
        return
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
    except OSError:  # an output without a file behind it, as in tests
        return
