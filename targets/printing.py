"""How sheets are made: the paper, large print for everybody, and kinds of files that are left out."""

from __future__ import annotations

from typing import Literal, TypeAlias, get_args

import attrs

Paper: TypeAlias = Literal["a4", "letter"]
Kind: TypeAlias = Literal["tables", "pdf"]
PAPERS: tuple[Paper, ...] = get_args(Paper)
KINDS: tuple[Kind, ...] = get_args(Kind)


@attrs.frozen
class Printing:
    """What whoever builds asks for: `tables` are the logs as CSV and XLSX, `pdf` the sheets for paper."""

    paper: Paper = "a4"
    large: bool = False
    without: tuple[Kind, ...] = ()


USUAL = Printing()
