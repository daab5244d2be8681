"""How sheets are made: the paper, large print for everybody, kinds of files that are left out, and a coach's own templates."""

from __future__ import annotations

from typing import Literal, TypeAlias, get_args

import attrs

from .templates import OURS, Templates

Paper: TypeAlias = Literal["a4", "letter"]
Kind: TypeAlias = Literal["tables", "pdf", "phone", "calendar"]
PAPERS: tuple[Paper, ...] = get_args(Paper)
KINDS: tuple[Kind, ...] = get_args(Kind)


@attrs.frozen
class Printing:
    """What whoever builds asks for.

    Of what may be left out `tables` are the logs as CSV and XLSX, `pdf` the sheets for paper, `phone` the logs to fill in on
    one, and `calendar` that of an athlete.
    """

    paper: Paper = "a4"
    large: bool = False
    without: tuple[Kind, ...] = ()
    templates: Templates = OURS

    @property
    def parts(self) -> tuple[str, ...]:
        """What stands for all of it."""
        return (self.paper, str(self.large), *self.without, "", *self.templates.parts)


USUAL = Printing()
