"""What all sheets share: the head, the cautions, the legend, and the environments that fill in the templates."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import suppress
from functools import cache, lru_cache
from itertools import islice
from pathlib import Path
from typing import Any

import attrs
from jinja2 import Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket
from jinja2.runtime import Macro
from markupsafe import Markup

from ..compiler.model import DAYS, PRIORITIES, Athlete, Look, Picture, Program, Session
from ..compiler.remembering import Last
from . import telling, words
from .prose import SafeMarkdown, css_string, finish_markdown, nested, plain_line, prose_html, prose_markdown
from .templates import OURS, Templates

_FOLDER = Path(__file__).parent
_PARTS = 2000  # of a template, to a piece


@attrs.frozen
class Letterhead:
    """What a program brings to the top of its sheets: lines of text, a logo as an address that holds it, and what it shows."""

    lines: tuple[str, ...]
    logo: str
    shows: str


@attrs.frozen
class Head:
    """What stands on top of a sheet, and in small on every page of it; an accent as `#1f5c4a`, "" for ours."""

    kind: str
    title: str
    subtitle: str
    facts: tuple[tuple[str, str], ...]
    edition: str
    running: str
    draft: bool
    letterhead: Letterhead | None = None
    accent: str = ""


@attrs.frozen
class Mark:
    """One of the four marks: its word, its sign where nothing can be drawn, and what it means."""

    word: str
    sign: str
    meaning: str


def file_stem(program: Program) -> str:
    """What the names of a program's files begin with: for an athlete's own with their name."""
    return program.name if program.athlete is None else f"{program.athlete.name}-{program.name}"


def prints_large(program: Program) -> bool:
    """Whether the athlete whose program it is asks for large print."""
    return program.athlete is not None and "large" in program.athlete.prints


def head(program: Program, kind: str, session: Session | None = None, title: str = "") -> Head:
    """The head of a sheet of a program, or of one session of it."""
    revision = str(program.revision) + (f", {telling.day(program.dated)}" if program.dated else "")
    fingerprint = program.fingerprint[:12]
    asking = words.ask(program.ask_by) if program.ask_by else ""
    facts = (
        (words.FOR, program.athlete.title if program.athlete else program.audience),
        *(_days(program, program.athlete) if program.athlete else ()),
        (words.COACH, " ".join(filter(None, (program.coach and words.sentence(program.coach), asking)))),
        (words.REVISION, revision),
        (words.RUNS, words.weeks(program.weeks) if program.weeks else ""),
        (words.AFTER, words.your_session(telling.day(program.after)) if program.after else ""),
        (words.SOURCE, fingerprint),
    )
    subtitle = title or (session.title if session else "")
    who = program.athlete.title if program.athlete else ""
    running = words.running_head(who, program.title, subtitle, program.revision)
    told = tuple((name, fact) for name, fact in facts if fact)
    edition = words.edition(revision, fingerprint)
    look = program.look
    return Head(kind, program.title, subtitle, told, edition, running, program.damaged, letterhead(look), look.accent)


def letterhead(look: Look) -> Letterhead | None:
    """The letterhead of a program, None where it brings none."""
    if look.logo is None and not look.letterhead:
        return None
    logo = _address(look.logo) if look.logo is not None else ""
    return Letterhead(look.letterhead, logo, look.shows if look.letterhead else look.told)


@lru_cache(maxsize=16)
def _address(picture: Picture) -> str:
    """An address that holds the whole picture, so that a page needs no other file."""
    return f"data:image/{picture.kind};base64,{b64encode(picture.data).decode()}"


def _days(program: Program, athlete: Athlete) -> tuple[tuple[str, str], ...]:
    """The days on which an athlete trains and the first of them, as far as they are said and no session has others.

    A session of every day is no other.
    """
    first = telling.day(athlete.starts) if athlete.starts is not None else ""
    told = words.joined([words.DAY_WORDS.get(day, day) for day in athlete.days])
    others = (session.days for session in program.sessions if len(session.days) < len(DAYS))
    if told and all(set(days) <= set(athlete.days) for days in others):
        return ((words.YOUR_DAYS, words.days_from(told, first) if first else told),)
    return ((words.YOU_BEGIN, first),) if first else ()


def marks() -> tuple[Mark, ...]:
    """The legend of the priorities, from what may never go to what goes first."""
    return tuple(Mark(word, words.PRIORITY_SIGNS[word], words.PRIORITY_MEANINGS[word]) for word in PRIORITIES)


class Once:
    """Pieces of a sheet that are filled in once for all sheets on which they are the same.

    A piece is a macro of a template, which must use nothing but its arguments and what all templates know. Most of a handout
    is how movements are done: for the people of a program that is filled in a few times, not for each of them.
    """

    def __init__(self, finished: Callable[[str], str]) -> None:
        self.finished, self.known = finished, Last[str](1024)

    def __call__(self, macro: Macro, *values: Hashable) -> str:
        key = (macro.name, *values)
        return self.known.of(key, lambda: self.finished(macro(*values)))


# The same texts stand on the sheets of many people. By type, too: Markdown that is made already equals the same as plain text.
kept = lru_cache(maxsize=4096, typed=True)


def html_environment(templates: Templates = OURS) -> Environment:
    """Templates of HTML: all text is escaped unless it was made as HTML."""
    return _html(templates)


@lru_cache(maxsize=4)
def _html(templates: Templates) -> Environment:
    environment = _environment("html", autoescape=True, templates=templates)
    environment.filters |= {"prose": kept(prose_html), "css_string": css_string}
    environment.globals["once"] = Once(Markup)
    return environment


def markdown_environment(templates: Templates = OURS) -> Environment:
    """Templates of Markdown: all text is escaped unless it was made as Markdown."""
    return _markdown(templates)


@lru_cache(maxsize=4)
def _markdown(templates: Templates) -> Environment:
    environment = _environment("md", autoescape=False, templates=templates)
    environment.finalize = kept(finish_markdown)
    environment.filters |= {"prose": kept(prose_markdown), "nested": nested}
    environment.globals["once"] = Once(lambda text: SafeMarkdown(text.rstrip("\n")))
    return environment


@cache
def text_environment() -> Environment:
    """Templates of the language itself: every text on one line, without the signs that would end its string."""
    environment = _environment("txt", autoescape=False)
    environment.finalize = plain_line
    return environment


class _Compiled(FileSystemBytecodeCache):
    """Compiled templates, kept for later runs where the system keeps what is temporary; where it lets nobody, nothing is."""

    @classmethod
    def kept(cls, kind: str) -> _Compiled | None:
        """Those of a kind of templates: the same template is compiled otherwise for another."""
        try:
            return cls(pattern=f"setwright-{kind}-%s.cache")
        except (OSError, RuntimeError):
            return None

    def load_bytecode(self, bucket: Bucket) -> None:
        with suppress(OSError):
            super().load_bytecode(bucket)

    def dump_bytecode(self, bucket: Bucket) -> None:
        with suppress(OSError):
            super().dump_bytecode(bucket)


def _environment(kind: str, autoescape: bool, templates: Templates = OURS) -> Environment:
    ours = FileSystemLoader(_FOLDER)
    options: dict[str, Any] = {
        "autoescape": autoescape,
        "trim_blocks": True,
        "lstrip_blocks": True,
        "keep_trailing_newline": True,
        "auto_reload": False,
    }
    if templates.texts:
        from .sandbox import plain_words, sandboxed  # only where a coach brings templates

        environment = sandboxed(templates, ours, **options)
        environment.globals["words"] = plain_words(words)
        return environment
    compiled = _Compiled.kept(kind)
    environment = Environment(loader=ours, undefined=StrictUndefined, bytecode_cache=compiled, **options)
    environment.globals["words"] = words
    return environment


def fill_html(template: str, values: Mapping[str, object], templates: Templates = OURS) -> str:
    """A template of HTML filled in, or that which a coach brings in its place."""
    return _filled(html_environment(templates), template, values, templates)


def fill_markdown(template: str, values: Mapping[str, object], templates: Templates = OURS) -> str:
    """A template of Markdown filled in, or that which a coach brings in its place."""
    return _filled(markdown_environment(templates), template, values, templates)


def _filled(environment: Environment, template: str, values: Mapping[str, object], templates: Templates) -> str:
    if not templates.texts:
        return environment.get_template(template).render(values)
    from .sandbox import fill

    return fill(environment, template, values, templates)


def fill_text(template: str, values: Mapping[str, object]) -> str:
    """A template of plain text filled in."""
    return text_environment().get_template(template).render(values)


def stream_html(template: str, values: Mapping[str, object]) -> Iterator[str]:
    """A template of HTML filled in piece by piece: what it goes through is never there as a whole."""
    return _pieces(html_environment().get_template(template).generate(values))


def stream_markdown(template: str, values: Mapping[str, object]) -> Iterator[str]:
    """A template of Markdown filled in piece by piece."""
    return _pieces(markdown_environment().get_template(template).generate(values))


def _pieces(parts: Iterator[str]) -> Iterator[str]:
    """The parts joined to pieces that are worth writing."""
    while piece := "".join(islice(parts, _PARTS)):
        yield piece
