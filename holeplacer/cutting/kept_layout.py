"""Kept layout: sections on sheets where the plan has them, the others laid out round them.

Once somebody has moved a section by hand, the places of all are kept in the plan, so that the
others don't jump; what a changed seam makes of a section is laid out anew.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

import shapely

from holeplacer.cutting import sheet_layout
from holeplacer.cutting.blank import Place
from holeplacer.cutting.sheet_layout import Kept, Placed, SheetLayout
from holeplacer.plan import edit
from holeplacer.plan.laid import LaidSection
from holeplacer.plan.plan import Plan
from holeplacer.seams import stock_fit
from holeplacer.seams.sections import Section

_SAME_AREA = 1e-6
"""By how much of its area a section may differ and still be the one that was laid."""


def laid_out(
    plan: Plan,
    sections: Sequence[Section],
    *,
    brief: bool = False,
    progress: Callable[[float, str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> SheetLayout:
    """Sections on sheets: those the plan has a place for there, the others round them.

    Args:
        plan: Its sheets at hand, and where sections were laid.
        sections: Those its seams divide the sign into.
        brief: Whether to try few orders only: it may take a sheet more.
        progress: Told the share done.
        cancelled: Asked often whether to stop.

    Raises:
        InputError: A section is larger than every sheet, or the sheets at hand don't suffice.
        Cancelled: The person stopped the work.
    """
    kept = Kept()
    if stock_fit.usable_sizes(plan.sections):
        kept = _kept(plan, matched(plan, sections))
    return sheet_layout.sheet_layout(
        sections,
        plan.sections,
        kept=kept,
        brief=brief,
        progress=progress,
        cancelled=cancelled,
    )


def matched(plan: Plan, sections: Sequence[Section]) -> dict[int, LaidSection]:
    """Where sections lie by their number, as far as the plan says so."""
    found: dict[int, LaidSection] = {}
    for item in plan.laid:
        at = shapely.points(item.x_mm, item.y_mm)
        for section in sections:
            same = abs(section.area_mm2 - item.area_mm2) <= _SAME_AREA * section.area_mm2
            if same and section.number not in found and shapely.covers(section.polygon, at):
                found[section.number] = item
                break
    return found


def with_layout(plan: Plan, layout: SheetLayout, by_hand: Iterable[int]) -> Plan:
    """The plan that keeps a layout.

    Args:
        plan: The plan that the layout is of.
        layout: Its sections on sheets.
        by_hand: Numbers of the sections that somebody put where they are.
    """
    own = set(by_hand)
    return edit.with_laid(
        plan, (_laid(layout, placed, placed.section in own) for placed in layout.placed)
    )


def by_hand(plan: Plan, layout: SheetLayout) -> frozenset[int]:
    """Numbers of the sections that somebody put where they are."""
    found = matched(plan, layout.sections)
    return frozenset(number for number, item in found.items() if item.by_hand)


def anew(plan: Plan) -> Plan:
    """The plan whose sections are laid out anew, but for those put somewhere by hand."""
    return edit.with_laid(plan, (item for item in plan.laid if item.by_hand))


def _laid(layout: SheetLayout, placed: Placed, by_hand: bool) -> LaidSection:
    section = layout.section(placed.section)
    inside = section.polygon.representative_point()
    x, y = Place(placed.x_mm, placed.y_mm, placed.angle_rad).point(inside.x, inside.y)
    stock = layout.sheets[placed.sheet].stock
    return LaidSection(
        x_mm=inside.x,
        y_mm=inside.y,
        area_mm2=section.area_mm2,
        stock=stock,
        sheet=placed.sheet,
        at_x_mm=x,
        at_y_mm=y,
        angle_rad=placed.angle_rad,
        by_hand=by_hand,
    )


def _kept(plan: Plan, found: dict[int, LaidSection]) -> Kept:
    """Sections on sheets that are still at hand; sheets are counted without a gap."""
    first = {item.sheet: item for _number, item in sorted(found.items(), reverse=True)}
    used = _at_hand(plan, dict(sorted(first.items())))
    placed = tuple(
        _placed(number, item, list(used).index(item.sheet))
        for number, item in sorted(found.items())
        if item.sheet in used and used[item.sheet].stock == item.stock
    )
    return Kept(placed, tuple(item.stock for item in used.values()))


def _at_hand(plan: Plan, sheets: dict[int, LaidSection]) -> dict[int, LaidSection]:
    """Those sheets of which the stock still has one."""
    left = {stock: stock.count for stock in plan.sections.stock}
    used = {}
    for sheet, item in sheets.items():
        if item.stock not in left or not _usable(plan, item):
            continue
        count = left[item.stock]
        if count is None or count > 0:
            used[sheet] = item
            left[item.stock] = None if count is None else count - 1
    return used


def _usable(plan: Plan, item: LaidSection) -> bool:
    return bool(stock_fit.usable_sizes(replace(plan.sections, stock=(item.stock,))))


def _placed(number: int, item: LaidSection, sheet: int) -> Placed:
    turned = Place(0.0, 0.0, item.angle_rad).point(item.x_mm, item.y_mm)
    x, y = item.at_x_mm - turned[0], item.at_y_mm - turned[1]
    return Placed(number, sheet, x, y, item.angle_rad)
