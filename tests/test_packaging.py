"""What is installed: one package named `setwright`, all of it, and nothing beside it."""

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
FOLDERS = ("grammar", "compiler", "targets", "programs")
PACKAGE = "compiler/_package"


def installed_name(path: str) -> str:
    """The place in the installed package of a file that stands at `path` in the project."""
    return "setwright/" + path.removeprefix(PACKAGE + "/")


def files_on_disk() -> set[str]:
    paths = (path for folder in FOLDERS for path in (ROOT / folder).rglob("*") if path.is_file())
    return {path.relative_to(ROOT).as_posix() for path in paths if "__pycache__" not in path.parts}


@pytest.fixture(scope="module")
def wheel_names(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """The names in a wheel built from a copy, so that nothing of an earlier build can be in it."""
    copy = tmp_path_factory.mktemp("project")
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, copy)
    for name in FOLDERS:
        shutil.copytree(ROOT / name, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
    build = "-m pip wheel --quiet --no-deps --no-build-isolation ."
    subprocess.run([sys.executable, *build.split()], cwd=copy, check=True)
    (wheel,) = copy.glob("*.whl")
    return set(zipfile.ZipFile(wheel).namelist())


def test_every_package_on_disk_is_listed():
    listed = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["packages"]
    inits = {path for path in files_on_disk() if path.endswith("/__init__.py")}
    packages = {installed_name(path).removesuffix("/__init__.py").replace("/", ".") for path in inits}
    assert sorted(listed) == sorted(packages)


def test_every_folder_with_code_is_a_package():
    folders = {Path(path).parent for path in files_on_disk() if path.endswith(".py")}
    assert [folder for folder in sorted(folders) if not (ROOT / folder / "__init__.py").exists()] == []


def test_the_wheel_holds_every_file(wheel_names: set[str]):
    assert {installed_name(path) for path in files_on_disk()} - wheel_names == set()


def test_the_wheel_installs_nothing_beside_the_package(wheel_names: set[str]):
    tops = {name.split("/")[0] for name in wheel_names}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"setwright"}
    assert not any(name.startswith(("setwright/_package/", "setwright/tests/")) for name in wheel_names)


@pytest.mark.parametrize("folder", FOLDERS)
def test_a_folder_is_importable_under_the_package_alone(folder: str, tmp_path: Path):
    def imports(name: str) -> bool:
        command = [sys.executable, "-c", f"import {name}"]
        clean = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
        return subprocess.run(command, cwd=tmp_path, env=clean, capture_output=True, check=False).returncode == 0

    assert imports(f"setwright.{folder}")
    assert not imports(folder)
