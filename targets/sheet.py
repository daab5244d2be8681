"""What all sheets share: the head, the cautions, the legend, and the environments that fill in the templates."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import suppress
from functools import cache, lru_cache
from itertools import islice
from pathlib import Path

import attrs
from jinja2 import Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket
from jinja2.runtime import Macro
from markupsafe import Markup

from ..compiler.model import DAYS, PRIORITIES, Athlete, Program, Session
from . import telling, words
from .prose import SafeMarkdown, css_string, finish_markdown, nested, plain_line, prose_html, prose_markdown

_FOLDER = Path(__file__).parent
_PARTS = 2000  # of a template, to a piece


@attrs.frozen
class Head:
    """What stands on top of a sheet, and in small on every page of it."""

    kind: str
    title: str
    subtitle: str
    facts: tuple[tuple[str, str], ...]
    edition: str
    running: str
    draft: bool


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
    return Head(kind, program.title, subtitle, told, edition, running, program.damaged)


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

    MOST = 4096

    def __init__(self, finished: Callable[[str], str]) -> None:
        self.finished, self.known = finished, dict[tuple[object, ...], str]()

    def __call__(self, macro: Macro, *values: Hashable) -> str:
        key = (macro.name, *values)
        if key not in self.known:
            if len(self.known) >= self.MOST:
                self.known.clear()
            self.known[key] = self.finished(macro(*values))
        return self.known[key]


# The same texts stand on the sheets of many people. By type, too: Markdown that is made already equals the same as plain text.
kept = lru_cache(maxsize=8192, typed=True)


@cache
def html_environment() -> Environment:
    """Templates of HTML: all text is escaped unless it was made as HTML."""
    environment = _environment("html", autoescape=True)
    environment.filters |= {"prose": kept(prose_html), "css_string": css_string}
    environment.globals["once"] = Once(Markup)
    return environment


@cache
def markdown_environment() -> Environment:
    """Templates of Markdown: all text is escaped unless it was made as Markdown."""
    environment = _environment("md", autoescape=False)
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


def _environment(kind: str, autoescape: bool) -> Environment:
    environment = Environment(
        loader=FileSystemLoader(_FOLDER),
        undefined=StrictUndefined,
        autoescape=autoescape,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        bytecode_cache=_Compiled.kept(kind),
    )
    environment.globals["words"] = words
    return environment


def fill_html(template: str, values: Mapping[str, object]) -> str:
    """A template of HTML filled in."""
    return html_environment().get_template(template).render(values)


def fill_markdown(template: str, values: Mapping[str, object]) -> str:
    """A template of Markdown filled in."""
    return markdown_environment().get_template(template).render(values)


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
