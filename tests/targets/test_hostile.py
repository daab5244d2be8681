"""Text of a coach stays text: no tag, link, cell, heading, template or line of source comes out of it."""

from html.parser import HTMLParser
from typing import Any

import attrs
import pytest
from markdown_it import MarkdownIt
from setwright.compiler.model import Project
from setwright.grammar.source import Span
from setwright.targets import sheets
from setwright.targets.prose import SafeMarkdown, css_string, markdown_text, prose_html, prose_markdown
from setwright.targets.sheet import markdown_environment

HOSTILE = (
    "# <script>alert(1)</script> | a | b | {{ 7 * 1217 }} {% raw %} `code` ``` [x](javascript:alert(2)) ![i](http://a.b/c.png) "
    "<img src=x onerror=alert(3)> </style></title> &lt;b&gt; *x* _y_ ~~z~~ <http://a.b> \\| \\ ]( \"'"
)
# Fields whose text is a word of the language or of the model, not of the coach.
FIXED = {"name", "kind", "priority", "by", "unit", "units", "up", "bound", "fingerprint", "restarting", "patterns", "days",
         "loaded_by", "needs", "logs", "counts", "condition", "rpe", "ease"}  # fmt: skip
ALLOWED_TAGS = set(
    "html head meta title style body header p h1 h2 h3 dl div dt dd main aside ul ol li section table caption colgroup col thead "
    "tbody tfoot tr th td span svg text line desc rect path circle article strong em code br a "
    "script template footer dialog button details summary b".split()
)


def with_text(thing: Any, text: str) -> Any:
    """The same model with another text in every field that the coach fills with words."""
    if isinstance(thing, tuple):
        return tuple(with_text(each, text) for each in thing)
    if isinstance(thing, str):
        return text
    if not attrs.has(type(thing)) or isinstance(thing, Span):
        return thing
    fields = {field.name: getattr(thing, field.name) for field in attrs.fields(type(thing)) if field.name not in FIXED}
    return attrs.evolve(thing, **{name: with_text(value, text) for name, value in fields.items()})


@pytest.fixture(scope="module")
def hostile(program: Any) -> dict[str, str | bytes]:
    return sheets.build(Project(), with_text(program, HOSTILE))


@pytest.fixture(scope="module")
def harmless(program: Any) -> dict[str, str | bytes]:
    return sheets.build(Project(), with_text(program, "Plain words"))


class Page(HTMLParser):
    """The tags of a page, and what is in their attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(name, value or "") for name, value in attributes]


def files(sheet_files: dict[str, str | bytes], ending: str) -> list[tuple[str, str]]:
    return [(name, str(text)) for name, text in sheet_files.items() if name.endswith(ending)]


def test_no_tag_or_address_comes_from_text(hostile: dict[str, str | bytes]):
    for _, text in files(hostile, ".html"):
        page = Page(text)
        assert set(page.tags) <= ALLOWED_TAGS
        assert not [name for name, _ in page.attributes if name.startswith("on") or name == "src"]
        assert {value for name, value in page.attributes if name == "href"} <= {"http://a.b", "http://a.b/c.png"}
        assert page.tags.count("style") == 1
        assert page.tags.count("title") == 1 + page.tags.count(
            "desc"
        )  # those of pictures have a description beside them


def test_pages_keep_their_structure(hostile: dict[str, str | bytes], harmless: dict[str, str | bytes]):
    inline = {"code", "em", "strong", "a", "text"}  # in a picture a title takes one line or two
    for name, text in files(hostile, ".html"):
        tags, plain = ([tag for tag in Page(page).tags if tag not in inline] for page in (text, str(harmless[name])))
        assert tags == plain


def test_nothing_is_filled_in_twice(hostile: dict[str, str | bytes]):
    for _, text in files(hostile, ".html") + files(hostile, ".md"):
        assert "{{ 7" in text.replace("\\", "")
        assert "8519" not in text


def test_markdown_keeps_its_structure(hostile: dict[str, str | bytes], harmless: dict[str, str | bytes]):
    reader = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
    inline = {"inline", "text"}
    for name, text in files(hostile, ".md"):
        tokens, plain = reader.parse(text), reader.parse(str(harmless[name]))
        assert [token.type for token in tokens] == [token.type for token in plain]
        found = {child.type for token in tokens for child in token.children or ()} - inline
        assert found <= {"strong_open", "strong_close", "em_open", "em_close", "softbreak", "link_open", "link_close"}


def test_the_log_keeps_its_lines(hostile: dict[str, str | bytes], harmless: dict[str, str | bytes]):
    assert str(hostile["small-log.txt"]).count("\n") == str(harmless["small-log.txt"]).count("\n")


@pytest.mark.parametrize(
    ("text", "escaped"),
    [
        ("3 sets of 6", "3 sets of 6"),
        ("1. first", "1\\. first"),
        ("- item", "\\- item"),
        ("# head", "\\# head"),
        ("a | b", "a \\| b"),
        ("two\nlines", "two lines"),
        ("One-arm row (light)", "One-arm row (light)"),
    ],
)
def test_markdown_text(text: str, escaped: str):
    assert markdown_text(text) == escaped


def test_prose_keeps_emphasis_and_lists():
    text = "Stand *tall*, **slow**.\n\n- one\n- two\n  1. three\n\n[page](https://example.org)"
    assert (
        prose_markdown(text) == "Stand *tall*, **slow**.\n\n- one\n- two\n  1. three\n\n[page](<https://example.org>)"
    )
    assert "<em>tall</em>" in prose_html(text)
    assert MarkdownIt().render(prose_markdown(text)).count("<li>") == 3


def test_css_string():
    assert css_string('a"</style>') == '"a\\22 \\3c \\2f style\\3e "'


def test_what_is_kept_of_one_text_is_not_taken_for_another():
    """Markdown that is made already, and the same signs as plain text, are told apart however often they come."""
    finish = markdown_environment().finalize
    for _ in range(2):
        assert finish("*a*") == "\\*a\\*" and finish(SafeMarkdown("*a*")) == "*a*"
        assert finish(1) == "1" and finish(True) == "True"
