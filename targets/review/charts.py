"""The small picture of a movement: a Vega-Lite specification, rendered to SVG by `vl-convert-python` without a network.

Everything is black on white: a line, rings, a diamond and dashes tell things apart, and no colour does. Nobody's words go into
a specification: title and description are put in as escaped text afterwards.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from importlib.util import find_spec
from typing import Any

import attrs
from markupsafe import Markup

WIDTH, HEIGHT = 330, 96
RINGS = 80  # sessions, up to which each has a ring of its own
SCHEMA = "https://vega.github.io/schema/vega-lite/v5.json"
VERSION = "5.21"  # of Vega-Lite; the converter carries it
_FONT = "Arial, Liberation Sans, sans-serif"


@attrs.frozen
class Drawing:
    """What a picture draws: a figure for each session (None: a gap in the line), the place of the best, and the trend.

    `breaks` are the places at which a new stretch of the line begins. `trend` is the line's first place, and its heights at
    that and at the last. `axis` and `unit` are words of the catalogue.
    """

    figures: tuple[float | None, ...]
    best: int
    breaks: tuple[int, ...]
    trend: tuple[int, float, float] | None
    axis: str
    unit: str


def available() -> bool:
    """Whether the converter is installed."""
    return find_spec("vl_convert") is not None


def draw(drawing: Drawing, key: str, title: str, description: str) -> Markup:
    """The picture as SVG for a page, with its title and description for whoever hears it."""
    import vl_convert  # 95 MB on the disk: loaded only where pictures are drawn

    svg: str = vl_convert.vegalite_to_svg(specification(drawing), vl_version=VERSION)
    return _dressed(svg, key, title, description)


def specification(drawing: Drawing) -> dict[str, Any]:
    """The Vega-Lite specification of a drawing."""
    return {
        "$schema": SCHEMA,
        "width": WIDTH,
        "height": HEIGHT,
        "background": None,
        "padding": 4,
        "title": {"text": drawing.unit, "anchor": "start", "fontSize": 12, "fontWeight": "bold", "offset": 6},
        "config": {"font": _FONT, "view": {"stroke": None}, "title": {"color": "#000", "font": _FONT}},
        "encoding": {"x": _x(drawing), "y": _y()},
        "layer": list(_layers(drawing)),
    }


def _x(drawing: Drawing) -> dict[str, Any]:
    ends = [1, max(len(drawing.figures), 2)]
    axis = {"title": drawing.axis, "tickMinStep": 1, "tickCount": 6, "grid": False, "format": "d", **_BLACK}
    return {"field": "x", "type": "quantitative", "scale": {"domain": ends, "nice": False, "padding": 6}, "axis": axis}


def _y() -> dict[str, Any]:
    axis = {"title": None, "tickCount": 3, "gridColor": "#ccc", "gridDash": [1, 2], **_BLACK}
    return {"field": "y", "type": "quantitative", "scale": {"zero": False, "nice": True}, "axis": axis}


_BLACK = {
    "labelColor": "#000", "titleColor": "#000", "domainColor": "#000", "tickColor": "#000",
    "labelFontSize": 12, "titleFontSize": 12, "titleFontWeight": "normal", "labelFont": _FONT, "titleFont": _FONT,
}  # fmt: skip


def _layers(drawing: Drawing) -> Iterator[dict[str, Any]]:
    points = list(_points(drawing))
    line = {"type": "line", "stroke": "#000", "strokeWidth": 1.4}
    yield {"data": {"values": points}, "mark": line, "encoding": {"detail": {"field": "stretch"}}}
    if drawing.trend is not None:
        first, start, end = drawing.trend
        ends = [{"x": first + 1, "y": start}, {"x": len(drawing.figures), "y": end}]
        dashes = {"type": "line", "stroke": "#000", "strokeWidth": 1.2, "strokeDash": [6, 4]}
        yield {"data": {"values": ends}, "mark": dashes}
    if len(points) <= RINGS:
        ring = {
            "type": "point",
            "shape": "circle",
            "filled": True,
            "fill": "#fff",
            "stroke": "#000",
            "strokeWidth": 1.2,
        }
        yield {"data": {"values": points}, "mark": {**ring, "size": 22, "opacity": 1}}
    best = drawing.figures[drawing.best]
    if best is not None:
        diamond = {"type": "point", "shape": "diamond", "filled": True, "fill": "#000", "size": 90, "opacity": 1}
        yield {"data": {"values": [{"x": drawing.best + 1, "y": best}]}, "mark": diamond}


def _points(drawing: Drawing) -> Iterator[dict[str, float]]:
    stretch = 0
    for place, figure in enumerate(drawing.figures):
        stretch += place in drawing.breaks
        if figure is not None:
            yield {"x": place + 1, "y": figure, "stretch": stretch}


def _dressed(svg: str, key: str, title: str, description: str) -> Markup:
    """The SVG as one picture with a name: what is read out of its parts would be a word for every ring and tick."""
    bare = re.sub(r' (?:role|aria-[a-z]+|xmlns:xlink|class|pointer-events)="[^"]*"', "", svg)
    size = re.search(r'viewBox="([^"]*)"', bare)
    assert size is not None
    inside = bare[bare.index(">") + 1 :]
    head = Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" class="chart" viewBox="{}" role="img" aria-labelledby="{}-t {}-d">'
        '<title id="{}-t">{}</title><desc id="{}-d">{}</desc>'
    ).format(size[1], key, key, key, title, key, description)
    return head + Markup(inside)
