"""Make build/typing/setwright, the package as it is when installed, for tools that do not follow import hooks.

mypy and lint-imports look for a folder named `setwright`; here it is one of symbolic links, so that a new file shows
at once. Run it once in a checkout: `python tests/typing_view.py`.
"""

import os
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
VIEW = ROOT / "build" / "typing" / "setwright"
LINKS = {folder: folder for folder in ("grammar", "compiler", "targets", "programs")}
LINKS |= {file: f"compiler/_package/{file}" for file in ("__init__.py", "py.typed")}


def make_view() -> Path:
    """Make the links that are missing and return the folder that holds `setwright`."""
    VIEW.mkdir(parents=True, exist_ok=True)
    for name, target in LINKS.items():
        if not (VIEW / name).is_symlink():
            (VIEW / name).symlink_to(os.path.relpath(ROOT / target, VIEW))
    return VIEW.parent


if __name__ == "__main__":
    print(make_view())
