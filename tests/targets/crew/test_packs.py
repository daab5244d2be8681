"""Packs of people: who gets one, and what a second build makes anew."""

import json
import os
import re
import shutil
from base64 import b64encode
from collections.abc import Callable
from pathlib import Path

import pytest
import vl_convert
from setwright.targets.command_line import main

from .conftest import NAMES, PROGRAM, crew_text, files, process


def stamps(folder: Path) -> dict[str, int]:
    return {path.as_posix(): path.stat().st_mtime_ns for path in folder.rglob("*") if path.is_file()}


def change(path: str, before: str, after: str) -> None:
    text = Path(path).read_text()
    assert before in text
    Path(path).write_text(text.replace(before, after, 1))


def test_everybody_of_a_group_gets_a_pack_and_the_coach_an_overview(build: Callable):
    ran = build("--for", "crew")
    assert ran.code == 0
    made = set(files("sheets"))
    for name in NAMES:
        assert {f"{name}/{name}-hall-handout.html", f"{name}/{name}-hall-handout.md", f"{name}/{name}-hall-log.txt",
                f"{name}/{name}-hall-main-short-15min.html"} <= made  # fmt: skip
    assert {"overview.html", "overview.md"} <= made
    assert all(name.capitalize() in Path("sheets/overview.md").read_text() for name in NAMES)
    assert "3 packs in sheets" in ran.out


def test_the_overview_counts_a_program_once_and_tells_the_source_of_each_sheet(build: Callable):
    build("--for", "crew")
    overview = Path("sheets/overview.md").read_text()
    assert overview.count("| Hall class | 1 |") == 1
    for name in NAMES:
        source = re.search(r"Source:\*\* (\w{12})", Path(f"sheets/{name}/{name}-hall-handout.md").read_text())
        assert source is not None and source[1] in Path("sheets/overview.html").read_text()


def test_one_athlete_alone_gets_no_overview(build: Callable):
    assert build("--for", "otto").code == 0
    assert {name.split("/")[0] for name in files("sheets")} == {"otto", ".made.json"}


def test_names_may_be_given_again_and_all_is_everybody(build: Callable):
    build("--for", "otto", "--for", "maren", "--for", "otto", "--to", "a")
    build("--for", "all", "--to", "b")
    assert {path.name for path in Path("a").iterdir() if path.is_dir()} == {"otto", "maren"}
    assert {path.name for path in Path("b").iterdir() if path.is_dir()} == set(NAMES)


def test_groups_within_groups_and_a_ring_of_them(build: Callable):
    Path("more.coach").write_text('use "crew.coach"\n\ngroup everyone: maren, rest\ngroup rest: crew\n')
    ran = build("--for", "everyone", "--to", "a")
    assert ran.code == 0
    assert {path.name for path in Path("a").iterdir() if path.is_dir()} == set(NAMES)


def test_an_unknown_name_is_refused_with_the_nearest(build: Callable):
    ran = build("--for", "marren")
    assert ran.code == 2
    assert "`maren`" in ran.err
    assert not Path("sheets").exists()


def test_a_program_that_is_not_there_is_refused(build: Callable):
    ran = build("--for", "maren", "--program", "hal")
    assert ran.code == 2
    assert "`hall`" in ran.err


@pytest.mark.parametrize("option", [("--jobs", "2"), ("--scheduler", "tcp://127.0.0.1:1")])
def test_options_of_many_go_with_for(build: Callable, option: tuple[str, str]):
    ran = build(*option)
    assert ran.code == 2
    assert "--for" in ran.err


# The record


def test_a_second_build_writes_nothing(build: Callable):
    build("--for", "crew")
    before = stamps(Path("sheets"))
    ran = build("--for", "crew")
    assert stamps(Path("sheets")) == before
    assert "as they should be" in ran.out and "maren" not in ran.out


def test_what_was_found_is_told_again_by_a_second_build(build: Callable):
    change("crew.coach", "begins goblet-squat at 8 kg", "begins goblet-squat at 9 kg")
    first, second = build("--for", "crew"), build("--for", "crew")
    assert "begins-unmakeable" in first.err
    assert second.err == first.err


def test_findings_stand_where_the_athlete_stands_now(build: Callable):
    change("crew.coach", "begins goblet-squat at 8 kg", "begins goblet-squat at 9 kg")
    build("--for", "crew")
    change("crew.coach", "use basics\n", "use basics\n\n# Two more lines.\n")
    before = stamps(Path("sheets/maren"))
    ran = build("--for", "crew")
    assert stamps(Path("sheets/maren")) == before
    assert "crew.coach:11:" in ran.err


def drawing(colour: str) -> bytes:
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect width="9" height="9" fill="{colour}"/></svg>'
    return vl_convert.svg_to_png(svg)


def test_another_logo_makes_every_pack_anew(build: Callable):
    change("hall.coach", "  category legs", '  logo "hall.png", showing "two larches"\n  category legs')
    assert "logo-not-found" in build("--for", "crew").err
    Path("hall.png").write_bytes(drawing("green"))
    assert build("--for", "crew").code == 0
    assert b64encode(drawing("green")) in Path("sheets/maren/maren-hall-handout.html").read_bytes()
    before = stamps(Path("sheets"))
    build("--for", "crew")
    assert stamps(Path("sheets")) == before
    Path("hall.png").write_bytes(drawing("red"))
    ran = build("--for", "crew")
    assert all(f"\n  {name}: " in ran.out for name in NAMES)
    assert b64encode(drawing("red")) in Path("sheets/otto/otto-hall-handout.html").read_bytes()
    assert build("--for", "crew", "--to", "side", "--jobs", "2").code == 0
    assert files("side") == files("sheets")
    Path("hall.png").unlink()
    assert "logo-not-found" in build("--for", "crew").err


def test_one_athlete_changed(build: Callable):
    build("--for", "crew")
    others = stamps(Path("sheets/maren")) | stamps(Path("sheets/ines"))
    change("crew.coach", 'athlete otto "Otto"', 'athlete otto "Otto the tall"')
    ran = build("--for", "crew")
    assert stamps(Path("sheets/maren")) | stamps(Path("sheets/ines")) == others
    assert "otto: 9 files" in ran.out and "maren" not in ran.out
    assert "Otto the tall" in Path("sheets/otto/otto-hall-handout.md").read_text()
    assert "Otto the tall" in Path("sheets/overview.md").read_text()


def test_a_file_changed_by_hand_is_made_again(build: Callable):
    build("--for", "crew")
    path = Path("sheets/ines/ines-hall-handout.md")
    made = path.read_bytes()
    path.write_bytes(made[:-2] + b"?\n")  # of the same size
    os.utime(path, ns=(path.stat().st_atime_ns, path.stat().st_mtime_ns + 10**9))
    ran = build("--for", "crew")
    assert path.read_bytes() == made
    assert "ines/ines-hall-handout.md" in ran.out and "handout.html" not in ran.out


def test_a_file_that_was_deleted_is_made_again(build: Callable):
    build("--for", "crew")
    path = Path("sheets/ines/ines-hall-log.txt")
    path.unlink()
    assert "ines/ines-hall-log.txt" in build("--for", "crew").out
    assert path.exists()


def test_files_that_are_only_younger_are_not_written(build: Callable):
    build("--for", "crew")
    shutil.copytree("sheets", "copy")
    for path in Path("copy").rglob("*.html"):
        os.utime(path, ns=(path.stat().st_atime_ns, path.stat().st_mtime_ns + 10**9))
    before = stamps(Path("copy"))
    build("--for", "crew", "--to", "copy")
    assert stamps(Path("copy")) == before


def test_a_program_changed_reaches_everybody_and_takes_files_away(build: Callable):
    build("--for", "crew")
    change("hall.coach", "    short 15 min by sets\n", "")
    ran = build("--for", "crew")
    assert not list(Path("sheets").rglob("*short*"))
    assert "maren/maren-hall-main-short-15min.md  (taken away)" in ran.out


def test_a_group_or_another_athlete_changes_nobody_elses_pack(build: Callable):
    build("--for", "crew")
    before = stamps(Path("sheets/maren"))
    Path("crew.coach").write_text(crew_text((*NAMES, "tomas")))
    ran = build("--for", "crew")
    assert stamps(Path("sheets/maren")) == before
    assert "tomas: 10 files" in ran.out and "otto" not in ran.out


def test_whoever_left_the_group_keeps_the_pack_and_is_named(build: Callable):
    build("--for", "crew")
    before = stamps(Path("sheets/ines"))
    change("crew.coach", "group crew: maren, otto, ines", "group crew: maren, otto")
    ran = build("--for", "crew")
    assert stamps(Path("sheets/ines")) == before
    assert "not asked for, left as they are: ines" in ran.out
    assert "Ines" not in Path("sheets/overview.md").read_text()


def test_a_log_belongs_to_what_a_pack_is_made_from(build: Callable):
    log = 'use "crew.coach"\nuse "hall.coach"\n\nlog maren on hall\n\n2026-06-15 main, 40 min\n  push-up 8 8 8\n'
    Path("log.coach").write_text(log)
    assert build("--for", "crew").code == 0
    Path("log.coach").write_text(log.replace("push-up", "push-down"))
    ran = build("--for", "crew")
    assert ran.code == 1
    assert "name-unknown" in ran.err
    assert "without a pack, because of errors: maren" in ran.out


def test_another_setwright_makes_all_packs_anew(build: Callable, monkeypatch: pytest.MonkeyPatch):
    build("--for", "crew")
    kept = json.loads(Path("sheets/maren/.made.json").read_text())
    from setwright.targets.command_line import crew
    from setwright.targets.crew import partition, record

    for module in (record, partition, crew):
        monkeypatch.setattr(module, "edition", lambda: "another")
    build("--for", "crew")
    assert json.loads(Path("sheets/maren/.made.json").read_text())["made_from"] != kept["made_from"]


@pytest.mark.parametrize("text", ["", "{", "[]", '{"made_from": 1}', '{"files": {"a": 3}}'])
def test_a_record_that_cannot_be_read_is_made_anew(build: Callable, text: str):
    build("--for", "crew")
    made = files("sheets")
    Path("sheets/maren/.made.json").write_text(text)
    Path("sheets/.made.json").write_text(text)
    assert build("--for", "crew").code == 0
    assert files("sheets") == made


# Errors


def test_an_athlete_with_errors_gets_no_pack_and_all_others_do(build: Callable):
    change("crew.coach", "has floor, chair, wall", "has flor chair")
    ran = build("--for", "crew")
    assert ran.code == 1
    assert "without a pack, because of errors: maren" in ran.out
    assert not Path("sheets/maren").exists()
    assert {"otto", "ines"} <= {path.name for path in Path("sheets").iterdir()}
    assert "Maren" in Path("sheets/overview.md").read_text()


def test_a_pack_of_before_stays_and_is_named(build: Callable):
    build("--for", "crew")
    made = files("sheets/maren")
    change("crew.coach", "begins goblet-squat at 8 kg", "begins goblet-sqat at 8 kg")
    ran = build("--for", "crew")
    assert files("sheets/maren") == made
    assert "an earlier pack stays as it was: maren" in ran.out
    change("crew.coach", "begins goblet-sqat at 8 kg", "begins goblet-squat at 8 kg")
    assert build("--for", "crew").code == 0


def test_errors_elsewhere_write_nothing(build: Callable):
    Path("hall.coach").write_text(PROGRAM.replace("push-up", "push-down"))
    ran = build("--for", "crew")
    assert ran.code == 1
    assert "nothing is written" in ran.err
    assert not Path("sheets").exists()


def test_the_same_athlete_twice(build: Callable):
    Path("crew.coach").write_text(crew_text(("maren", "otto", "maren")))
    ran = build("--for", "otto", "--for", "maren")
    assert ran.code == 1
    assert "name-twice" in ran.err
    assert "because of errors: maren" in ran.out and Path("sheets/otto").exists()


def test_a_log_of_nobody(build: Callable):
    Path("log.coach").write_text('use "hall.coach"\n\nlog mareen on hall\n\n2026-06-15 main, 40 min\n  push-up 8 8 8\n')
    ran = build("--for", "crew")
    assert ran.code == 1
    assert "name-unknown" in ran.err and "log.coach:3:" in ran.err


def test_whoever_trains_by_another_program_is_named(build: Callable):
    other = PROGRAM.replace('program hall "Hall class"', 'program shore "Shore class"')
    Path("shore.coach").write_text(other)
    change("crew.coach", 'use "hall.coach"', 'use "hall.coach"\nuse "shore.coach"')
    change("crew.coach", "  born 1980\n", "  born 1980\n  follows shore\n")
    ran = build("--for", "crew", "--program", "shore")
    assert ran.code == 0
    assert "in no program that was asked for: otto, ines" in ran.out
    assert Path("sheets/maren/maren-shore-handout.md").exists()


def test_two_programs_never_write_over_each_others_sheets(build: Callable):
    """Session `b-main` of `hall` and session `main` of `hall-b`."""
    change("hall.coach", "session main ", "session b-main ")
    Path("other.coach").write_text(PROGRAM.replace('program hall "Hall class"', 'program hall-b "Another class"'))
    change("crew.coach", 'use "hall.coach"', 'use "hall.coach"\nuse "other.coach"')
    change("crew.coach", "  born 1980\n", "  born 1980\n  follows hall, hall-b\n")
    assert build("--for", "maren").code == 0
    first, second = (Path(f"sheets/maren/maren-hall-b-main-short-15min{end}.md").read_text() for end in ("", "-2"))
    assert "Hall class" in first and "Another class" in second


def findings(document: str) -> set[tuple[object, ...]]:
    told = json.loads(document)["findings"]
    return {(one["code"], one["file"], one["line"], one["column"], one["message"]) for one in told}


def test_the_findings_are_those_of_check(build: Callable, capsys: pytest.CaptureFixture[str]):
    change(
        "crew.coach",
        "begins goblet-squat at 8 kg",
        "begins goblet-squat at 9 kg\n  max push-up 3 kg\n  has dumbell 3 kg",
    )
    change("crew.coach", "born 1980", "born 80")
    change("crew.coach", "group crew: maren, otto, ines", "group crew: maren, otto, otto, ines")
    Path("log.coach").write_text(
        'use "crew.coach"\nuse "hall.coach"\n\nlog otto on hall, revision 2\n\n2026-06-01 main, 40 min\n  push-up 8 8 8\n'
    )
    main(["check", ".", "--format", "json"])
    checked = findings(capsys.readouterr().out)
    ran = build("--for", "all", "--format", "json")
    assert len(checked) > 5
    assert findings(ran.out) == checked


# The same everywhere


def test_the_same_bytes_wherever_and_however_it_is_built(build: Callable, crew: Path, tmp_path: Path):
    names = tuple(f"athlete-{number}" for number in range(60))
    Path("crew.coach").write_text(crew_text(names))
    assert build("--for", "crew", "--to", "one", "--jobs", "1").code == 0
    elsewhere = tmp_path / "else" / "where"
    shutil.copytree(crew, elsewhere, ignore=shutil.ignore_patterns("one"))
    os.chdir(elsewhere)
    for seed in ("1", "2"):
        running = process("--for", "crew", "--to", f"two-{seed}", "--jobs", "2", PYTHONHASHSEED=seed)
        assert running.communicate(timeout=120)[1] is not None and running.returncode == 0
        assert files(f"two-{seed}") == files(crew / "one")


def source_on(path: str) -> str:
    (told,) = re.findall(r"^- \*\*Source:\*\* (\w+)$", Path(path).read_text(), re.MULTILINE)
    return str(told)


LOG = """
log otto on hall, revision 1

2026-07-31 main, 30 min, rpe 6
  goblet-squat  8 kg  8 8 8
"""


def test_the_source_on_a_sheet_is_that_of_its_athlete(build: Callable):
    """Of two sheets of one person that tell other things the sources differ; where nothing differs they do not."""
    handouts = [f"sheets/{name}/{name}-hall-handout.md" for name in ("otto", "maren")]
    build("--for", "crew")
    first = [source_on(one) for one in handouts]
    assert first[0] != first[1]
    change("crew.coach", "use basics\n", "use basics\n\n# Two more lines.\n")
    build("--for", "crew")
    assert [source_on(one) for one in handouts] == first
    change("crew.coach", 'athlete otto "Otto"\n', 'athlete otto "Otto"\n  body 80 kg\n')
    build("--for", "crew")
    second = [source_on(one) for one in handouts]
    assert second[0] != first[0] and second[1] == first[1]
    assert "After:" not in Path(handouts[0]).read_text()
    Path("otto-log.coach").write_text(f'use "crew.coach"\nuse "hall.coach"\n{LOG}')
    build("--for", "crew")
    third = [source_on(one) for one in handouts]
    assert third[0] not in (first[0], second[0]) and third[1] == first[1]
    assert "- **After:** your session of 31 July 2026\n" in Path(handouts[0]).read_text()
    assert "# Asked for now: 3 sets of 9, with 8 kg." in Path("sheets/otto/otto-hall-log.txt").read_text()
    assert "# To begin with: 3 sets of 8, with 8 kg." in Path("sheets/maren/maren-hall-log.txt").read_text()


def test_a_sheet_that_was_changed_by_hand_is_named(build: Callable):
    build("--for", "crew")
    written, overview = Path("sheets/otto/otto-hall-handout.md"), Path("sheets/overview.md")
    made = written.read_bytes()
    written.write_text("Otto: twice as much!\n")
    overview.write_text("Nobody.\n")
    assert "changed by hand" not in build("--for", "maren").out
    ran = build("--for", "crew")
    (line,) = [line for line in ran.out.splitlines() if "changed by hand" in line]
    assert line.endswith(": otto/otto-hall-handout.md, overview.md")
    assert written.read_bytes() == made
    change("crew.coach", 'athlete otto "Otto"', 'athlete otto "Otto the tall"')
    assert "changed by hand" not in build("--for", "crew").out


def test_tables_are_left_out_where_they_are_not_wanted(crew: Path, build: Callable) -> None:
    assert build("--for", "crew", "--without", "tables").code == 0
    assert not [*Path("sheets").rglob("*.csv"), *Path("sheets").rglob("*.xlsx")]
    assert build("--for", "crew").code == 0
    assert list(Path("sheets").rglob("*.csv")) and list(Path("sheets").rglob("*.xlsx"))
