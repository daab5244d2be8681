"""The coach's page: what comes for whom, the picture and what is read out in its place, every movement by week."""

import re
from html.parser import HTMLParser
from random import Random

import attrs
import pytest
from setwright.compiler.horizon import outlook
from setwright.compiler.model import Program, Project
from setwright.compiler.pipeline import Result, compile_texts
from setwright.compiler.quantity import read_quantity
from setwright.targets import horizon, words
from setwright.targets.horizon.comes import for_athletes, for_nobody
from setwright.targets.horizon.picture import pictures
from setwright.targets.horizon_lines import WIDTH, ahead_lines
from setwright.targets.horizon_table import session_tables, shown_weeks, sign, two_runs

from ..generate import random_weeks

PROGRAMS = 40

CREW = """
use basics

program squats "Squats"
  rest 60 s
  runs {weeks} weeks
  {line}
  session main "Main session", 3 a week
    within {within}
    block legs
      must goblet-squat 3 x 8
        advance {rule}
      do chair-stand 2 x 8
        advance reps by 1 to 10
      may arm-circles 1 x 10
        advance none because "It only warms."

athlete maren "Maren"
  has kettlebell 8 kg, 10 kg, 16 kg
  has chair
  jump 25%
  begins goblet-squat at 8 kg
athlete otto "Otto"
  has kettlebell 8 kg, 10 kg, 16 kg
  has chair
  jump 25%
  begins goblet-squat at 8 kg
athlete ines "Ines"
  has kettlebell 8 kg
  avoids chair-stand "a sore knee"
  begins goblet-squat at 8 kg
{more}
"""
ORDER = "reps by 1 to 10, then load restarting reps"


def crew(weeks: int = 6, line: str = "", within: str = "60 min", rule: str = ORDER, more: str = "") -> Result:
    text = CREW.format(weeks=weeks, line=line, within=within, rule=rule, more=more)
    result = compile_texts({"squats.coach": "\n".join(each for each in text.splitlines() if each.strip())})
    assert not result.has_errors, result.diagnostics
    return result


def page(result: Result) -> str:
    return horizon.render(result.project, result.project.programs[0])["squats-coach.html"]


# What comes


def test_a_sentence_for_each_finding_with_titles_for_names():
    result = crew()
    told = for_nobody(result.project, outlook(result.project.programs[0]))
    assert told == (
        "Chair stand has nowhere to go from week 1 of 6: “reps” is at its bound. With every third session missed it comes "
        "in week 2.",
    )


def test_movements_at_their_end_in_the_same_week_share_a_sentence():
    result = crew(rule="reps by 1 to 10")
    (told,) = for_nobody(result.project, outlook(result.project.programs[0]))
    assert told.startswith("Goblet squat and Chair stand have nowhere to go from week 1 of 6: “reps” is at its bound. ")


def test_athletes_with_the_same_findings_stand_together():
    result = crew()
    both, ines = for_athletes(result.project, result.project.programs[0])
    assert both.who == "Maren and Otto"
    assert ines.who == "Ines"
    # 8, 9, 10 repetitions with 8 kg, the same with 10 kg; 16 kg is too far.
    assert both.lines == ("At the end of its rule: Chair stand in week 1 (2); Goblet squat in week 2 (3).",)
    assert ines.lines == (
        "At the end of its rule: Goblet squat in week 1 (2).",
        "Ines leaves out Chair stand.",
    )


def test_what_the_coach_allows_is_not_told():
    result = crew(line='allow rule-exhausted because "The winter is short."')
    assert for_nobody(result.project, outlook(result.project.programs[0])) == ()
    assert for_athletes(result.project, result.project.programs[0])[0].lines == (words.NOTHING_COMES,)


OTHER = (
    'program other "Other"\n  session main, 2 a week\n    block all\n      must chair-stand 3 x 8\n'
    "        advance reps by 1 to 30\n"
)


def test_where_nobody_is_known_to_train_by_a_program_its_page_says_so():
    log = "log ines on squats\n2026-06-17 main\n  chair-stand  8 8\n"

    def told(result: Result) -> dict[str, bool]:
        pages = {
            name: text
            for program in result.project.programs
            for name, text in horizon.render(result.project, program).items()
        }
        return {name: " ".join(words.NOBODY_TRAINS.split()) in " ".join(text.split()) for name, text in pages.items()}

    alone = crew()
    assert set(told(alone).values()) == {False}
    both = {f"{name}-coach.{kind}": True for name in ("squats", "other") for kind in ("html", "md")}
    assert told(crew(more=OTHER)) == both
    assert told(crew(more=OTHER + log)) == both | {"squats-coach.html": False, "squats-coach.md": False}


def test_where_there_is_no_athlete_none_is_missed():
    alone = crew(more=OTHER)
    nobody = attrs.evolve(alone.project, athletes=())
    page_of_it = horizon.render(nobody, nobody.programs[0])["squats-coach.html"]
    assert words.COMES_FOR_ATHLETES not in page_of_it
    assert words.NOBODY_TRAINS not in page_of_it


def test_of_several_programs_only_those_who_logged_it_are_told():
    log = "log ines on squats\n2026-06-17 main\n  chair-stand  8 8\n"
    result = crew(more=OTHER + log)
    squats, others = sorted(result.project.programs, key=lambda program: program.name != "squats")
    assert [comes.who for comes in for_athletes(result.project, squats)] == ["Ines"]
    assert for_athletes(result.project, others) == ()


def test_a_program_that_does_not_say_its_weeks_says_so_on_the_page():
    result = crew()
    program = attrs.evolve(result.project.programs[0], weeks=None)
    assert (
        "It does not say itself how many weeks it runs." in horizon.render(result.project, program)["squats-coach.md"]
    )
    assert "It does not say itself" not in page(result)


# What is read out


class Heard(HTMLParser):
    """What a reader who hears a page depends on: the names of pictures and tables, and where a heading cell stands."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.pictures: list[list[str]] = []
        self.ids: dict[str, str] = {}
        self.headings: list[str | None] = []
        self.regions: list[str] = []
        self.inside = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        found = dict(attributes)
        if tag == "svg" and found.get("aria-hidden") != "true":
            assert found["role"] == "img"
            self.pictures.append(str(found["aria-labelledby"]).split())
        if tag == "th":
            self.headings.append(found.get("scope"))
        if found.get("role") == "region":
            assert found["tabindex"] == "0"
            self.regions.append(str(found["aria-labelledby"]))
        if "id" in found:
            assert found["id"] not in self.ids
            self.inside = str(found["id"])
            self.ids[self.inside] = ""

    def handle_data(self, data: str) -> None:
        if self.inside:
            self.ids[self.inside] += data

    def handle_endtag(self, tag: str) -> None:
        self.inside = ""


@pytest.mark.parametrize("weeks", [1, 6, 30, 60])
def test_every_picture_and_table_is_named_and_every_heading_cell_has_its_scope(weeks: int):
    heard = Heard(page(crew(weeks=weeks)))
    assert heard.pictures
    assert all(heard.ids[key].strip() for keys in heard.pictures for key in keys)
    assert all(heard.ids[key].strip() for key in heard.regions)
    assert heard.headings and all(scope in ("col", "row") for scope in heard.headings)


def test_the_picture_in_words():
    heard = Heard(page(crew(weeks=12, rule="reps by 1 to 40, then sets by 1 to 6", within="12 min")))
    (title, description) = heard.pictures[0]
    assert heard.ids[title] == "Main session: what moves in each week, and the minutes it takes"
    told = heard.ids[description]
    assert "Every session good, weeks 1 to 12." in told
    assert "Every 3rd session missed, weeks 1 to 12." in told
    assert "Goblet squat moves in 12 weeks, and is at its end in week 12." in told
    assert "Chair stand moves in 1 week, and is at its end in week 1." in told
    assert re.search(
        r"It takes 8 minutes in the first of these weeks, at most \d\d minutes\. It is over its limit in", told
    )


# What is drawn


def drawn(weeks: int, **more: str):
    outlook_ = outlook(crew(weeks=weeks, **more).project.programs[0])
    (session,) = two_runs(outlook_)
    runs = [("good", session.good), ("missed", session.missed)]
    return session, pictures("key", runs, outlook_.good.easier)


def test_a_bead_for_each_week_in_which_an_axis_moves_with_its_letter():
    session, (picture,) = drawn(6)
    row = session.good.rows[0]
    letters = [bead.letter for bead in picture.panels[0].beads if bead.shape == "up" and bead.y == picture.names[0].y]
    assert "".join(letters) == "".join(sign(cell) for cell in row.cells if cell.kind == "up")


def test_easier_weeks_are_shaded():
    _, (picture,) = drawn(6, line="weeks 3: sets by -1")
    panel = picture.panels[0]
    assert len(panel.shades) == 1
    assert panel.shades[0] == pytest.approx(panel.x + 2 * panel.pitch)


def test_bars_over_the_limit_stand_above_its_line():
    session, (picture,) = drawn(12, rule="reps by 1 to 40", within="11 min")
    panel = picture.panels[0]
    assert panel.limit is not None
    assert any(bar.over for bar in panel.bars) and not all(bar.over for bar in panel.bars)
    for bar in panel.bars:
        assert bar.over == pytest.approx(max(panel.limit - bar.y, 0))
    assert {week for week, bar in enumerate(panel.bars, start=1) if bar.over} == session.good.over


@pytest.mark.parametrize(("weeks", "panels"), [(1, [2]), (15, [2]), (16, [1, 1]), (52, [1, 1]), (53, [1, 1, 1, 1])])
def test_runs_stand_side_by_side_where_they_fit(weeks: int, panels: list[int]):
    _, found = drawn(weeks)
    assert [len(picture.panels) for picture in found] == panels
    for picture in found:
        for panel in picture.panels:
            assert panel.x + panel.width <= 514.01
            assert panel.bead >= 6.8  # a letter of 9.5 points is 6.8 wide at most


def test_a_load_that_grows_by_nobody_knows_how_much_is_told_as_more_than_it_was():
    result = crew(rule="load, then reps by 1 to 10")
    program = result.project.programs[0]
    (session,) = program.sessions
    (block,) = session.blocks
    squat, *others = block.entries
    loaded = attrs.evolve(squat, dose=attrs.evolve(squat.dose, load=read_quantity("8 kg")))
    program = attrs.evolve(
        program, sessions=(attrs.evolve(session, blocks=(attrs.evolve(block, entries=(loaded, *others)),)),)
    )
    (table,) = session_tables(outlook(program).good)
    assert table.rows[0].cells[0].parts == ("3 x 8", "over 8 kg", "+load")
    assert table.rows[0].cells[1].since(table.rows[0].cells[0]) == "+load"


# Everything else


@pytest.mark.parametrize("seed", range(PROGRAMS))
def test_any_program_has_its_page_and_lines(seed: int):
    program = random_weeks(Random(seed), 8)
    files = horizon.render(Project(programs=(program,)), program)
    Heard(files[f"{program.name}-coach.html"])
    told = list(ahead_lines(outlook(program), "for nobody in particular"))
    assert max(map(len, told)) <= WIDTH


@pytest.mark.parametrize("seed", range(PROGRAMS))
def test_cells_read_one_after_another_give_every_dose(seed: int):
    for table in session_tables(outlook(random_weeks(Random(seed), 8)).good):
        for row in table.rows:
            for before, cell in zip(row.cells, row.cells[1:], strict=False):
                new = [part for part in cell.parts if part not in before.parts]
                assert all(part in cell.since(before) for part in new)


@pytest.mark.parametrize("seed", range(PROGRAMS))
def test_a_week_that_no_table_shows_is_like_the_one_before(seed: int):
    for table in session_tables(outlook(random_weeks(Random(seed), 8), weeks=20).good):
        shown = shown_weeks(table, 20)
        for week in set(range(1, 21)) - set(shown):
            assert table.minutes[week - 1] == table.minutes[week - 2]
            assert all(row.cells[week - 1].parts == row.cells[week - 2].parts for row in table.rows)
        assert len(shown_weeks(table, 6)) <= 6


def test_a_program_without_sessions_has_a_page(program: Program):
    files = horizon.render(Project(), attrs.evolve(program, sessions=()))
    assert words.COMES in files["small-coach.html"]


def test_a_pace_is_told_for_the_distance_of_the_week():
    # 20 m in 14 s, so 60 m in 42 s, a little quicker each week from then on; in an easier week the same over 30 m.
    text = "use basics\n\nprogram walks\n  runs 6 weeks\n  weeks 5: distance by -50%\n  session out\n    block out\n"
    text += "      do brisk-walk 5 x 20 m\n        advance distance by 20 m to 60 m, then pace by 2%\n"
    result = compile_texts({"walks.coach": text})
    assert not result.has_errors, result.diagnostics
    (table,) = session_tables(outlook(result.project.programs[0]).good)
    assert [cell.parts for cell in table.rows[0].cells] == [
        ("5 x 20 m", "pace 14 s"),
        ("5 x 40 m", "pace 28 s"),
        ("5 x 60 m", "pace 42 s"),
        ("5 x 60 m", "pace 41.16 s"),
        ("5 x 30 m", "pace 20.17 s"),
        ("5 x 60 m", "pace 40.34 s"),
    ]
