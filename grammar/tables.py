"""The parser, ready-made: building its tables from the grammar takes longer than all the rest of a check.

The tables stand beside the grammar as `coach.tables.json`, made by `python -m setwright.grammar.tables`: plain data that is
only read, so that a read-only or shared folder is as good as any other. They are used when they were made from this very
grammar by this very Lark; otherwise the parser is built from the grammar, which gives the same parser, later.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import lark
from lark import Lark, Token
from lark.indenter import Indenter

from .build import Build

START = "declaration"
_HERE = Path(__file__).parent


class Layout(Indenter):
    """Indentation as tokens, and two ways to read on after a slip.

    `mended` gives misspelt words at known offsets their right kind and spelling; `snapped` gives lines whose text begins at
    known offsets the depth at which they were meant.
    """

    NL_type = "_NL"
    OPEN_PAREN_types: list[str] = []  # noqa: RUF012 (the base class asks for lists)
    CLOSE_PAREN_types: list[str] = []  # noqa: RUF012
    INDENT_type = "_INDENT"
    DEDENT_type = "_DEDENT"
    tab_len = 1
    # Lexed everywhere: a word never falls apart into a keyword and a rest, and every surprise is one whole word.
    always_accept = ("_NL", "NAME", "WORD", "QUOTE")

    def __init__(self) -> None:
        super().__init__()
        self.mended: dict[int, tuple[str, str]] = {}
        self.snapped: dict[int, int] = {}

    def handle_NL(self, token: Token) -> Iterator[Token]:
        depth = self.snapped.get(token.end_pos or 0)
        meant = token if depth is None else Token.new_borrow_pos(token.type, "\n" + " " * depth, token)
        tokens: Iterator[Token] = super().handle_NL(meant)
        return tokens

    def process(self, stream: Iterator[Token]) -> Iterator[Token]:
        tokens: Iterator[Token] = super().process(self._mend(stream) if self.mended else stream)  # type: ignore[no-untyped-call]
        return tokens

    def _mend(self, stream: Iterator[Token]) -> Iterator[Token]:
        for token in stream:
            mend = self.mended.get(token.start_pos or 0) if token.type in ("NAME", "WORD") else None
            yield token if mend is None else Token.new_borrow_pos(*mend, token)


def grammar_text() -> str:
    """The grammar, `coach.lark`."""
    return _HERE.joinpath("coach.lark").read_text("utf-8")


def build_parser(layout: Layout) -> Lark:
    """The parser, built from the grammar."""
    return Lark(grammar_text(), parser="lalr", lexer="contextual", postlex=layout, start=START, transformer=Build())


def load_parser(layout: Layout) -> Lark:
    """The parser, out of the tables where they fit, else built."""
    stored = _HERE / "coach.tables.json"
    if stored.is_file():
        tables = json.loads(stored.read_text("utf-8"))
        if tables["made_from"] == _made_from():
            return _from_tables(tables, layout)
    return build_parser(layout)


def make_tables() -> str:
    """The text of `coach.tables.json` for the grammar and the Lark at hand."""
    from lark.grammar import Rule
    from lark.lexer import TerminalDef

    parser = Lark(grammar_text(), parser="lalr", lexer="contextual", postlex=Layout(), start=START)
    data, memo = parser.memo_serialize([TerminalDef, Rule])
    data["options"]["postlex"] = None
    tables = {"made_from": _made_from(), "data": data, "memo": memo}
    return json.dumps(tables, separators=(",", ":"), sort_keys=True) + "\n"


def _made_from() -> str:
    return f"lark {lark.__version__}, grammar {hashlib.sha256(grammar_text().encode()).hexdigest()}"


def _from_tables(tables: dict[str, Any], layout: Layout) -> Lark:
    # JSON has no numbers as keys; the parser's states and the memo have nothing else.
    table = tables["data"]["parser"]["parser"]
    table["states"] = {int(state): actions for state, actions in table["states"].items()}
    memo = {int(key): value for key, value in tables["memo"].items()}
    # Lark's own stand-alone parsers come to life by this same call.
    parser: Lark = Lark._load_from_dict(tables["data"], memo, postlex=layout, transformer=Build())  # type: ignore[no-untyped-call]
    return parser


if __name__ == "__main__":
    (_HERE / "coach.tables.json").write_text(make_tables(), "utf-8")
