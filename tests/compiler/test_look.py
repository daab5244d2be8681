"""What a program brings to its sheets: letterhead, accent and logo, and pictures that are none."""

import struct
import zlib
from pathlib import Path

import pytest
import sklearn
import vl_convert
from setwright.compiler.model import Look, Picture
from setwright.compiler.person import base_of, read
from setwright.compiler.pictures import MOST_BYTES, MOST_PIXELS, read_picture
from setwright.compiler.pipeline import Result, compile_path, compile_texts
from setwright.compiler.project import load
from setwright.compiler.roster import Roster, shared_texts

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="60" height="36"><rect width="60" height="36" fill="#1f5130"/></svg>'
)
PNG = vl_convert.svg_to_png(SVG)  # written by another program
JPEG = (Path(sklearn.__file__).parent / "datasets" / "images" / "flower.jpg").read_bytes()  # of a camera, 640 by 427
PROGRAM = """use basics

program evening "Evening"
  {lines}
  session main "Main session", 2 a week
    block all
      must chair-stand 3 x 10
        advance reps by 1 to 15
"""
LOGO = 'logo "hall.png", showing "two larches"'


def compiled(lines: str, path: str = "evening.coach", **files: bytes) -> Result:
    named = {name.replace("__", "/").replace("_", "."): content for name, content in files.items()}
    return compile_texts({path: PROGRAM.format(lines=lines), **named})


def look(result: Result) -> Look:
    assert [one.code for one in result.diagnostics] == []
    (program,) = result.project.programs
    return program.look


def codes(result: Result) -> list[str]:
    return [one.code for one in result.diagnostics]


def test_all_of_it():
    found = look(compiled(f'letterhead "The hall", "Larch Street"\n  accent "#1F5C4A"\n  {LOGO}', hall_png=PNG))
    assert found == Look(("The hall", "Larch Street"), "#1f5c4a", Picture("png", 60, 36, PNG), "two larches")


def test_nothing_said():
    assert look(compiled("rest 60 s")) == Look()


def test_an_accent_by_name():
    assert look(compiled("accent violet")).accent == "#4a2a63"


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ("accent purple", "word-unknown"),
        ('accent "#12345"', "accent-no-colour"),
        ('accent "red; } body { display: none"', "accent-no-colour"),
        ('accent "#777777"', "accent-pale"),
        ("accent red\n  accent blue", "said-twice"),
        (f"{LOGO}\n  {LOGO}", "said-twice"),
        ('logo "hall.png"', "logo-untold"),
        ('logo "hal.png", showing "a"', "logo-not-found"),
        ('logo "../../hall.png", showing "a"', "logo-outside-project"),
        ('logo "/etc/hall.png", showing "a"', "logo-outside-project"),
    ],
)
def test_what_is_wrong_is_told_at_its_place(lines: str, code: str):
    result = compiled(lines, hall_png=PNG)
    assert codes(result) == [code]
    assert result.diagnostics[0].span.line >= 4


def test_what_is_proposed_for_a_pale_accent_is_dark_enough():
    for colour in ("#ffff00", "#777777", "#e0a030", "#ffffff", "#00ff7f"):
        (found,) = compiled(f'accent "{colour}"').diagnostics
        assert found.code == "accent-pale"
        proposed = found.help.split("`")[1]
        assert codes(compiled(f'accent "{proposed}"')) == []


def test_a_logo_beside_a_file_in_a_folder():
    assert look(compiled(LOGO, "hall/evening.coach", hall__hall_png=PNG)).logo == Picture("png", 60, 36, PNG)
    assert look(compiled('logo "../hall.png", showing "a"', "hall/evening.coach", hall_png=PNG)).logo is not None
    assert codes(compiled(LOGO, "hall/evening.coach", hall_png=PNG)) == ["logo-not-found"]


def test_a_program_changes_with_its_logo():
    """By the fingerprint, which stands on the sheets."""
    other = vl_convert.svg_to_png(SVG.replace("#1f5130", "#000000"))
    first, second = (compiled(LOGO, hall_png=one).project.programs[0].fingerprint for one in (PNG, other))
    assert first != second


# Pictures


def test_a_photograph():
    assert read_picture(JPEG) == Picture("jpeg", 640, 427, JPEG)


def test_pictures_of_another_writer():
    for width, height in ((1, 1), (640, 3), (3, 640)):
        raw = vl_convert.svg_to_png(f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}"/>')
        assert read_picture(raw) == Picture("png", width, height, raw)


@pytest.mark.parametrize(
    "raw",
    [
        b"", b"\x89PNG", b"\x89PNG\r\n\x1a\n", b"\xff\xd8", b"\xff\xd8\xff", b"\xff\xd8\xff\xff\xff\xff", b"GIF89a" + b"\0" * 90,
        SVG.encode(), b"<html>", PNG[:-1], PNG[:50], PNG.replace(b"IDAT", b"IDAU"), PNG[:20] + b"\0\0\0\0" + PNG[24:],
        JPEG[:300], JPEG[:-2], b"\xff\xd8\xff\xda\0\0", b"\xff\xd8\xff\xe0\0\0\xff\xd9", b"athlete maren\n  born 1962\n",
    ],
    ids=range(18),
)  # fmt: skip
def test_what_is_no_picture(raw: bytes):
    assert read_picture(raw) is None
    expected = "logo-no-picture" if len(raw) <= MOST_BYTES else "logo-too-large"
    assert codes(compiled(LOGO, hall_png=raw)) == [expected]


@pytest.mark.parametrize("length", range(0, len(PNG), 7))
def test_no_picture_ends_too_early(length: int):
    assert read_picture(PNG[:length]) is None


def _wide(width: int) -> bytes:
    parts = {b"IHDR": struct.pack(">IIBBBBB", width, 1, 1, 0, 0, 0, 0),
             b"IDAT": zlib.compress(bytes(1 + -(-width // 8))), b"IEND": b""}  # fmt: skip
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(part)) + kind + part + struct.pack(">I", zlib.crc32(kind + part))
        for kind, part in parts.items()
    )


def test_how_large_a_logo_may_be():
    assert codes(compiled(LOGO, hall_png=_wide(MOST_PIXELS))) == []
    assert codes(compiled(LOGO, hall_png=_wide(MOST_PIXELS + 1))) == ["logo-too-large"]
    assert codes(compiled('logo "a.jpg", showing "a flower"', a_jpg=JPEG)) == ["logo-too-large"]
    assert codes(compiled(LOGO, hall_png=b"x" * (MOST_BYTES + 1))) == ["logo-too-large"]


@pytest.mark.parametrize(("name", "content"), [("hall.svg", SVG), ("crew.coach", "athlete maren\n"), ("png", "x")])
def test_a_file_of_another_kind_is_not_taken_under_its_own_name(name: str, content: str):
    raw = {"evening.coach": PROGRAM.format(lines=f'logo "{name}", showing "a"').encode(), name: content.encode()}
    loaded = load(["evening.coach"], raw.get)
    assert [one.code for one in loaded.found] == ["logo-no-picture"]
    assert list(loaded.files) == ["evening.coach"]


# From a disk, and for many people


def test_a_folder_is_compiled_with_its_logo(tmp_path: Path):
    (tmp_path / "evening.coach").write_text(PROGRAM.format(lines=LOGO))
    assert codes(compile_path(tmp_path)) == ["logo-not-found"]
    (tmp_path / "hall.png").write_bytes(PNG)
    assert look(compile_path(tmp_path)).logo == Picture("png", 60, 36, PNG)
    (tmp_path / "hall.png").write_bytes(PNG + b"\0" * 5_000_000)
    assert codes(compile_path(tmp_path)) == ["logo-too-large"]


def test_a_logo_that_a_link_leads_out_of_the_project(tmp_path: Path):
    inside = tmp_path / "project"
    inside.mkdir()
    (tmp_path / "hall.png").write_bytes(PNG)
    (inside / "evening.coach").write_text(PROGRAM.format(lines=LOGO))
    (inside / "hall.png").symlink_to(tmp_path / "hall.png")
    assert codes(compile_path(inside)) == ["logo-outside-project"]


def test_what_all_share_carries_the_logo():
    raw = {"evening.coach": PROGRAM.format(lines=LOGO).encode(), "hall.png": PNG, "crew.coach": b"athlete maren\n"}
    roster = Roster(raw.get)
    loaded = load(["evening.coach", "crew.coach"], roster.fetch)
    texts = shared_texts(loaded)
    assert texts["hall.png"] == PNG
    (program,) = base_of(read(texts)).project.programs
    assert program.look.logo == Picture("png", 60, 36, PNG)


def test_the_way_back_looks_like_what_it_leads_to():
    back = '\nprogram back "Back"\n  return to evening after 3 weeks\n{}'
    source = PROGRAM.format(lines="accent green\n  revision 1") + back

    def accents(lines: str) -> list[str]:
        result = compile_texts({"evening.coach": source.format(lines)})
        assert [one for one in result.diagnostics if one.severity == "error"] == []
        return [program.look.accent for program in result.project.programs]

    assert accents("") == ["#1f5130", "#1f5130"]
    assert accents("  accent red\n") == ["#1f5130", "#7d1f1a"]
