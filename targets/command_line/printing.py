"""How the sheets are to be made, from options as they were typed."""

from __future__ import annotations

import argparse

from ..printing import KINDS, Printing
from .own_templates import templates_at
from .terminal import Refusal, suggestion


def printing_of(options: argparse.Namespace) -> Printing:
    """What the options ask for. Raises Refusal where it cannot be had."""
    asked = {kind for kinds in options.without for kind in kinds}
    for kind in sorted(asked.difference(KINDS)):
        raise Refusal(f"--without leaves out {', '.join(KINDS)}, not `{kind}`. {suggestion(kind, KINDS)}")
    kept = tuple(kind for kind in KINDS if kind in asked)
    return Printing(options.paper, options.large, kept, templates_at(options.templates))
