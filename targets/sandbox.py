"""A coach's own templates filled in, in Jinja's sandbox.

A template there reads no file but the templates, and reaches nothing of Python but the values that it is given. It can
still take long, fill the memory, or write into a page whatever it likes: it is for templates of one's own. The cautions
of a sheet it must not leave out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import FunctionType, ModuleType, SimpleNamespace
from typing import Any

import attrs
from jinja2 import BaseLoader, Environment, StrictUndefined, TemplateNotFound, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from jinja2.utils import missing

from ..grammar.diagnostic import nearest, or_list
from .templates import PART, REPLACED, Templates, TemplateTrouble


class Missing(StrictUndefined):
    """A name that leads to nothing: told in a sentence, with the names that are near."""

    __slots__ = ()

    @property
    def _undefined_message(self) -> str:
        if self._undefined_hint:
            return _sentence(self._undefined_hint)
        name, thing = str(self._undefined_name), self._undefined_obj
        if thing is missing:
            return f"There is nothing named `{name}` here."
        known = [field.name for field in attrs.fields(type(thing))] if attrs.has(type(thing)) else []
        near = or_list(nearest(name, known))
        return f"`{type(thing).__name__}` has no `{name}`." + (f" Did you mean {near}?" if near else "")


class Words(SimpleNamespace):
    """The catalogue of words, as a template sees it."""


def plain_words(module: ModuleType) -> Words:
    """The words and phrases of a catalogue, and nothing else that it uses."""
    return Words(**{name: value for name, value in vars(module).items() if name[0] != "_" and _is_word(value, module)})


def _is_word(value: object, module: ModuleType) -> bool:
    if isinstance(value, dict):
        return all(_is_word(one, module) for one in value.values())
    if isinstance(value, tuple):
        return all(_is_word(one, module) for one in value)
    return isinstance(value, str) or (isinstance(value, FunctionType) and value.__module__ == module.__name__)


class OwnFirst(BaseLoader):
    """The coach's templates, each in the place of ours; else ours."""

    def __init__(self, templates: Templates, ours: BaseLoader) -> None:
        self.templates, self.ours = templates, ours
        self.own = {REPLACED.get(name, name): (name, text) for name, text in templates.texts}

    def get_source(self, environment: Environment, template: str) -> tuple[str, str | None, Callable[[], bool] | None]:
        if template in self.own:
            name, text = self.own[template]
            return text, path_of(self.templates, name), lambda: True
        return self.ours.get_source(environment, template)


def path_of(templates: Templates, name: str) -> str:
    """How a file of the coach's is told."""
    return f"{templates.folder}/{name}"


def sandboxed(templates: Templates, ours: BaseLoader, **options: Any) -> Environment:
    """An environment in which the coach's templates are filled in. Raises TemplateTrouble where one cannot be read."""
    environment = ImmutableSandboxedEnvironment(loader=OwnFirst(templates, ours), undefined=Missing, **options)
    for name, text in templates.texts:
        try:
            environment.parse(text, name, path_of(templates, name))
        except TemplateSyntaxError as error:
            raise _of_syntax(error) from None
    return environment


def fill(environment: Environment, template: str, values: Mapping[str, object], templates: Templates) -> str:
    """A template filled in. Raises TemplateTrouble where one of the coach's fails, or leaves a caution out."""
    try:
        made = environment.get_template(template).render(values)
    except TemplateSyntaxError as error:
        raise _of_syntax(error) from None
    except Exception as error:
        place = _place(error, templates)
        if place is None:
            raise
        raise TemplateTrouble(f"{place}: {_why(error, environment)}") from None
    _with_cautions(environment, template, values, templates, made)
    return made


def _of_syntax(error: TemplateSyntaxError) -> TemplateTrouble:
    return TemplateTrouble(
        f"{error.filename or error.name}:{error.lineno}: {_sentence(error.message or 'it is damaged')}"
    )


def _place(error: BaseException, templates: Templates) -> str | None:
    """The line of the coach's templates at which it went wrong; None where that was not in them."""
    paths = {path_of(templates, name) for name, _ in templates.texts}
    found, trace = None, error.__traceback__
    while trace is not None:
        if trace.tb_frame.f_code.co_filename in paths:
            found = f"{trace.tb_frame.f_code.co_filename}:{trace.tb_lineno}"
        trace = trace.tb_next
    return found


def _why(error: Exception, environment: Environment) -> str:
    if isinstance(error, TemplateNotFound):
        known = environment.loader.own if isinstance(environment.loader, OwnFirst) else {}
        near = or_list(nearest(str(error.name), [name for name in known if name.startswith(PART)]))
        return f"There is no template `{error.name}`." + (f" Did you mean {near}?" if near else "")
    return _sentence(str(error) or type(error).__name__)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")


def _with_cautions(
    environment: Environment, template: str, values: Mapping[str, object], templates: Templates, made: str
) -> None:
    """Raises TemplateTrouble where a caution of the sheet is missing from what was made by the coach's template."""
    name = next((own for own, _ in templates.texts if REPLACED.get(own) == template), None)
    cautions = values.get("cautions")
    if name is None or not isinstance(cautions, tuple):
        return
    alone = environment.from_string("{{ caution }}")
    for caution in cautions:
        if alone.render(caution=caution) not in made:
            raise TemplateTrouble(
                f"{path_of(templates, name)}: It leaves out a caution, and all `cautions` must stand on every sheet: "
                f"“{caution}”"
            )
