"""Division: the sign in its sections, each on its sheet, as a plan's seams and sheets have it.

Beside it the two usual ways to divide the same sign, with the same figures, to be weighed against
it.
"""

from collections.abc import Callable
from dataclasses import dataclass

from holeplacer.cutting import cut_figures, hand_layout, kept_layout, sheet_parts
from holeplacer.cutting.cut_figures import CutFigures, SheetMetal
from holeplacer.cutting.hand_layout import Collision
from holeplacer.cutting.sheet_layout import SheetLayout
from holeplacer.errors import InputError
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.rules import process
from holeplacer.rules.finding import Finding, Place, PlaceKind
from holeplacer.seams import alternatives, seams, sections
from holeplacer.seams.alternatives import Alternative

NAME = "division"

Progress = Callable[[float, str], None]


@dataclass(frozen=True, eq=False)
class Division:
    """Sections on sheets, and what they cost to cut.

    Attributes:
        layout: Which section lies where; None where they can't be laid.
        sheets: Figures of each sheet; empty likewise.
        findings: Why they can't be laid, unless the rule on seams says so already; which of
            them collide where somebody put them.
    """

    layout: SheetLayout | None
    sheets: tuple[CutFigures, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def whole(self) -> CutFigures | None:
        """Figures of all sheets together; None where there are none."""
        return cut_figures.together(self.sheets) if self.sheets else None


@dataclass(frozen=True, eq=False)
class Compared:
    """One of the usual ways to divide the sign.

    Attributes:
        way: Its seams, number of sections, weld, and what is wrong with it.
        division: Its sections on sheets.
    """

    way: Alternative
    division: Division


def division(
    plan: Plan,
    outline: Outline,
    *,
    brief: bool = False,
    progress: Progress | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Division:
    """The sections of a plan on the sheets at hand.

    Args:
        plan: Its seams, holes, sheets at hand, margin and distances.
        outline: Its cut outline.
        brief: Whether to lay them in few orders only: it may take a sheet more.
        progress: Told the share done.
        cancelled: Asked often whether to stop.

    Raises:
        InputError: No sheet is at hand.
        Cancelled: The person stopped the work.
    """
    if not plan.sections.stock:
        raise InputError("no sheet is at hand", where="sections", remedy="enter a sheet's size")
    gap = plan.sections.root_gap_mm
    parts = sections.sections(outline, plan.seams, plan.holes, root_gap_mm=gap)
    if seams.misfits(plan.sections, parts):
        return Division(None)
    try:
        laid = kept_layout.laid_out(
            plan, parts, brief=brief, progress=progress, cancelled=cancelled
        )
    except InputError as error:
        return Division(None, findings=(_not_laid(error, len(parts)),))
    return Division(laid, figures(laid, plan), collided(laid))


def figures(layout: SheetLayout, plan: Plan) -> tuple[CutFigures, ...]:
    """What each sheet costs to cut.

    Args:
        layout: Sections of the plan on sheets.
        plan: The plan with the holes and seams that the sections refer to.
    """
    sheet = plan.sheet
    metal = SheetMetal(sheet.material, sheet.thickness_mm, process.limit(plan))
    return tuple(
        cut_figures.of_sheet(
            sheet_parts.sheet_parts(layout, index, plan), used.stock, metal, layout.choice.feeds
        )
        for index, used in enumerate(layout.sheets)
    )


def collided(layout: SheetLayout) -> tuple[Finding, ...]:
    """Sections that came too close to each other or to a sheet's edge by hand."""
    return tuple(_collision(layout, item) for item in hand_layout.collisions(layout))


def compared(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    *,
    progress: Progress | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> tuple[Compared, ...]:
    """The usual ways to divide the sign, each laid on the sheets at hand.

    Few orders are tried, so that one way may take a sheet more than it must.

    Raises:
        InputError: No sheet is given, or none has anything left within its margin.
        Cancelled: The person stopped the work.
    """
    found = []
    ways = alternatives.alternatives(plan, outline, axis)
    for index, way in enumerate(ways):

        def told(share: float, what: str, done: int = index) -> None:
            if progress is not None:
                progress((done + share) / len(ways), what)

        other = edit.with_laid(edit.with_seams(plan, way.seams), ())
        laid = division(other, outline, brief=True, progress=told, cancelled=cancelled)
        found.append(Compared(way, laid))
    return tuple(found)


def _collision(layout: SheetLayout, item: Collision) -> Finding:
    section = layout.section(item.section).polygon.representative_point()
    least = 0.0 if item.other is None else layout.choice.apart_mm
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.PLAN, 0, (section.x, section.y)),
        value=item.gap_mm,
        limit=least,
        message=hand_layout.words(item, least),
        way_out="move or turn it on its sheet, or have the sections laid out anew",
    )


def _not_laid(error: InputError, parts: int) -> Finding:
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.PLAN, 0, (0.0, 0.0)),
        value=0.0,
        limit=float(parts),
        message=f"Sections can't be laid on sheets: {error.what}",
        way_out=error.remedy,
        unit="",
    )
