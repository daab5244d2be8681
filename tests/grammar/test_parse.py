"""Reading texts: places, comments, recovery, and that no problem is told twice."""

from __future__ import annotations

import random
import threading
from pathlib import Path

import pytest
from setwright.grammar import nodes
from setwright.grammar.cleaning import read_source
from setwright.grammar.parse import parse
from setwright.grammar.source import Source

STATION = Path(__file__).resolve().parents[2] / "programs" / "tern-holm"
FILES = [*sorted(STATION.rglob("*.coach")), STATION.parent / "basics.coach"]


def walk(node):
    yield node
    if isinstance(node, nodes.Node):
        for child in node.children():
            yield from walk(child)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_node_and_word_of_the_station_stands_where_it_says(path):
    source, told = read_source(path.name, path.read_bytes())
    file, found = parse(source)
    assert told == found == []
    for placed in file.declarations:
        for part in walk(placed.node):
            text = file.span(placed, part).text
            if isinstance(part, nodes.Node):
                children = list(part.children())
                assert part.start_pos == min(child.start_pos for child in children if child.start_pos is not None)
                assert text.strip() == text and text
            elif str(part) != "total reps":
                assert text == str(part)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_comment_is_kept(path):
    text = path.read_text("utf-8")
    file, _ = parse(Source(path.name, text))
    whole_lines = [line.strip() for line in text.splitlines() if line.strip().startswith("#")]
    assert [text[c.start : c.end] for c in file.comments if c.alone] == whole_lines


def test_a_number_sign_in_a_text_or_in_prose_is_no_comment():
    text = 'movement sit # one\n  cue "number # two"\n  how\n    | # three\n'
    file, found = parse(Source("a.coach", text))
    assert found == []
    assert [text[c.start : c.end] for c in file.comments] == ["# one"]


def test_a_declaration_that_moved_is_the_same_tree():
    text = 'movement sit "Sit"\n  pattern squat\n'
    here, _ = parse(Source("a.coach", text))
    there, _ = parse(Source("a.coach", "# a comment\n\n" + text))
    first, second = here.declarations[0], there.declarations[0]
    assert first.node == second.node
    assert (first.node.start_pos, first.node.end_pos) == (second.node.start_pos, second.node.end_pos)
    assert second.offset == first.offset + len("# a comment\n\n")


@pytest.mark.parametrize("end", ["", "\n", "\n\n", "\n# done", "\n   "])
def test_any_end_of_a_file_reads_alike(end):
    file, found = parse(Source("a.coach", "group crew: maren, otto" + end))
    assert found == []
    assert file.declarations[0].node.members == ("maren", "otto")


def test_a_byte_order_mark_and_windows_line_ends_do_not_change_the_tree():
    text = 'movement sit "Sit"\n  pattern squat\n'
    plain, _ = parse(Source("a.coach", text))
    source, told = read_source("a.coach", b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    other, found = parse(source)
    assert [one.code for one in told] == ["windows-line-ends"]
    assert found == []
    assert other.declarations[0].node == plain.declarations[0].node


PROGRAM = """program easy "Easy"
  revision 1, 2026-06-14
  runs 12 weeks
  weeks 4, 8: sets by -1, load by -10%
  rest 60 s, change 45 s
  category legs required, counts squat and lunge
  session main "Main", 3 a week
    within 60 min
    block ready "Get ready", warm-up
      do march 1 x 3 min
    block legs "Legs"
      must squat 3 x 6, rest 75 s
        advance load, then reps by 1 to 10
        else stand 3 x 12
      key lunge 2 x 6 each side, lower 3 s
        advance lower by 1 s to 6 s
"""

FAULTS = [  # what is put in place of what, and the code it gives
    ("runs 12 weeks", "runs 12 weaks", "word-misspelt"),
    ("rest 60 s, change", "rest 60 s change", "comma-missing"),
    ("within 60 min", "within 60", "unit-missing"),
    ("within 60 min", "within 60 minutes", "unit-unknown"),
    ("within 60 min", "within", "line-unfinished"),
    ("session main", "sesion main", "word-misspelt"),
    ('session main "Main", 3', 'session main "Main", thrice', "line-not-understood"),
    ('block legs "Legs"', 'block Legs "Legs"', "name-not-lowercase"),
    ('block legs "Legs"', 'block legs "Legs', "quote-missing"),
    ("must squat 3 x 6", "must squat 3 by 6", "line-not-understood"),
    ("must squat", "mst squat", "word-misspelt"),
    ("advance load, then reps", "advanse load, then reps", "word-misspelt"),
    ("lower 3 s\n", "lower 2,5 s\n", "decimal-comma"),
    ("2 x 6 each side", "2 x 6\u20138 each side", "look-alike-character"),
    ("lower by 1 s", "lower by \u00a01 s", "look-alike-character"),
    ("      key lunge", "     key lunge", "indent-uneven"),
    ("    within 60 min", "      within 60 min", "indent-uneven"),
    ("  rest 60 s", "    rest 60 s", "indent-unexpected"),
    ("  runs 12 weeks", "  !!!", "line-not-understood"),
    ("  runs 12 weeks", "\truns 12 weeks", "tab-in-source"),
    ("3 x 12", "__ x __", "blank-left"),
    ("weeks 4", "wekks 4", "word-misspelt"),
    ("weeks 4, 8:", "weeks :", "line-not-understood"),
    ("4, 8:", "4, 8", "line-not-understood"),
    ("sets by -1", "sets -1", "line-not-understood"),
    ("load by -10%", "by -10%", "line-not-understood"),
    ("-1, load", "-1 load", "comma-missing"),
    ("sets by -1", "sets by \u22121", "look-alike-character"),
    ("sets by -1", "sets by", "line-not-understood"),
    ("-1, load by -10%", "", "line-unfinished"),
    ("2026-06-14", "99999999999", "number-too-long"),
]


@pytest.mark.parametrize(("right", "wrong", "code"), FAULTS, ids=[f"{code}: {wrong}" for _, wrong, code in FAULTS])
def test_one_fault_gives_one_problem_at_its_line(right, wrong, code):
    assert PROGRAM.count(right) >= 1
    text = PROGRAM.replace(right, wrong, 1)
    file, found = parse(Source("a.coach", text))
    assert [one.code for one in found] == [code]
    line = PROGRAM.count("\n", 0, PROGRAM.index(right)) + 1
    assert found[0].span.line - line == 0
    assert len(file.declarations) == 1


@pytest.mark.parametrize(("right", "wrong", "code"), FAULTS, ids=[f"{code}: {wrong}" for _, wrong, code in FAULTS])
def test_what_stands_beside_a_fault_is_still_read(right, wrong, code):
    """The other lines of the program keep their nodes; only what the fault itself makes unreadable may go."""
    whole = len(list(walk(parse(Source("a.coach", PROGRAM))[0].declarations[0].node)))
    kept = len(list(walk(parse(Source("a.coach", PROGRAM.replace(right, wrong, 1)))[0].declarations[0].node)))
    assert kept > whole * (0.55 if code == "indent-uneven" else 0.7)


@pytest.mark.parametrize(
    ("wrong", "place", "told"),
    [
        ("weeks 4, 8: sets by -1, by -2", "by", "what an easier week lowers (`sets by -1`, `load by -10%`)"),
        ("weeks 4, 8: by -2", "by", "what an easier week lowers (`sets by -1`, `load by -10%`)"),
        ("weeks 4, 8:", ":", "what an easier week lowers (`sets by -1`, `load by -10%`)"),
        ("weeks 4 sets by -1", "sets", "`and`, a comma or a colon"),
        ("weeks four: sets by -1", "four", "a whole number"),
    ],
)
def test_an_easier_week_that_lacks_something_is_told_at_its_place(wrong, place, told):
    text = PROGRAM.replace("weeks 4, 8: sets by -1, load by -10%", wrong)
    (found,) = parse(Source("a.coach", text))[1]
    assert (found.span.text, found.span.start) == (place, text.index(wrong) + wrong.rindex(place))
    assert told in found.help


@pytest.mark.parametrize(
    ("right", "wrong", "told"),
    [
        ("must squat 3", "must goblet squat 3", "If the two words are one name, write `goblet-squat`."),
        ("must squat 3", "must Squat 3", "Write `squat`."),
        ("rest 75 s", "rest 1 min 15 s", "A time is one figure: `75 s`."),
        ('"Main", 3 a week', '"Main", on Monday', "Write `mon`."),
        ('block legs "Legs"', 'block Legs "Legs"', "Write `legs`, and what people should read in quotes after it"),
    ],
)
def test_a_common_slip_is_told_as_it_should_stand(right, wrong, told):
    (found,) = parse(Source("a.coach", PROGRAM.replace(right, wrong, 1)))[1]
    assert told in found.help


def test_a_hundred_faults_give_a_hundred_problems():
    good = '  cue "Slow"\n'
    faults = ["  cue Slow\n", "  repp 3 s\n", "  rep 3\n", "  !!\n", "  needs\n"]
    picker = random.Random(7)
    text = ""
    broken = []
    for declaration in range(10):
        lines = [picker.choice(faults) if number % 10 == 5 else good for number in range(100)]
        text += f"movement m{declaration}\n"
        broken += [text.count("\n") + 1 + number for number, line in enumerate(lines) if line != good]
        text += "".join(lines)
    file, found = parse(Source("a.coach", text))
    assert [one.span.line for one in found] == broken
    assert len(broken) == 100
    assert len(file.declarations) == 10
    assert all(placed.damaged for placed in file.declarations)


def test_messages_never_show_a_name_of_the_grammar():
    """Every prefix of the program, and every word of it replaced: no message holds a terminal or a rule."""
    from setwright.grammar import tables

    parser = tables.load_parser(tables.Layout())
    inner = {terminal.name for terminal in parser.terminals} | {str(rule.origin.name) for rule in parser.rules}
    inner = {name for name in inner if "_" in name}
    texts = [PROGRAM[:cut] for cut in range(0, len(PROGRAM), 7)]
    words = PROGRAM.split(" ")
    texts += [" ".join([*words[:at], "???", *words[at + 1 :]]) for at in range(0, len(words), 3)]
    told = [one for text in texts for one in parse(Source("a.coach", text))[1]]
    assert len(told) > 60
    for one in told:
        assert not any(name in f"{one.message} {one.help}".replace("`__`", "") for name in inner), one


def test_many_threads_parse_at_once():
    results = []

    def work():
        for _ in range(5):
            results.append(len(parse(Source("a.coach", PROGRAM))[1]))

    threads = [threading.Thread(target=work) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert results == [0] * 40


def test_a_line_at_an_odd_depth_never_hides_the_others():
    """However far it is off, the other lines of the program are still read, and the line itself is told."""
    lines = PROGRAM.splitlines(keepends=True)
    for number in range(1, len(lines)):
        for shift in (-3, -1, 1, 3):
            depth = len(lines[number]) - len(lines[number].lstrip(" ")) + shift
            if depth < 1:
                continue
            text = "".join([*lines[:number], " " * depth + lines[number].lstrip(" "), *lines[number + 1 :]])
            file, found = parse(Source("a.coach", text))
            assert found
            assert len(file.declarations) == 1, text
            written = sum(isinstance(part, nodes.Entry) for part in walk(file.declarations[0].node))
            assert written >= 2, text
