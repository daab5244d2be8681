"""Whatever a coach writes is printed as it stands: markup is text, long words are broken, and nothing falls off the paper."""

import attrs
import pytest
from setwright.compiler.model import Program
from setwright.compiler.pipeline import compile_texts
from setwright.targets import pdf, words
from setwright.targets.printing import Printing
from setwright.targets.short import versions

from tests.targets.pdf.reading import text_of, told
from tests.targets.pdf.test_sheets import whole
from tests.targets.test_hostile import with_text

MARKUP = (
    '# = #read(\'/etc/passwd\') #import "@preview/x:1.0": * #panic() $x^2$ <lab> @ref \\u{41} \\ ] [ } { // /* */ ~ -- --- "q" '
    "<script>alert(1)</script> &lt; | a | {{ 7 * 7 }} =1+1 +1 -1 @SUM(A1) \\# *a* _b_ `c`"
)
LONG_WORD, LONG_NAME = "W" * 200, "Long name of a movement " * 8 + "that ends"
STRANGE = "שלום and مرحبا, \U0001f4aa\U0001f3fd lift 椅子"
PRINTINGS = {"usual": Printing(), "large": Printing(large=True)}


def printed(program: Program, printing: Printing) -> dict[str, bytes]:
    return pdf.render(program, versions(program), printing)


@pytest.fixture(params=PRINTINGS)
def printing(request: pytest.FixtureRequest) -> Printing:
    return PRINTINGS[request.param]


@pytest.mark.parametrize(
    "text", [MARKUP, LONG_WORD, LONG_NAME, STRANGE], ids=["markup", "long-word", "long-name", "strange"]
)
def test_any_text_in_every_place(program: Program, printing: Printing, text: str):
    whole(printed(with_text(program, text), printing), printing.paper)


def test_markup_is_printed_as_it_was_written(program: Program):
    made = printed(attrs.evolve(program, title=MARKUP, audience=MARKUP), Printing())
    for name, content in made.items():
        assert told(MARKUP) in text_of(content), name


def test_prose_may_be_emphasized_and_listed_and_nothing_else(program: Program):
    prose = "Go *slowly* and **well**:\n\n1. `one`\n2. [two](https://a.example/b)\n\n= No #heading\n\n- $x$\n  - *deep*"
    text = text_of(printed(attrs.evolve(program, rules=prose), Printing())["small-handout.pdf"])
    assert "Goslowlyandwell:1.one2.two(https://a.example/b)=No#heading$x$deep" in text


def test_what_no_font_has_is_told_in_its_place(program: Program):
    made = printed(attrs.evolve(program, title="Strength \U0001f4aa", audience="שלום"), Printing())
    for content in made.values():
        text = text_of(content)
        assert "Strength[?]" in text and told(words.REPLACED) in text
    assert told("For: [?]") in text_of(made["small-handout.pdf"])
    assert not any(told(words.REPLACED) in text_of(content) for content in printed(program, Printing()).values())


MOVEMENT = """\
movement {name} "Movement number {number}"
  pattern squat
  cue "Cue {number}"
  caution "Caution {number} of {name}"
  how
    | Do {number}.

"""
ENTRY = "      must {name} {sets} x {reps}\n        advance reps by 1 to 60\n"
MANY = """\
use basics

{movements}
program many "Many movements"
  revision 1, 2026-06-14
  session main "Main session", 2 a week
    block strength "Strength"
{entries}
"""


@pytest.mark.parametrize("large", [False, True], ids=["usual", "large"])
def test_forty_movements(large: bool):
    names = [f"movement-{number}" for number in range(1, 41)]
    movements = "".join(MOVEMENT.format(name=name, number=number) for number, name in enumerate(names, start=1))
    entries = "".join(ENTRY.format(name=name, sets=2 + place % 3, reps=5 + place) for place, name in enumerate(names))
    result = compile_texts({"many.coach": MANY.format(movements=movements, entries=entries)})
    (program,) = result.project.programs
    assert len(program.sessions[0].entries) == 40, result.diagnostics
    made = printed(program, Printing(large=large))
    whole(made)
    leaf, guide, log = (text_of(made[f"many-{name}.pdf"]) for name in ("handout", "guide", "log"))
    place = 0
    for number in range(1, 41):
        dose = told(f"mustMovement number {number}{2 + (number - 1) % 3} sets of {4 + number}.")
        assert leaf.count(dose) == 1 and leaf.index(dose) > place
        place = leaf.index(dose)
        assert guide.count(told(f"Caution {number} of movement-{number}.")) == 1
        assert log.count(told(f"Movement number {number}{2 + (number - 1) % 3} sets")) == (2 if large else 1)
