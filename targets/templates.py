"""A coach's own templates, which take the place of ours: what they are called, and what is told where one is wrong.

How they are filled in says `sandbox.py`; the values that they get stand in `TEMPLATES.md`.
"""

from __future__ import annotations

import attrs

# What a file is called in the coach's folder, and in whose place it comes.
REPLACED = {
    "handout.html.jinja": "handout/handout.html.jinja",
    "handout.md.jinja": "handout/handout.md.jinja",
    "short.html.jinja": "short/short.html.jinja",
    "short.md.jinja": "short/short.md.jinja",
    "log.html.jinja": "log_sheet/log.html.jinja",
    "style.css.jinja": "style.css.jinja",
}
PART = "_"  # what the names of parts begin with, which only other templates of the coach take in
ENDING = ".jinja"


class TemplateTrouble(Exception):
    """A template that cannot be filled in: its place, and a sentence that says why."""


@attrs.frozen
class Templates:
    """The texts of a coach's templates by the names of their files, and the folder in which these stand."""

    folder: str = ""
    texts: tuple[tuple[str, str], ...] = attrs.field(default=(), repr=False)

    @property
    def parts(self) -> tuple[str, ...]:
        """What stands for them: names and texts."""
        return tuple(part for item in self.texts for part in item)


OURS = Templates()
