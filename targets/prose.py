"""The coach's prose and plain strings, made safe for HTML, Markdown and CSS.

Prose may use emphasis, lists, links and code words of CommonMark; raw HTML, headings and images are off, so that no text of
a coach can load something, leave its place on a sheet or break the outline.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markdown_it.tree import SyntaxTreeNode
from markupsafe import Markup

_ALLOWED = ["list", "emphasis", "link", "autolink", "newline", "escape", "entity", "backticks"]


class SafeMarkdown(str):
    """Text that is Markdown already, and is not escaped again."""

    __slots__ = ()


@cache
def _reader() -> MarkdownIt:
    reader = MarkdownIt("zero", {"html": False}).enable(_ALLOWED)
    reader.add_render_rule("link_open", _plain_link)
    return reader


def _plain_link(self: object, tokens: list[Token], index: int, options: object, env: object) -> str:
    """A link that tells the page it leads to nothing about the sheet it stands on."""
    href = Markup.escape(str(tokens[index].attrGet("href") or ""))
    return f'<a href="{href}" rel="noopener noreferrer">'


def prose_html(text: str) -> Markup:
    """The coach's prose as HTML."""
    return Markup(_reader().render(text))


def prose_markdown(text: str) -> SafeMarkdown:
    """The coach's prose as Markdown that means the same and nothing more."""
    return SafeMarkdown(_blocks(SyntaxTreeNode(_reader().parse(text)).children))


def prose_pieces(text: str) -> list[dict[str, Any]]:
    """The coach's prose as typed pieces, for whatever sets them itself: nothing in them is markup any more.

    A block is a `paragraph` with `pieces`, each a style and a text (a `link` with its address, too), or a list of `bullets`
    or `numbers` with `items`, which are blocks again.
    """
    return [_typed(node) for node in SyntaxTreeNode(_reader().parse(text)).children]


def _typed(node: SyntaxTreeNode) -> dict[str, Any]:
    if node.type in {"bullet_list", "ordered_list"}:
        items = [[_typed(child) for child in item.children] for item in node.children]
        kind = "bullets" if node.type == "bullet_list" else "numbers"
        return {"kind": kind, "start": int(str(node.attrs.get("start", 1))), "items": items}
    pieces: list[list[str]] = []
    for piece in _pieces(node, "plain", ""):
        if pieces and piece[0] in {"plain", "em", "strong"} and pieces[-1][0] == piece[0]:
            pieces[-1][1] += piece[1]
        else:
            pieces.append(piece)
    return {"kind": "paragraph", "pieces": pieces}


def _pieces(node: SyntaxTreeNode, style: str, href: str) -> Iterator[list[str]]:
    match node.type:
        case "hardbreak":
            yield ["break", ""]
            return
        case "em" if style == "plain":
            style = "em"
        case "strong" | "code_inline":
            style = "strong"
        case "link":
            href = str(node.attrs.get("href", ""))
    told = " " if node.type == "softbreak" else node.content if not node.children else ""
    if told:
        yield ["link", told, href] if href else [style, told]
    for child in node.children:
        yield from _pieces(child, style, href)


def nested(text: SafeMarkdown, depth: int = 2) -> SafeMarkdown:
    """Markdown that stands within an item of a list."""
    return SafeMarkdown(text.replace("\n", "\n" + " " * depth))


def _blocks(nodes: list[SyntaxTreeNode], tight: bool = False) -> str:
    return ("\n" if tight else "\n\n").join(_block(node) for node in nodes)


def _block(node: SyntaxTreeNode) -> str:
    if node.type in {"bullet_list", "ordered_list"}:
        return "\n".join(_item(item, number, node) for number, item in enumerate(node.children))
    return _inside(node)


def _item(item: SyntaxTreeNode, number: int, parent: SyntaxTreeNode) -> str:
    start = int(str(parent.attrs.get("start", 1)))
    mark = "- " if parent.type == "bullet_list" else f"{start + number}. "
    return mark + _blocks(item.children, tight=True).replace("\n", "\n" + " " * len(mark))


def _inside(node: SyntaxTreeNode) -> str:
    """What stands in a node; a `!` before a link must not make an image of it."""
    told = ""
    for child in node.children:
        if child.type == "link" and told.endswith("!"):
            told = told[:-1] + "\\!"
        told += _inline(child)
    return told


def _inline(node: SyntaxTreeNode) -> str:
    inside = _inside(node)
    match node.type:
        case "inline":
            return inside
        case "em":
            return f"*{inside}*"
        case "strong":
            return f"**{inside}**"
        case "link":
            return f"[{inside}](<{re.sub('[<>]', '', str(node.attrs.get('href', '')))}>)"
        case "softbreak":
            return "\n"
        case "hardbreak":
            return "\\\n"
        case _:
            return markdown_text(node.content)


def markdown_text(text: str) -> str:
    """Plain text on one line in which nothing is Markdown or HTML: no cell, list, heading, link or tag can begin in it."""
    if text.isalnum():
        return text
    one_line = " ".join(text.split())
    if not one_line:
        return " " if text else ""
    escaped = re.sub(r"([\\`*_\[\]<>|~&$])", r"\\\1", one_line)
    escaped = f"{' ' if text[0].isspace() else ''}{escaped}{' ' if text[-1].isspace() else ''}"
    return re.sub(r"^( ?)(#|[-+=](?=\s|[-=]|$)|\d+(?=[.)](?:\s|$)))", _escape_start, escaped)


def _escape_start(match: re.Match[str]) -> str:
    """A first sign that would make a heading or a list of a line; a number keeps its figure and loses its list."""
    return f"{match[1]}\\{match[2]}" if not match[2].isdigit() else f"{match[1]}{match[2]}\\"


def finish_markdown(value: object) -> object:
    """What an expression in a Markdown template puts out: text is escaped unless it is Markdown already."""
    return value if isinstance(value, SafeMarkdown) else markdown_text(str(value))


def plain_line(value: object) -> str:
    """Text of one line of a source, blanks as they are: nothing in it can begin a line or end a string."""
    return re.sub(r"[\r\n\x0b\x0c\x1c-\x1e\x85\u2028\u2029]", " ", str(value)).replace('"', "'")


def css_string(text: str) -> Markup:
    """A string of CSS: every sign but a plain letter or figure is written as its number."""
    escaped = "".join(sign if sign.isascii() and sign.isalnum() else f"\\{ord(sign):x} " for sign in text)
    return Markup(f'"{escaped}"')
