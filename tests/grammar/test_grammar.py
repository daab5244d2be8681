"""The grammar itself: unambiguous, every word of it told in the coach's words, its stored tables its own."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from lark import Lark, Tree
from setwright.grammar import tables
from setwright.grammar.build import Build
from setwright.grammar.nodes import Program
from setwright.grammar.phrases import PHRASES, WORDS, expectations, phrase

STATION = Path(__file__).resolve().parents[2] / "programs"


def plain_lark(**options: object) -> Lark:
    return Lark(tables.grammar_text(), parser="lalr", lexer="contextual", postlex=tables.Layout(), **options)  # type: ignore[call-overload]


def test_no_two_terminals_and_no_two_rules_collide():
    pytest.importorskip("interegular")
    plain_lark(start=["declaration", "file"], strict=True)


def test_the_stored_tables_were_made_from_this_grammar_by_this_lark():
    stored = json.loads(Path(tables.__file__).with_name("coach.tables.json").read_text("utf-8"))
    of_lark, of_grammar = stored["made_from"].split(", ")
    assert of_grammar == tables._made_from().split(", ")[1], "run: python -m setwright.grammar.tables"
    assert of_lark.startswith("lark 1.")
    again = json.loads(tables.make_tables())
    assert again["data"].keys() == stored["data"].keys()


def test_stored_tables_and_the_grammar_give_the_same_tree():
    text = (STATION / "tern-holm" / "winter-store-room.coach").read_text("utf-8")
    piece = text[text.index("\nprogram ") + 1 :]
    from_tables = tables.load_parser(tables.Layout()).parse(piece)
    built = tables.build_parser(tables.Layout()).parse(piece)
    assert isinstance(from_tables, Program)
    assert from_tables == built


def test_in_every_state_of_the_parser_each_word_has_a_phrase():
    parser = plain_lark(start="declaration")
    states = parser.parser.parser._parse_table.states  # type: ignore[attr-defined]
    terminals = {terminal.name for terminal in parser.terminals} | {"_INDENT", "_DEDENT", "$END"}
    seen = set()
    for actions in states.values():
        for terminal in actions:
            if terminal in terminals:
                seen.add(terminal)
    assert len(states) > 500
    assert seen >= terminals - {"WORD", "QUOTE", "__IGNORE_0"}
    for terminal in sorted(seen):
        told = phrase(terminal)
        assert terminal in PHRASES or terminal.lower() in WORDS, f"{terminal} has no phrase"
        assert terminal not in told, told
        assert "_" not in told.replace("`__`", ""), told


def test_every_word_of_the_phrases_is_a_word_of_the_grammar():
    spelt = {
        terminal.pattern.value for terminal in plain_lark(start="file").terminals if terminal.pattern.type == "str"
    }
    assert spelt - {",", ":", "-"} == WORDS


def test_expectations_name_a_few_things_and_no_more():
    told = expectations({"TIME", "INT", "NAME", "STRING", "REST", "_NL", "WORD", "QUOTE"}, most=3)
    assert told.count(" or ") == 1
    assert told.count("`") // 2 <= 4
    assert "WORD" not in told


def test_every_rule_builds_a_node():
    parser = plain_lark(start="declaration")
    for rule in parser.rules:
        name = rule.alias or rule.origin.name
        if str(name).startswith("_") or rule.options.expand1:
            continue
        assert hasattr(Build, str(name)), f"nothing builds {name}"


@pytest.mark.parametrize("word", sorted(WORDS))
def test_a_word_of_the_language_may_be_a_name(word):
    tree = tables.load_parser(tables.Layout()).parse(f"group {word}: {word}\n")
    assert tree.name == word


@pytest.mark.parametrize("glued", ["sectiona", "keyx", "restx", "muster"])
def test_a_word_does_not_fall_apart_into_a_keyword_and_a_rest(glued):
    tree = tables.load_parser(tables.Layout()).parse(f"group {glued}: {glued}\n")
    assert tree.name == glued


def test_the_bare_grammar_reads_whole_files():
    for path in sorted(STATION.rglob("*.coach")):
        assert isinstance(plain_lark(start="file").parse(path.read_text("utf-8") + "\n"), Tree)
