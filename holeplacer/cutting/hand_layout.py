"""Hand layout: a section moved on its sheet by hand, and what it then comes too close to."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations

import shapely
from shapely.geometry import Polygon, box

from holeplacer.cutting import blank, packing, sheet_layout
from holeplacer.cutting.sheet_layout import Placed, SheetLayout
from holeplacer.errors import InputError


@dataclass(frozen=True)
class Collision:
    """A section that comes too close to another, or to the sheet's edge.

    Attributes:
        sheet: Index of the sheet.
        section: Its number.
        other: Number of the other one; None: the edge of what may be cut.
        gap_mm: Distance between the two, or from the usable edge inwards; 0 where they overlap,
            and for the edge the length it sticks out, negative.
        overlap_mm2: Area that two share, or that lies beyond the usable edge.
        x_mm, y_mm: Where they are closest, on the sheet.
    """

    sheet: int
    section: int
    other: int | None
    gap_mm: float
    overlap_mm2: float
    x_mm: float
    y_mm: float


def moved(
    layout: SheetLayout,
    section: int,
    dx_mm: float = 0.0,
    dy_mm: float = 0.0,
    dangle_rad: float = 0.0,
    *,
    sheet: int | None = None,
) -> SheetLayout:
    """The layout with one section moved, and turned about its own centre.

    Nothing is refused: what collides is shown by `collisions`.

    Args:
        layout: Before.
        section: Its number.
        dx_mm: To the right.
        dy_mm: Upwards.
        dangle_rad: Anticlockwise.
        sheet: Index of the sheet it is laid on; None: its own.

    Raises:
        InputError: No section or sheet bears that number.
    """
    old = next((item for item in layout.placed if item.section == section), None)
    if old is None:
        raise InputError(f"there is no section {section}", where="sections")
    if sheet is not None and not 0 <= sheet < len(layout.sheets):
        raise InputError(f"there is no sheet {sheet + 1}", where="sections")
    centre = old.of(layout.section(section).polygon).centroid
    cos, sin = math.cos(dangle_rad), math.sin(dangle_rad)
    x, y = old.x_mm - centre.x, old.y_mm - centre.y
    new = Placed(
        section,
        old.sheet if sheet is None else sheet,
        centre.x + cos * x - sin * y + dx_mm,
        centre.y + sin * x + cos * y + dy_mm,
        old.angle_rad + dangle_rad,
    )
    placed = [new if item is old else item for item in layout.placed]
    return sheet_layout.refreshed(layout, placed)


def without_empty_sheets(layout: SheetLayout) -> SheetLayout:
    """The layout without sheets on which nothing lies any more."""
    kept = [index for index in range(len(layout.sheets)) if layout.on_sheet(index)]
    placed = [replace(item, sheet=kept.index(item.sheet)) for item in layout.placed]
    sheets = tuple(layout.sheets[index] for index in kept)
    return sheet_layout.refreshed(replace(layout, sheets=sheets), placed)


def collisions(layout: SheetLayout, section: int | None = None) -> tuple[Collision, ...]:
    """Every section too close to another or past the usable edge; counters count as filled.

    Args:
        layout: The sections on their sheets.
        section: Number of the only one that is looked at; None: all of them.
    """
    found: list[Collision] = []
    own = [item.sheet for item in layout.placed if item.section == section]
    for index in own or range(len(layout.sheets)):
        areas = {
            item.section: item.of(Polygon(layout.section(item.section).polygon.exterior))
            for item in layout.on_sheet(index)
        }
        found += _past_edge(layout, index, areas, section)
        found += _too_close(layout, index, areas, section)
    return tuple(found)


def words(item: Collision, apart_mm: float) -> str:
    """A collision in one sentence."""
    of = f"Section {item.section} on sheet {item.sheet + 1}"
    if item.other is None:
        return f"{of} reaches {-item.gap_mm:.1f} mm past the edge of what may be cut"
    if item.overlap_mm2 > 0 or item.gap_mm == 0:
        return f"{of} lies on section {item.other}"
    return f"{of} is {item.gap_mm:.1f} mm from section {item.other}, at least {apart_mm:.1f} mm"


def _past_edge(
    layout: SheetLayout, sheet: int, areas: dict[int, Polygon], only: int | None
) -> Iterator[Collision]:
    used, low = layout.sheets[sheet], layout.choice.margin_mm
    right, top = low + used.usable_width_mm, low + used.usable_height_mm
    for number, area in areas.items():
        if only is not None and number != only:
            continue
        x0, y0, x1, y1 = area.bounds
        inwards = min(x0 - low, y0 - low, right - x1, top - y1)
        if inwards < -blank.EXACT_MM:
            beyond = area.difference(box(low, low, right, top))
            at = (beyond if not beyond.is_empty else area).representative_point()
            yield Collision(sheet, number, None, inwards, beyond.area, at.x, at.y)


def _too_close(
    layout: SheetLayout, sheet: int, areas: dict[int, Polygon], only: int | None
) -> Iterator[Collision]:
    for (one, area), (two, other) in combinations(areas.items(), 2):
        if only is not None and only not in (one, two):
            continue
        if packing.near(area, other, layout.choice.apart_mm):
            shared = area.intersection(other).area
            at = shapely.shortest_line(area, other).interpolate(0.5, normalized=True)
            yield Collision(sheet, one, two, float(area.distance(other)), shared, at.x, at.y)
