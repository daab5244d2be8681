"""Templates of a coach: in the place of ours, told where they are wrong, and in a sandbox; their page is as the views are."""

import re
from pathlib import Path

import attrs
import pytest
from setwright.compiler.fitting import Fitting
from setwright.compiler.model import Program, Project
from setwright.targets import plan, sheet, sheets, taking, words
from setwright.targets.command_line import main
from setwright.targets.handout import late
from setwright.targets.handout import view as of_handout
from setwright.targets.log_sheet import view as of_log
from setwright.targets.pack import pack
from setwright.targets.printing import Kind, Printing
from setwright.targets.sandbox import plain_words
from setwright.targets.short import view as of_short
from setwright.targets.templates import OURS, REPLACED, Templates, TemplateTrouble

PAGE = (Path(sheet.__file__).parent / "TEMPLATES.md").read_text("utf-8")
FOLDER = Path(sheet.__file__).parent
VIEWS = (
    sheet.Head, sheet.Letterhead, sheet.Mark, plan.PlannedSession, plan.PlannedBlock, plan.PlannedEntry, of_handout.Handout,
    of_handout.ComingBack, late.Late, late.CutRow, late.PaceRow, of_handout.MovementText, taking.NextLoads, of_short.ShortSheet,
    of_short.CutLine, of_log.LogSheet, of_log.LogSession, of_log.LogRow, of_log.Box,
)  # fmt: skip
CAUTIONS = "{% for caution in cautions %}{{ caution }} {% endfor %}"


def mine(**texts: str) -> Templates:
    return Templates("mine", tuple((f"{name.replace('__', '.')}.jinja", text) for name, text in texts.items()))


LEFT_OUT: tuple[Kind, ...] = ("tables", "pdf", "phone")


def built(program: Program, templates: Templates = OURS) -> dict[str, str | bytes]:
    """The pages of a program."""
    return sheets.build(Project(), program, Printing(without=LEFT_OUT, templates=templates))


def handout(program: Program, text: str, **more: str) -> str:
    files = built(program, mine(handout__html=text, **more))
    return str(files["small-handout.html"])


def trouble(program: Program, text: str, **more: str) -> str:
    with pytest.raises(TemplateTrouble) as raised:
        handout(program, text, **more)
    return str(raised.value)


# The page


def told(type_: str) -> str:
    """A type of a view in the words of the page."""
    plain = {"str": "text", "int": "number", "bool": "true or false", "tuple[str, str]": "two texts",
             "tuple[str, str, str]": "three texts", "tuple[str, ...]": "list of texts"}  # fmt: skip
    if type_ in plain:
        return plain[type_]
    if (each := re.fullmatch(r"tuple\[(.*), \.\.\.\]", type_)) is not None:
        return f"list of {told(each[1])}"
    if (by_name := re.fullmatch(r"Mapping\[str, (.*)\]", type_)) is not None:
        return f"{told(by_name[1])}, by `session.name`"
    if type_.endswith(" | None"):
        return f"{told(type_.removesuffix(' | None'))}, or nothing"
    assert type_ in {view.__name__ for view in VIEWS}
    return f"[{type_}](#{type_.lower()})"


def tables() -> dict[str, dict[str, str]]:
    """What the page says of each class: names, and what each is."""
    sections = re.split(r"^### ", PAGE, flags=re.MULTILINE)[1:]
    row = r"^\| `(\w+)` \| (.*?) \| .*\S \|$"
    return {section.split("\n", 1)[0]: dict(re.findall(row, section, re.MULTILINE)) for section in sections}


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.__name__)
def test_the_page_has_all_names_of_a_view_and_what_each_is(view: type):
    fields = {field.name: told(str(field.type)) for field in attrs.fields(view)}
    worked_out = {name: "true or false" for name, value in vars(view).items() if isinstance(value, property)}
    assert tables()[view.__name__] == fields | worked_out


def test_the_page_has_all_views_and_no_other():
    assert set(tables()) == {view.__name__ for view in VIEWS}


def test_the_page_has_all_files_and_values(program: Program, monkeypatch: pytest.MonkeyPatch):
    assert set(re.findall(r"^\| `([\w.]+\.jinja)` \|", PAGE, re.MULTILINE)) == set(REPLACED)
    given: set[str] = set()
    monkeypatch.setattr(
        "setwright.targets.handout.fill_html", lambda name, values, templates: given.update(values) or ""
    )
    monkeypatch.setattr("setwright.targets.short.fill_html", lambda name, values, templates: given.update(values) or "")
    monkeypatch.setattr(
        "setwright.targets.log_sheet.fill_html", lambda name, values, templates: given.update(values) or ""
    )
    built(program)
    section = PAGE.split("## What every template gets")[1].split("### Head")[0]
    assert set(re.findall(r"^\| `(\w+)` \|", section, re.MULTILINE)) == given | {"words"}


def test_the_handout_of_the_page_can_be_made(program: Program):
    example = re.findall(r"```jinja\n(.*?)```", PAGE, re.DOTALL)[0]
    page = handout(program, example)
    assert page.count("<h2>Main session</h2>") == 1 and "Goblet squat" in page and words.CAUTIONS[0] in page


# In the place of ours


def test_ours_under_their_own_names_make_the_same_sheets(program: Program, ewa: Fitting):
    """In the sandbox, too: so it knows all that ours need."""
    own = Templates("mine", tuple((name, (FOLDER / path).read_text("utf-8")) for name, path in REPLACED.items()))
    assert built(program, own) == built(program)
    assert pack(ewa, Printing(without=LEFT_OUT, templates=own)) == pack(ewa, Printing(without=LEFT_OUT))


def test_one_sheet_is_replaced_and_the_others_stay(program: Program):
    ours = built(program)
    files = built(program, mine(short__md=f"{CAUTIONS}{{{{ sheet.planned }}}} of {{{{ sheet.whole }}}}"))
    changed = {name for name, text in files.items() if text != ours[name]}
    assert changed == {"small-main-short-25min.md", "small-main-short-20min.md"}
    assert re.search(r"\d+ of \d+$", str(files["small-main-short-25min.md"]))


def test_the_style_alone(program: Program):
    files = built(program, mine(style__css="body { color: {{ head.accent or 'navy' }}; }"))
    assert "body { color: navy; }" in str(files["small-handout.html"])
    assert "body { color: navy; }" in str(files["small-log.html"])


def test_text_is_escaped_as_everywhere(program: Program):
    page = handout(attrs.evolve(program, title="<script>alert(1)</script>"), f"{CAUTIONS}{{{{ head.title }}}}")
    assert page.endswith("&lt;script&gt;alert(1)&lt;/script&gt;")


def test_parts_of_their_own(program: Program):
    assert handout(program, f'{CAUTIONS}{{% include "_end.jinja" %}}', _end="The end").endswith("The end")


# Where one is wrong


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("one\n{{ shete }}", "handout.html.jinja:2: There is nothing named `shete` here."),
        ("{{ head.titel }}", "handout.html.jinja:1: `Head` has no `titel`. Did you mean `title`?"),
        ("{% for s in sheet.sessions %}\n\n{{ s.blocks[0].entrys }}{% endfor %}",
         "handout.html.jinja:3: `PlannedBlock` has no `entrys`. Did you mean `entries`?"),
        ("{{ words.RULEZ }}", "handout.html.jinja:1: `Words` has no `RULEZ`."),
        ("\n{% for %}", "handout.html.jinja:2: Expected an expression, got 'end of statement block'."),
        ("{{ 'a' + 1 }}", 'handout.html.jinja:1: Can only concatenate str (not "int") to str.'),
        ("{{ 1 / 0 }}", "handout.html.jinja:1: Division by zero."),
        ("{{ head.title | shout }}", "handout.html.jinja:1: No filter named 'shout'."),
        ("\n{% include '_hed.jinja' %}",
         "handout.html.jinja:2: There is no template `_hed.jinja`. Did you mean `_head.jinja`?"),
        ("{% include '_head.jinja' %}", "_head.jinja:2: There is nothing named `x` here."),
        ("{% include '../../../etc/passwd' %}", "handout.html.jinja:1: There is no template `../../../etc/passwd`."),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_at_its_line(program: Program, text: str, sentence: str):
    assert trouble(program, text, _head="\n{{ x }}") == f"mine/{sentence}"


def test_a_caution_that_is_left_out(program: Program):
    assert "leaves out a caution" in trouble(program, "{{ cautions[0] }}")
    assert words.CAUTIONS[1] in trouble(program, "{{ cautions[0] }}")
    assert handout(program, CAUTIONS)
    for name in ("handout__md", "short__html", "short__md", "log__html"):
        with pytest.raises(TemplateTrouble, match="leaves out a caution"):
            built(program, mine(**{name: "Nothing"}))
        assert built(program, mine(**{name: CAUTIONS}))


# The sandbox


@pytest.mark.parametrize(
    "text",
    [
        "{{ ''.__class__ }}",
        "{{ head.__init__.__globals__ }}",
        "{{ words.minutes.__globals__ }}",
        "{{ words.minutes.__code__ }}",
        "{{ sheet.__class__.__mro__ }}",
        "{{ cycler.__init__.__globals__.os }}",
        "{{ '%s' | format(head) | attr('__class__') }}",
        "{{ '{0.__class__}'.format(head) }}",
        "{% set x = words.DAY_WORDS.update({'mon': 'x'}) %}",
        "{{ words.AXES }}",
        "{{ range(1000000000) | list }}",
        "{{ once.known }}{{ once.known.clear() }}",
    ],
)
def test_nothing_of_python_is_reached(program: Program, text: str):
    assert trouble(program, CAUTIONS + text).startswith("mine/handout.html.jinja:1: ")


def test_the_words_are_words():
    seen = vars(plain_words(words))
    assert {"RULES", "minutes", "DAY_WORDS"} <= set(seen)
    assert not {"AXES", "Quantity", "Callable", "annotations", "decimal_text"} & set(seen)


# Typed


PROGRAM = """use basics

program evening "Evening"
  session main "Main session", 2 a week
    block all
      must chair-stand 3 x 10
        advance reps by 1 to 15

athlete maren "Maren"
  has chair
  follows evening
"""


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "evening.coach").write_text(PROGRAM)
    (tmp_path / "mine").mkdir()
    return tmp_path


@pytest.mark.parametrize("people", [(), ("--for", "maren"), ("--for", "maren", "--jobs", "2")])
def test_a_build_with_templates(project: Path, people: tuple[str, ...], capsys: pytest.CaptureFixture[str]):
    command = ["build", ".", *people, "--templates", "mine"]
    (project / "mine" / "handout.md.jinja").write_text(f"{CAUTIONS}{{{{ head.tilte }}}}")
    assert main(command) == 2
    err = capsys.readouterr().err
    assert "mine/handout.md.jinja:1: `Head` has no `tilte`. Did you mean `title`?" in err and "Traceback" not in err
    (project / "mine" / "handout.md.jinja").write_text(f"{CAUTIONS}Mine: {{{{ head.title }}}}")
    assert main(command) == 0
    (made,) = (path for path in Path("sheets").rglob("*-handout.md"))
    assert made.read_text().endswith("Mine: Evening")
    assert main(command) == 0
    assert "already as they should be" in capsys.readouterr().out
    (project / "mine" / "handout.md.jinja").write_text(f"{CAUTIONS}Yours: {{{{ head.title }}}}")
    assert main(command) == 0
    assert made.read_text().endswith("Yours: Evening")
    assert main(command[:-2]) == 0
    assert "Yours" not in made.read_text()


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("handuot.html.jinja", b"", "replaces nothing. Did you mean `handout.html.jinja`"),
        ("handout.html", b"", "there is no template in mine"),
        ("handout.html.jinja", b"\xff\xfe", "is not written in UTF-8"),
        ("handout.html.jinja", b"x" * 1_000_001, "is larger than 1 MB"),
        ("handout.html.jinja", b"{% if", "mine/handout.html.jinja:1: "),
    ],
)
def test_a_folder_that_is_no_good(
    project: Path, name: str, content: bytes, told: str, capsys: pytest.CaptureFixture[str]
):
    (project / "mine" / name).write_bytes(content)
    for people in ((), ("--for", "maren")):
        assert main(["build", ".", *people, "--templates", "mine"]) == 2
        assert told in capsys.readouterr().err
    assert main(["build", ".", "--templates", "nowhere"]) == 2
    assert "nowhere cannot be read" in capsys.readouterr().err


def test_without_templates_there_is_no_sandbox():
    assert type(sheet.html_environment()).__name__ == "Environment"
    assert sheet.html_environment() is sheet.html_environment(OURS)
