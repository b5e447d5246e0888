"""Template DXF: the template as a drawing, for a plotter's own program or a laser on the wall.

The sign's own curves with every hole as a circle, a cross and its number; grid, level line, plumb
lines, datum, seams and bars to prove the scale, each on a layer of its name.
"""

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import partial

import numpy as np

from holeplacer.documents import dxf_check, dxf_drawing, dxf_file, template_marks
from holeplacer.documents.dxf_wish import Wish
from holeplacer.documents.page import CentreMark, Circle, Label, Layer, Page, Role, Stroke
from holeplacer.documents.template import BORDER_MM, SYMBOL_MM, Template
from holeplacer.documents.template_drawing import length
from holeplacer.evaluation.layout import Layout
from holeplacer.geometry.curve import CircularArc, Curve, Polyline
from holeplacer.paper.display_list import Line

LAYERS = {"GRID": 8, "LEVEL": 1, "PLUMB": 5, "DATUM": 6, "SEAMS": 9, "SCALE": 2}
"""Colour of each layer the template adds to the sign's own, by what it holds."""

_TEXT_MM, _SMALL_MM = 6.0, 3.0


def template_dxf(layout: Layout, template: Template, wish: Wish | None = None) -> bytes:
    """The template as a DXF file, proven by reading it back.

    Args:
        layout: The plan with its outline.
        template: Its template, of the whole sign.
        wish: Version and unit.

    Raises:
        ExportError: It failed its read-back.
        InputError: The version or unit is not known.
    """
    data, check = made(layout, template, wish or Wish())
    check(data)
    return data


def made(layout: Layout, template: Template, wish: Wish) -> tuple[bytes, "partial[None]"]:
    """The file, and what proves it when it is read back."""
    page = template_page(layout, template, wish)
    data = dxf_file.dxf_bytes(page, version=wish.version, units=wish.units)
    check = partial(
        dxf_check.check_dxf,
        page=page,
        outline=layout.outline,
        version=wish.version,
        units=wish.units,
    )
    return data, check


def template_page(layout: Layout, template: Template, wish: Wish) -> Page:
    """What the drawing shows."""
    page = dxf_drawing.hole_page(layout, replace(wish, numbers=False, centre_marks=True))
    names = _free_names(layer.name for layer in page.layers)
    layers = tuple(Layer(names[name], Role.MARK, colour) for name, colour in LAYERS.items())
    return replace(
        page,
        layers=(*page.layers, *layers),
        circles=tuple(Circle(h.number, h.x_mm, h.y_mm, h.diameter_mm) for h in template.holes),
        marks=tuple(CentreMark(h.number, h.x_mm, h.y_mm, 2 * h.reach_mm) for h in template.holes),
        labels=tuple(_labels(template)),
        scribed=tuple(Stroke(curve, names[name]) for name, curve in _lines(template)),
        bounds_mm=template.extent_mm,
    )


def _free_names(taken: Iterable[str]) -> dict[str, str]:
    """Name of each layer, with a number where the artwork has one of that name."""
    used = {name.upper() for name in taken}
    return {
        name: next(
            free
            for free in itertools.chain([name], (f"{name}-{n}" for n in itertools.count(2)))
            if free not in used
        )
        for name in LAYERS
    }


def _lines(template: Template) -> Iterator[tuple[str, Curve]]:
    """Everything but sign and holes: name of its layer, and the line."""
    left, bottom, right, top = template.extent_mm
    step, (x0, y0) = template.grid_mm, (template.datum_mm[0], template.level_mm)
    for index in range(int(np.ceil((left - x0) / step)), int(np.floor((right - x0) / step)) + 1):
        yield "GRID", _line(x0 + index * step, bottom, x0 + index * step, top)
    for index in range(int(np.ceil((bottom - y0) / step)), int(np.floor((top - y0) / step)) + 1):
        yield "GRID", _line(left, y0 + index * step, right, y0 + index * step)
    yield "LEVEL", _line(left, y0, right, y0)
    for x in dict.fromkeys(template.plumbs_mm):
        yield "PLUMB", _line(x, bottom, x, top)
    x, y = template.datum_mm
    yield "DATUM", _line(x - SYMBOL_MM, y, x + SYMBOL_MM, y)
    yield "DATUM", _line(x, y - SYMBOL_MM, x, y + SYMBOL_MM)
    yield "DATUM", CircularArc((x, y), SYMBOL_MM / 2, 0.0, 2 * np.pi)
    for _, ends in template.seams:
        yield "SEAMS", _line(*ends)
    for upright in (False, True):
        for item in template_marks.bars(*_bars_at(template), upright=upright):
            if isinstance(item, Line):
                yield "SCALE", _line(item.x1_mm, item.y1_mm, item.x2_mm, item.y2_mm)


def _labels(template: Template) -> Iterator[Label]:
    for hole in template.holes:
        x, y = hole.x_mm + hole.diameter_mm / 2 + 1.5, hole.y_mm + 1.0
        yield Label(str(hole.number), x, y, _TEXT_MM)
        for index, line in enumerate(hole.says, start=1):
            yield Label(line, x, y - 1.5 - index * 1.5 * _SMALL_MM, _SMALL_MM)
    left, bottom, _, _ = template.extent_mm
    yield Label("LEVEL LINE", left, template.level_mm + 1.0, _SMALL_MM)
    x, y = template.datum_mm
    yield Label("DATUM 0, 0", x + SYMBOL_MM, y - 2 * _SMALL_MM, _SMALL_MM)
    for at in dict.fromkeys(template.plumbs_mm):
        yield Label(f"PLUMB LINE {length(at - x, template.unit)}", at + 1.0, bottom, _SMALL_MM)
    for number, (x1, y1, x2, y2) in template.seams:
        yield Label(f"seam {number}", (x1 + x2) / 2 + 1.0, (y1 + y2) / 2, _SMALL_MM)
    x, y = _bars_at(template)
    yield Label("Scale: 100 mm and 4 in, across and up", x + 6.0, y - 3 * _SMALL_MM, _SMALL_MM)
    side = "THIS SIDE OUT, seen from the front"
    revision = f", revision {template.revision}" if template.revision else ""
    dated = f", {template.date}" if template.date else ""
    yield Label(f"{template.name}{revision}{dated}: {side}", x + 130.0, y, _TEXT_MM)


def _bars_at(template: Template) -> tuple[float, float]:
    """Where both pairs of bars begin: below the sign, clear of everything."""
    left, bottom, _, _ = template.extent_mm
    return left + BORDER_MM, bottom - 130.0


def _line(x1: float, y1: float, x2: float, y2: float) -> Polyline:
    return Polyline(np.array([(x1, y1), (x2, y2)]))
