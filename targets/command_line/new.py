"""`setwright new`: a first program, to be changed by the coach."""

from __future__ import annotations

import argparse
import re
from importlib import resources
from pathlib import Path

from ..writing import write_new
from .terminal import Refusal

NAME = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


def run(options: argparse.Namespace) -> int:
    """Write the starter under the new name; nothing that exists is touched."""
    name = options.name.removesuffix(".coach")
    if not NAME.fullmatch(name):
        raise Refusal(f"`{name}` is not a name: lower-case words and figures, joined by hyphens.{_as_name(name)}")
    path = Path(options.to) / f"{name}.coach"
    starter = (resources.files("setwright.programs") / "starter.coach").read_text("utf-8")
    try:
        write_new(path, starter.replace("program starter", f"program {name}").replace("starter.coach", path.name))
    except FileExistsError:
        raise Refusal(f"{path} exists already, and stays as it is. Choose another name.") from None
    print(f"{path} is a program that builds as it stands. Change it line by line, and ask now and then:")
    print(f"  setwright check {path}")
    print(f"  setwright build {path}")
    return 0


def _as_name(text: str) -> str:
    """The nearest spelling that is a name, as a question."""
    words = "-".join(re.findall(r"[a-z0-9]+", Path(text).name.lower())).lstrip("0123456789-")
    where = f" The folder goes into --to {Path(text).parent}." if "/" in text else ""
    return where + (f" Did you mean `{words}`?" if words else "")
