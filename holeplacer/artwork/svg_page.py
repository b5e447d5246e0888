"""SVG page: the outermost viewport: in which unit the drawing is, and where its corner lies.

The rule:

- A width or height with a physical unit (mm, cm, Q, in, pt, pc) states the units. Coordinates come
  out in the unit of the width (else of the height; Q in mm, pc in pt).
- A bare number or one in px states none: the standard would make it 1/96 in, but drawing programs
  write it for whatever the artist had in mind. Coordinates come out in those numbers, so that
  `width="400"` read with units mm is 400 mm wide.
- Without any size (or in percent), the view box is the page, its unit the one that is missing.
- Without a view box, user units are px: 1/96 in where the size is physical.

The origin is the lower left corner of the page, y up. Where no height is known it is the upper
left corner, and y is negative.
"""

from dataclasses import dataclass

from lxml import etree

from holeplacer.artwork.svg_length import Length, ViewBox, Viewport, length, view_box
from holeplacer.errors import ArtworkError
from holeplacer.geometry.transform import Matrix, combined, matrix
from holeplacer.units import DRAWING_UNITS_MM

_UNIT_NAMES = {"mm": "mm", "cm": "cm", "q": "mm", "in": "in", "pt": "pt", "pc": "pt"}
_REPLACED = Viewport(300.0, 150.0)
"""What CSS 2.1, section 10.3.2, gives an element of unknown size."""


@dataclass(frozen=True, eq=False)
class Page:
    """The outermost viewport.

    Attributes:
        units: Name of the stated unit in `units.DRAWING_UNITS_MM`, None if none is stated.
        to_drawing: Map from user space to drawing units, y up.
        viewport: What percentages of the outermost user space are shares of.
        size: Width and height in drawing units; None where unknown.
    """

    units: str | None
    to_drawing: Matrix
    viewport: Viewport
    size: tuple[float | None, float | None]


def read_page(root: etree._Element) -> Page:
    """Page of a document.

    Raises:
        ArtworkError: Its width or height is zero or negative.
    """
    written = [_size(root, name) for name in ("width", "height")]
    units = next((_UNIT_NAMES[item.unit] for item in written if item and item.mm is not None), None)
    width, height = (None if item is None else _in_units(item, units) for item in written)
    box = view_box(root.get("viewBox"))
    if box is None:
        per_px = 1.0 if units is None else DRAWING_UNITS_MM["px"] / DRAWING_UNITS_MM[units]
        viewport = Viewport(
            _REPLACED.width if width is None else width / per_px,
            _REPLACED.height if height is None else height / per_px,
        )
        return Page(
            units, _flipped(matrix(per_px, 0, 0, per_px, 0, 0), height), viewport, (width, height)
        )
    width, height = _completed(width, height, box)
    fitted = box.fitted(Viewport(width, height), root.get("preserveAspectRatio"))
    viewport = Viewport(box.width, box.height)
    return Page(units, _flipped(fitted, height), viewport, (width, height))


def _size(root: etree._Element, name: str) -> Length | None:
    """Width or height as written; None if absent, `auto` or in percent."""
    value = length(root.get(name))
    if value is None or value.unit == "%":
        return None
    if value.value <= 0:
        raise ArtworkError(f'the page has the {name} "{root.get(name)}", which is no size')
    return value


def _in_units(size: Length, units: str | None) -> float:
    if units is None:
        return size.user_units(0.0)
    mm = size.mm if size.mm is not None else size.user_units(0.0) * DRAWING_UNITS_MM["px"]
    return mm / DRAWING_UNITS_MM[units]


def _completed(width: float | None, height: float | None, box: ViewBox) -> tuple[float, float]:
    """Width and height; what is missing follows from the proportions of the view box."""
    if width is None and height is None:
        return box.width, box.height
    if width is None:
        height = height or 0.0
        return height * box.width / box.height, height
    return width, width * box.height / box.width if height is None else height


def _flipped(fitted: Matrix, height: float | None) -> Matrix:
    return combined(matrix(1, 0, 0, -1, 0, height or 0.0), fitted)
