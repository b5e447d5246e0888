"""Sheet parts: sections as they lie on their sheet, with holes and seams, ready to be cut."""

from collections.abc import Sequence

from holeplacer.cutting.blank import Place
from holeplacer.cutting.contours import Part, RoundHole, SeamEdge
from holeplacer.cutting.sheet_layout import Placed, SheetLayout
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.seams.sections import Section


def whole_parts(sections: Sequence[Section], plan: Plan) -> tuple[Part, ...]:
    """Sections where they are in the sign, for the drawing of the whole.

    Args:
        sections: In order of number.
        plan: Whose holes and seams they refer to.
    """
    here = Place(0.0, 0.0, 0.0)
    return tuple(_part(section, here, plan) for section in sections)


def sheet_parts(layout: SheetLayout, sheet: int, plan: Plan) -> tuple[Part, ...]:
    """Sections on one sheet, moved and turned as they lie there.

    Args:
        layout: Where they lie.
        sheet: Index of the sheet.
        plan: Whose holes and seams the sections refer to.
    """
    return tuple(
        _part(layout.section(placed.section), _place(placed), plan)
        for placed in layout.on_sheet(sheet)
    )


def _place(placed: Placed) -> Place:
    return Place(placed.x_mm, placed.y_mm, placed.angle_rad)


def _part(section: Section, place: Place, plan: Plan) -> Part:
    own = set(section.holes)
    holes = []
    for hole in plan.holes:
        if hole.number in own:
            x, y = place.point(hole.x_mm, hole.y_mm)
            holes.append(RoundHole(x, y, plan.diameter_of(hole), hole.number))
    edges = tuple(_edge(index, plan.seams[index], place) for index in section.seams)
    return Part(str(section.number), place.of(section.polygon), tuple(holes), edges)


def _edge(index: int, seam: Seam, place: Place) -> SeamEdge:
    return SeamEdge(
        index + 1,
        place.point(seam.x1_mm, seam.y1_mm),
        place.point(seam.x2_mm, seam.y2_mm),
    )
