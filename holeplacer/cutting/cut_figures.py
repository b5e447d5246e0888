"""Cut figures: what cutting a sheet costs: length, pierces, holes, mass, scrap, and rough time."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from holeplacer.cutting import contour_order, contours
from holeplacer.cutting.contours import Contour, Kind, Part
from holeplacer.plan.sections import Feeds
from holeplacer.sheet.metal import Metal
from holeplacer.sheet.stock import Stock


@dataclass(frozen=True)
class SheetMetal:
    """What is cut, and how fine.

    Attributes:
        metal: Of the sheet.
        thickness_mm: Of the sheet.
        least_hole_mm: Holes under this are marked and drilled; None: all of them.
    """

    metal: Metal
    thickness_mm: float
    least_hole_mm: float | None


@dataclass(frozen=True)
class PartFigures:
    """One section.

    Attributes:
        label: What is written on it.
        width_mm, height_mm: Of the rectangle round it, as it lies.
        area_mm2: Metal, holes taken out.
        mass_kg: By density.
        contours: Closed lines cut: holes, counters, outer.
        cut_mm: Their length.
        holes_cut, holes_drilled: Holes that are cut, and those only marked.
        weld_mm: Length of its seams.
    """

    label: str
    width_mm: float
    height_mm: float
    area_mm2: float
    mass_kg: float
    contours: int
    cut_mm: float
    holes_cut: int
    holes_drilled: int
    weld_mm: float


@dataclass(frozen=True)
class CutFigures:
    """One sheet, or all of them together.

    Attributes:
        parts: Its sections.
        sheet_mm2: Area of the sheet or sheets.
        cut_mm: Length of all contours, without lead-ins.
        travel_mm: Way between contours at least, from where one ends to where the next begins.
        pierces: One for every contour.
        minutes: Cutting, pierces and, where its speed was entered, travel; None until the speed
            of cutting and the time of a pierce are entered.
    """

    parts: tuple[PartFigures, ...]
    sheet_mm2: float
    cut_mm: float
    travel_mm: float
    pierces: int
    minutes: float | None

    @property
    def scrap_share(self) -> float:
        """Part of the sheet that is no section; holes count as scrap."""
        return 1.0 - sum(part.area_mm2 for part in self.parts) / self.sheet_mm2

    @property
    def mass_kg(self) -> float:
        """Of all sections."""
        return sum(part.mass_kg for part in self.parts)

    @property
    def holes_cut(self) -> int:
        """Holes that are cut."""
        return sum(part.holes_cut for part in self.parts)

    @property
    def holes_drilled(self) -> int:
        """Holes that are marked and drilled."""
        return sum(part.holes_drilled for part in self.parts)


def of_sheet(parts: Sequence[Part], stock: Stock, metal: SheetMetal, feeds: Feeds) -> CutFigures:
    """Figures of one sheet.

    Args:
        parts: As they lie on it.
        stock: The sheet.
        metal: Of what, how thick, and which holes are cut.
        feeds: Speeds as entered; none is ever guessed.
    """
    found = contours.contours_of(parts, metal.least_hole_mm)
    figures = tuple(
        _of_part(part, [c for c in found if c.part == index], metal)
        for index, part in enumerate(parts)
    )
    cut, travel = sum(part.cut_mm for part in figures), _travel_mm(found)
    return CutFigures(
        parts=figures,
        sheet_mm2=stock.width_mm * stock.height_mm,
        cut_mm=cut,
        travel_mm=travel,
        pierces=len(found),
        minutes=minutes(cut, travel, len(found), feeds),
    )


def together(sheets: Sequence[CutFigures]) -> CutFigures:
    """Figures of all sheets; the time is None if that of any is."""
    times = [sheet.minutes for sheet in sheets]
    known = [time for time in times if time is not None]
    return CutFigures(
        parts=tuple(part for sheet in sheets for part in sheet.parts),
        sheet_mm2=sum(sheet.sheet_mm2 for sheet in sheets),
        cut_mm=sum(sheet.cut_mm for sheet in sheets),
        travel_mm=sum(sheet.travel_mm for sheet in sheets),
        pierces=sum(sheet.pierces for sheet in sheets),
        minutes=sum(known) if len(known) == len(times) else None,
    )


def minutes(cut_mm: float, travel_mm: float, pierces: int, feeds: Feeds) -> float | None:
    """Rough time: cut length by speed, pierces by their time, travel by its speed if entered.

    Acceleration and corners are not counted, so that the table takes longer.
    """
    if not feeds.cut_mm_min or feeds.pierce_s is None:
        return None
    travel = travel_mm / feeds.travel_mm_min if feeds.travel_mm_min else 0.0
    return cut_mm / feeds.cut_mm_min + pierces * feeds.pierce_s / 60.0 + travel


def _of_part(part: Part, found: Sequence[Contour], metal: SheetMetal) -> PartFigures:
    drilled = sum(not contours.is_cut(hole, metal.least_hole_mm) for hole in part.holes)
    drops = sum(math.pi / 4 * hole.diameter_mm**2 for hole in part.holes)
    area = float(part.polygon.area) - drops
    left, bottom, right, top = part.polygon.bounds
    return PartFigures(
        label=part.label,
        width_mm=right - left,
        height_mm=top - bottom,
        area_mm2=area,
        mass_kg=metal.metal.mass_kg(area, metal.thickness_mm),
        contours=len(found),
        cut_mm=sum(_length_mm(contour) for contour in found),
        holes_cut=len(part.holes) - drilled,
        holes_drilled=drilled,
        weld_mm=sum(math.dist(seam.start, seam.end) for seam in part.seams),
    )


def _length_mm(contour: Contour) -> float:
    if contour.kind is Kind.HOLE and contour.hole is not None:
        return math.pi * contour.hole.diameter_mm
    return float(shapely.LinearRing(contour.xy).length)


def _travel_mm(found: Sequence[Contour]) -> float:
    starts = [found[index].xy[0] for index in contour_order.order(found)]
    return sum(math.dist(one, two) for one, two in itertools.pairwise(starts))
