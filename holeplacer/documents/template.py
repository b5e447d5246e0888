"""Template: full-size paper carrying outline, grid, hole centres; here as what is to be shown.

Everything is in sign coordinates, seen from the front. How it is drawn on paper, and on how many
pages, is another matter: see `template_drawing`, `template_roll` and `template_tiles`.
"""

import math
from dataclasses import dataclass
from pathlib import PurePath

import shapely
from shapely.geometry import MultiPolygon
from shapely.geometry.base import BaseGeometry

from holeplacer.errors import InputError
from holeplacer.evaluation import sign_mass
from holeplacer.evaluation.layout import Layout
from holeplacer.outline.outline import Outline
from holeplacer.paper import size
from holeplacer.paper.display_list import Box
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.seams import sections
from holeplacer.units import MM_PER_INCH, LengthUnit, format_length
from holeplacer.wall import drilling, placing
from holeplacer.wall.drilling import Drilling

SIMPLIFIED_MM = 0.02
"""Furthest that the outline on paper strays from the cut outline: a tenth of a printed line."""

SYMBOL_MM = 4.0
"""A hole's cross reaches so far beyond its edge."""

BORDER_MM = 12.0
"""Paper all round the sign."""

NEAR_MM = 50.0
"""A datum further from the sign is not reached by its paper, only reckoned from."""

LEAST_GRID_MM, MOST_GRID_MM = 5.0, 1000.0
LEAST_OVERLAP_MM, MOST_OVERLAP_MM = 6.0, 60.0
LEAST_ROLL_MM, MOST_ROLL_MM = 250.0, 2000.0


@dataclass(frozen=True)
class TemplateWish:
    """How the template is wanted.

    Attributes:
        unit: What lengths are shown in.
        grid_mm: Distance of grid lines; None: 50 mm, or 1 in where inches are shown.
        paper: Name of the sheets it is tiled onto, see `paper.size`.
        roll_mm: Width of the roll it is plotted onto.
        overlap_mm: How far neighbouring pages show the same.
        revision: Of the papers; empty: what the plan's wall says.
        date: As it is to be printed; nothing here reads a clock.
    """

    unit: LengthUnit = LengthUnit.MM
    grid_mm: float | None = None
    paper: str = "letter"
    roll_mm: float = 914.4
    overlap_mm: float = 12.0
    revision: str = ""
    date: str = ""

    @property
    def spacing_mm(self) -> float:
        """Distance of grid lines."""
        if self.grid_mm is not None:
            return self.grid_mm
        return MM_PER_INCH if self.unit is LengthUnit.INCH else 50.0


@dataclass(frozen=True)
class TemplateHole:
    """A hole to punch through the paper.

    Attributes:
        number: Its number.
        x_mm, y_mm: Centre.
        diameter_mm: In the sign.
        says: Lines beside its symbol: the wall's drill where it is known, the hole in the sign.
    """

    number: int
    x_mm: float
    y_mm: float
    diameter_mm: float
    says: tuple[str, ...]

    @property
    def reach_mm(self) -> float:
        """From the centre to the ends of its cross."""
        return self.diameter_mm / 2 + SYMBOL_MM


@dataclass(frozen=True, eq=False)
class Template:
    """All that a template shows.

    Attributes:
        name: The sign's.
        revision, date: Of the papers; may be empty.
        unit: What lengths are shown in.
        metal: The area of the sign, or of one section.
        edges: Its cut edges as lines.
        holes: In order of number.
        seams: Ends of every seam shown, with its number.
        bounds_mm: Left, bottom, right, top of the whole sign.
        level_mm: Height of the level line.
        datum_mm: Origin of listed dimensions.
        plumbs_mm: Where plumb lines stand: the sign's left edge, middle and right edge.
        grid_mm: Distance of grid lines, counted from the datum's x and from the level line.
        mass_kg: Of the whole sign without standoffs; None: the metal is not known.
        ground_mm: Height of the sign's lower edge above the ground; None: not known.
        drilling: How the wall is drilled; None: its layers are not known.
        section: Number of the section it is of; None: it shows the whole sign.
        within_mm: Furthest that an edge strays from the artwork's own curve.
    """

    name: str
    revision: str
    date: str
    unit: LengthUnit
    metal: MultiPolygon
    edges: BaseGeometry
    holes: tuple[TemplateHole, ...]
    seams: tuple[tuple[int, tuple[float, float, float, float]], ...]
    bounds_mm: Box
    level_mm: float
    datum_mm: tuple[float, float]
    plumbs_mm: tuple[float, ...]
    grid_mm: float
    mass_kg: float | None
    ground_mm: float | None
    drilling: Drilling | None
    section: int | None
    within_mm: float

    @property
    def extent_mm(self) -> Box:
        """What the paper must reach over: metal and symbols with a border, and the datum."""
        left, bottom, right, top = self.metal.bounds
        boxes = [(left - BORDER_MM, bottom - BORDER_MM, right + BORDER_MM, top + BORDER_MM)]
        boxes += [
            (h.x_mm - h.reach_mm, h.y_mm - h.reach_mm, h.x_mm + h.reach_mm, h.y_mm + h.reach_mm)
            for h in self.holes
        ]
        if self.shows_datum:
            x, y = self.datum_mm
            boxes.append((x - SYMBOL_MM, y - SYMBOL_MM, x + SYMBOL_MM, y + SYMBOL_MM))
        lows, highs = zip(*((b[:2], b[2:]) for b in boxes), strict=True)
        (x1, y1), (x2, y2) = map(min, zip(*lows, strict=True)), map(max, zip(*highs, strict=True))
        return x1, y1, x2, y2

    @property
    def reach_mm(self) -> float:
        """The furthest reach of any symbol from its centre."""
        return max((hole.reach_mm for hole in self.holes), default=SYMBOL_MM)

    @property
    def shows_datum(self) -> bool:
        """Whether the datum lies on the paper: on that of the whole sign, and near to it."""
        left, bottom, right, top = self.bounds_mm
        x, y = self.datum_mm
        near = left - NEAR_MM <= x <= right + NEAR_MM and bottom - NEAR_MM <= y <= top + NEAR_MM
        return self.section is None and near

    def listed(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """A place measured from the datum."""
        return x_mm - self.datum_mm[0], y_mm - self.datum_mm[1]


def template(layout: Layout, wish: TemplateWish | None = None) -> Template:
    """The template of a whole sign.

    Raises:
        InputError: Grid, overlap, roll or paper is none that can be used.
    """
    wish = checked(wish or TemplateWish())
    plan, outline = layout.plan, layout.outline
    seams = range(len(plan.seams))
    return _template(plan, outline, outline.region, plan.holes, tuple(seams), None, wish)


def section_templates(layout: Layout, wish: TemplateWish | None = None) -> tuple[Template, ...]:
    """A template of each section, all with the datum of the whole sign.

    Raises:
        InputError: Grid, overlap, roll or paper is none that can be used.
    """
    wish = checked(wish or TemplateWish())
    plan, outline = layout.plan, layout.outline
    return tuple(
        _template(
            plan,
            outline,
            MultiPolygon([part.polygon]),
            tuple(hole for hole in plan.holes if hole.number in part.holes),
            part.seams,
            part.number,
            wish,
        )
        for part in sections.sections(outline, plan.seams, plan.holes)
    )


def checked(wish: TemplateWish) -> TemplateWish:
    """The wish, if it can be met.

    Raises:
        InputError: Grid, overlap, roll or paper is none that can be used.
    """
    _within("grid", wish.spacing_mm, LEAST_GRID_MM, MOST_GRID_MM, wish.unit)
    _within("overlap", wish.overlap_mm, LEAST_OVERLAP_MM, MOST_OVERLAP_MM, wish.unit)
    _within("roll width", wish.roll_mm, LEAST_ROLL_MM, MOST_ROLL_MM, wish.unit)
    size.paper_size(wish.paper)
    return wish


def _within(what: str, mm: float, least: float, most: float, unit: LengthUnit) -> None:
    if not (math.isfinite(mm) and least <= mm <= most):
        low, high = format_length(least, unit), format_length(most, unit)
        raise InputError(
            f"{format_length(mm, unit)} can't be used", where=what, remedy=f"take {low} to {high}"
        )


def _template(
    plan: Plan,
    outline: Outline,
    metal: MultiPolygon,
    holes: tuple[Hole, ...],
    seams: tuple[int, ...],
    section: int | None,
    wish: TemplateWish,
) -> Template:
    bounds, hung = outline.bounds_mm, plan.wall.placing
    drilled = _drilling(plan)
    left, _, right, _ = bounds
    revisions = plan.wall.revisions
    return Template(
        name=PurePath(plan.artwork.name).stem or plan.artwork.name,
        revision=wish.revision or (str(revisions[-1].number) if revisions else ""),
        date=wish.date or (revisions[-1].date if revisions else ""),
        unit=wish.unit,
        metal=metal,
        edges=_edges(metal),
        holes=tuple(
            _hole(plan, hole, drilled, wish.unit)
            for hole in sorted(holes, key=lambda hole: hole.number)
        ),
        seams=tuple(
            (index + 1, (seam.x1_mm, seam.y1_mm, seam.x2_mm, seam.y2_mm))
            for index in seams
            for seam in (plan.seams[index],)
        ),
        bounds_mm=bounds,
        level_mm=placing.level_mm(hung, bounds),
        datum_mm=placing.datum_mm(hung, bounds),
        plumbs_mm=(left, (left + right) / 2, right),
        grid_mm=wish.spacing_mm,
        mass_kg=_mass(plan, outline),
        ground_mm=placing.over_ground_mm(plan.wall, bounds),
        drilling=drilled,
        section=section,
        within_mm=plan.reading.tolerance_mm + SIMPLIFIED_MM,
    )


def _edges(metal: MultiPolygon) -> BaseGeometry:
    """The cut edges with fewer vertices, every one of those left an old one."""
    lines = shapely.simplify(metal.boundary, SIMPLIFIED_MM, preserve_topology=True)
    shapely.prepare(lines)
    return lines


def _hole(plan: Plan, hole: Hole, drilled: Drilling | None, unit: LengthUnit) -> TemplateHole:
    diameter = plan.diameter_of(hole)
    says = [] if drilled is None else [f"drill {drilled.drill.name}"]
    says.append(f"sign Ø {format_length(diameter, unit)}")
    return TemplateHole(hole.number, hole.x_mm, hole.y_mm, diameter, tuple(says))


def _drilling(plan: Plan) -> Drilling | None:
    sheet, standoff = plan.sheet, plan.standoff
    return drilling.drilling(
        plan.wall,
        stud_mm=standoff.stud_mm,
        projection_mm=standoff.projection_mm,
        sheet_mm=sheet.thickness_mm + 2 * sheet.finish_mm,
    )


def _mass(plan: Plan, outline: Outline) -> float | None:
    try:
        return sign_mass.sign_mass(plan, outline).mass_kg
    except InputError:
        return None
