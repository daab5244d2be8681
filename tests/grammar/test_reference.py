"""The reference and the README: every whole source in them compiles without any finding, and no construct is left out."""

from __future__ import annotations

import re
import shutil
from importlib.resources import files
from pathlib import Path

import pytest
from setwright.compiler.pipeline import compile_texts
from setwright.targets.command_line import main

PROJECT = Path(__file__).parents[2]
REFERENCE = PROJECT / "grammar" / "LANGUAGE.md"
PAGES = (REFERENCE, PROJECT / "README.md")
FENCE = re.compile(r"^```(?P<info>[^\n]*)\n(?P<text>.*?)^```$", re.M | re.S)
SOURCES = [
    pytest.param(fence["text"], id=f"{page.name}:{page.read_text('utf-8').count(chr(10), 0, fence.start()) + 1}")
    for page in PAGES
    for fence in FENCE.finditer(page.read_text("utf-8"))
    if fence["info"] == "coach"
]


@pytest.mark.parametrize("text", SOURCES)
def test_whole_source_compiles_without_a_finding(text: str) -> None:
    result = compile_texts({"program.coach": text})
    assert [f"{one.span} {one.code}: {one.message}" for one in result.diagnostics] == []


def test_fences_are_of_known_kinds() -> None:
    infos = {fence["info"] for page in PAGES for fence in FENCE.finditer(page.read_text("utf-8"))}
    assert infos <= {"coach", "coach fragment", "sh", "text", "json"}


def test_reference_shows_every_word_of_the_language() -> None:
    grammar = files("setwright.grammar").joinpath("coach.lark").read_text("utf-8")
    words = set(re.findall(r'^[A-Z]+: "([a-z]+)"$', grammar, re.M))
    reference = REFERENCE.read_text("utf-8")
    code = " ".join(re.findall(r"```coach.*?```|`[^`\n]+`", reference, re.S))
    shown = set(re.findall(r"(?<![\w-])[a-z]+(?![\w-])", code))
    assert len(words) > 80
    assert sorted(words - shown) == []


def test_links_of_the_reference_lead_somewhere() -> None:
    text = REFERENCE.read_text("utf-8")
    heads = {
        re.sub(r"[^\w -]", "", head.lower()).strip().replace(" ", "-") for head in re.findall(r"^#+ (.+)$", text, re.M)
    }
    assert set(re.findall(r"\]\(#([^)]+)\)", text)) <= heads


def test_readme_tells_what_a_misspelt_movement_gives(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    copy = tmp_path / "programs" / "tern-holm"
    shutil.copytree(PROJECT / "programs" / "tern-holm", copy)
    program = copy / "winter-store-room.coach"
    program.write_text(program.read_text("utf-8").replace("side-plank ", "side-plnak "), "utf-8")
    assert main(["check", str(copy)]) == 1
    assert told_in_readme("side-plnak").replace("programs/tern-holm/", f"{copy}/") in capsys.readouterr().out


def test_readme_tells_what_trimming_tells(capsys: pytest.CaptureFixture[str]) -> None:
    main(["trim", str(PROJECT / "programs" / "tern-holm"), "--to", "30min", "--session", "main"])
    assert told_in_readme("one set more") in capsys.readouterr().out


def test_readme_tells_what_the_review_tells(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["review", str(PROJECT / "programs" / "tern-holm"), "--for", "tomas", "--for", "maren", "--to", str(tmp_path)])
    assert told_in_readme("Nowhere to go") in capsys.readouterr().out


def told_in_readme(word: str) -> str:
    """The block of output in the README in which a word stands."""
    readme = (PROJECT / "README.md").read_text("utf-8")
    (block,) = [fence["text"] for fence in FENCE.finditer(readme) if fence["info"] == "text" and word in fence["text"]]
    return block
