"""How the sheets are to be made, from options as they were typed."""

from __future__ import annotations

import argparse

from ..printing import KINDS, Printing


def printing_of(options: argparse.Namespace) -> Printing:
    """What the options ask for."""
    asked = {kind for kinds in options.without for kind in kinds}
    return Printing(options.paper, options.large, tuple(kind for kind in KINDS if kind in asked))
