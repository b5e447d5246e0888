"""Sections report: the report's parts on seams, sections, sheets, and other ways to divide.

A section lies on its sheet as it is in the sign, turned anticlockwise by `angle_deg` about the
origin of the sign's coordinates, then moved by `x_mm` and `y_mm`: a point (x, y) of the sign comes
to lie at (x cos a - y sin a + x_mm, x sin a + y cos a + y_mm) from the sheet's lower left corner.
"""

import math
from collections.abc import Sequence

import msgspec

from holeplacer.cutting import sheet_parts
from holeplacer.cutting.division import Compared, Division
from holeplacer.evaluation.layout import Layout
from holeplacer.seams import preparation, sections, tacking
from holeplacer.seams.choice import SeamChoice
from holeplacer.seams.sections import Section
from holeplacer.seams.tacking import Weld


class TackReport(msgspec.Struct, frozen=True):
    """One tack.

    Attributes:
        order: When it is set, from 1 over the whole sign, before any seam is welded through.
        x_mm, y_mm: Where, in sign coordinates.
    """

    order: int
    x_mm: float
    y_mm: float


class SeamReport(msgspec.Struct, frozen=True):
    """One seam, in the plan's order.

    Attributes:
        x1_mm, y1_mm, x2_mm, y2_mm: Its ends in sign coordinates.
        weld_mm: Its length in metal.
        fixed: Whether it stays when seams are proposed.
        order: When it is welded through, from 1; null if it joins nothing.
        between: Numbers of the sections on either side.
        tacks: In the order they are set.
    """

    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    weld_mm: float
    fixed: bool
    order: int | None
    between: tuple[int, ...]
    tacks: tuple[TackReport, ...]


class SectionReport(msgspec.Struct, frozen=True):
    """One section.

    Attributes:
        number: As it is marked on it.
        sheet: Number of its sheet, from 1; null where sections lie on none.
        area_mm2: Its metal; holes are not taken out, as in `outline.area_mm2`.
        mass_kg: By density, holes taken out.
        x_mm, y_mm, angle_deg: How it lies on its sheet: turned anticlockwise by the angle about
            the sign's origin, then moved, measured from the sheet's lower left corner; null
            likewise.
        holes: Numbers of its holes.
    """

    number: int
    sheet: int | None
    area_mm2: float
    mass_kg: float
    x_mm: float | None
    y_mm: float | None
    angle_deg: float | None
    holes: tuple[int, ...]


class UsedSheetReport(msgspec.Struct, frozen=True):
    """One sheet that is cut, in the order of `sheet` of the sections.

    Attributes:
        width_mm, height_mm: Its size.
        measured: Whether somebody measured it.
        usable_mm: Left, bottom, right, top of what may be cut, margin and travel taken off.
        scrap_share: Part of it that is no section, drops of holes counted as scrap.
        cut_mm: Length of all contours.
        pierces: One for every contour.
        minutes: Rough time; null until speeds are entered.
    """

    width_mm: float
    height_mm: float
    measured: bool
    usable_mm: tuple[float, float, float, float]
    scrap_share: float
    cut_mm: float
    pierces: int
    minutes: float | None


class WayReport(msgspec.Struct, frozen=True):
    """A way to divide the sign.

    Attributes:
        name: `plan`, or what the way is called.
        seams: Number of seams.
        sections: Number of sections.
        weld_mm: Length of all welds.
        too_near: Seams nearer a hole, tip or junction than entered.
        misfits: Sections that fit no sheet.
        sheets: Number of sheets; null, as the following, where sections can't be laid.
        scrap_share: Part of all sheets that is no section.
        cut_mm: Length of all contours.
        pierces: One for every contour.
        minutes: Rough time; null until speeds are entered.
    """

    name: str
    seams: int
    sections: int
    weld_mm: float
    too_near: int
    misfits: int
    sheets: int | None
    scrap_share: float | None
    cut_mm: float | None
    pierces: int | None
    minutes: float | None


class DividedReport(msgspec.Struct, frozen=True):
    """The plan's own division.

    Attributes:
        sections: Number of sections.
        lower_bound: No division has fewer; null where seams were not chosen just now.
        proven: Whether the number is that bound; null likewise.
        least_weld: Whether weld and penalties are proven the least, to 0.01 %; null likewise.
        weld_mm: Length of all welds.
        preparation: Sentences for the shop on the seams' edges; empty without seams.
    """

    sections: int
    lower_bound: int | None
    proven: bool | None
    least_weld: bool | None
    weld_mm: float
    preparation: tuple[str, ...]


class SectionsReport(msgspec.Struct, frozen=True):
    """All of it; the report holds these parts side by side."""

    divided: DividedReport | None
    seams: tuple[SeamReport, ...]
    sections: tuple[SectionReport, ...]
    sheets: tuple[UsedSheetReport, ...]
    alternatives: tuple[WayReport, ...]


def sections_report(
    layout: Layout,
    division: Division | None,
    choice: SeamChoice | None = None,
    compared: Sequence[Compared] = (),
) -> SectionsReport:
    """All that is known of seams and sections.

    Args:
        layout: The plan with its outline.
        division: Its sections on sheets; None where no sheet is at hand.
        choice: Where the seams come from, if they were chosen just now.
        compared: Other ways to divide the sign.
    """
    plan, outline = layout.plan, layout.outline
    if not plan.seams and division is None:
        return SectionsReport(None, (), (), (), ())
    parts = _parts(layout, division)
    welds = {weld.seam: weld for weld in tacking.welds(outline, plan.seams, parts)}
    lengths = sections.weld_lengths(outline, plan.seams).tolist()
    return SectionsReport(
        divided=DividedReport(
            sections=len(parts),
            lower_bound=choice.lower_bound if choice else None,
            proven=choice.proven if choice else None,
            least_weld=choice.least_cost if choice else None,
            weld_mm=math.fsum(lengths),
            preparation=preparation.notes(plan) if plan.seams else (),
        ),
        seams=tuple(
            _seam(layout, index, length, welds.get(index)) for index, length in enumerate(lengths)
        ),
        sections=tuple(_section(layout, division, part) for part in parts),
        sheets=_sheets(division) if division else (),
        alternatives=tuple(_way(item) for item in compared),
    )


def _parts(layout: Layout, division: Division | None) -> tuple[Section, ...]:
    if division is not None and division.layout is not None:
        return division.layout.sections
    plan = layout.plan
    gap = plan.sections.root_gap_mm
    return sections.sections(layout.outline, plan.seams, plan.holes, root_gap_mm=gap)


def _seam(layout: Layout, index: int, length: float, weld: Weld | None) -> SeamReport:
    seam = layout.plan.seams[index]
    tacks = weld.tacks if weld else ()
    return SeamReport(
        x1_mm=seam.x1_mm,
        y1_mm=seam.y1_mm,
        x2_mm=seam.x2_mm,
        y2_mm=seam.y2_mm,
        weld_mm=length,
        fixed=seam.fixed,
        order=weld.order if weld else None,
        between=weld.between if weld else (),
        tacks=tuple(TackReport(tack.order, tack.x_mm, tack.y_mm) for tack in tacks),
    )


def _section(layout: Layout, division: Division | None, part: Section) -> SectionReport:
    plan, laid = layout.plan, division.layout if division else None
    (whole,) = sheet_parts.whole_parts([part], plan)
    drops = sum(math.pi / 4 * hole.diameter_mm**2 for hole in whole.holes)
    sheet, metal = plan.sheet, plan.sheet.material
    placed = next(item for item in laid.placed if item.section == part.number) if laid else None
    return SectionReport(
        number=part.number,
        sheet=placed.sheet + 1 if placed else None,
        area_mm2=part.area_mm2,
        mass_kg=metal.mass_kg(part.area_mm2 - drops, sheet.thickness_mm),
        x_mm=placed.x_mm if placed else None,
        y_mm=placed.y_mm if placed else None,
        angle_deg=math.degrees(placed.angle_rad) % 360.0 if placed else None,
        holes=part.holes,
    )


def _sheets(division: Division) -> tuple[UsedSheetReport, ...]:
    if division.layout is None:
        return ()
    margin = division.layout.choice.margin_mm
    return tuple(
        UsedSheetReport(
            width_mm=used.stock.width_mm,
            height_mm=used.stock.height_mm,
            measured=used.stock.measured,
            usable_mm=(
                margin,
                margin,
                margin + used.usable_width_mm,
                margin + used.usable_height_mm,
            ),
            scrap_share=figures.scrap_share,
            cut_mm=figures.cut_mm,
            pierces=figures.pierces,
            minutes=figures.minutes,
        )
        for used, figures in zip(division.layout.sheets, division.sheets, strict=True)
    )


def _way(item: Compared) -> WayReport:
    way, whole = item.way, item.division.whole
    return WayReport(
        name=way.name,
        seams=len(way.seams),
        sections=way.sections,
        weld_mm=way.weld_mm,
        too_near=way.too_near,
        misfits=way.misfits,
        sheets=len(item.division.sheets) if whole else None,
        scrap_share=whole.scrap_share if whole else None,
        cut_mm=whole.cut_mm if whole else None,
        pierces=whole.pierces if whole else None,
        minutes=whole.minutes if whole else None,
    )
