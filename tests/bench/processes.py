"""Whole processes, as a coach starts them: from an installed package, with compiled modules."""

import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path

# Without what would keep modules uncompiled or let another package in.
CLEAN = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL_ENV"))}

PEAK = """\
import sys
from setwright.targets.command_line import main
code = main(["check", sys.argv[1]])
try:
    with open("/proc/self/status") as status:
        peak = next(int(line.split()[1]) for line in status if line.startswith("VmHWM"))
except OSError:
    import resource
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print("peak", peak, code)
"""


def installed(root: Path, folder: Path) -> tuple[Path, str]:
    """A Python with the package installed as users install it, or the one at hand; and which of the two."""
    copy, place = folder / "copy", folder / "venv"
    ignored = shutil.ignore_patterns(".*", "build", "tests", "*.egg-info", "__pycache__")
    shutil.copytree(root, copy, ignore=ignored)
    venv.create(place, with_pip=True)
    python = place / "bin" / "python"
    command = [str(python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", str(copy)]
    if subprocess.run(command, env=CLEAN, capture_output=True, check=False).returncode == 0:
        return python, "installed from a wheel"
    return Path(sys.executable), "editable: a wheel could not be installed"


def peak_megabytes(python: Path, source: Path) -> float:
    """The most memory that a process which checks the source has in use at once, in 10^6 bytes."""
    done = subprocess.run(
        [str(python), "-c", PEAK, str(source)], env=CLEAN, check=True, capture_output=True, encoding="utf-8"
    )
    word, peak, code = done.stdout.splitlines()[-1].split()
    assert word == "peak" and code == "0", done.stdout
    return int(peak) * 1024 / 1e6
