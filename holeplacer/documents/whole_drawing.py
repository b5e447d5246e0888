"""Whole drawing: the sign undivided, as the artist drew it, with seams, labels and match marks."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np

from holeplacer.cutting import sheet_parts
from holeplacer.documents import cut_marks, dxf_check, dxf_drawing, dxf_file, write
from holeplacer.documents.dxf_wish import Wish
from holeplacer.documents.page import Layer, Page, Role, Stroke
from holeplacer.evaluation.layout import Layout
from holeplacer.geometry.curve import Points, Polyline
from holeplacer.seams.sections import Section

SEAMS = "SEAMS"
_BLUE = 5


def whole_page(layout: Layout, sections: Sequence[Section], wish: Wish) -> Page:
    """The page of the holes' drawing, its curves untouched, with what tells the sections apart.

    Args:
        layout: The plan with its outline.
        sections: Its sections.
        wish: Version, unit, numbers, centre marks.
    """
    page = dxf_drawing.hole_page(layout, wish)
    taken = {layer.name.upper() for layer in page.layers}
    names = itertools.chain([SEAMS], (f"{SEAMS}-{number}" for number in itertools.count(2)))
    seams = Layer(next(name for name in names if name not in taken), Role.MARK, _BLUE)
    marks = page.layer_of(Role.MARK).name
    lines = [
        _stroke(np.array([(s.x1_mm, s.y1_mm), (s.x2_mm, s.y2_mm)]), seams.name)
        for s in layout.plan.seams
    ]
    for part in sheet_parts.whole_parts(sections, layout.plan):
        drawn = (*cut_marks.label(part), *cut_marks.match_marks(part))
        lines += [_stroke(xy, marks) for xy in drawn]
    return replace(page, layers=(*page.layers, seams), scribed=tuple(lines))


def whole_drawing(layout: Layout, sections: Sequence[Section], wish: Wish | None = None) -> bytes:
    """The drawing as a DXF file, proven by reading it back.

    Raises:
        ExportError: It failed its read-back.
        InputError: The version or unit is not known.
    """
    data, check = _made(layout, sections, wish or Wish())
    check(data)
    return data


def write_whole_drawing(
    layout: Layout,
    sections: Sequence[Section],
    to: Path,
    wish: Wish | None = None,
    *,
    protected: Iterable[Path] = (),
) -> None:
    """Write the drawing; an old file is replaced only after the new one is read back and proven.

    Raises:
        ExportError: It could not be written, or failed its read-back.
        InputError: The version or unit is not known.
    """
    data, check = _made(layout, sections, wish or Wish())
    write.replace_file(to, data, check=check, protected=protected)


def _made(layout: Layout, sections: Sequence[Section], wish: Wish) -> tuple[bytes, "partial[None]"]:
    page = whole_page(layout, sections, wish)
    data = dxf_file.dxf_bytes(page, version=wish.version, units=wish.units)
    check = partial(
        dxf_check.check_dxf,
        page=page,
        outline=layout.outline,
        version=wish.version,
        units=wish.units,
    )
    return data, check


def _stroke(xy: Points, layer: str) -> Stroke:
    return Stroke(Polyline(xy), layer)
