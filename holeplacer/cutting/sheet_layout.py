"""Sheet layout: which section lies where on which of the sheets at hand.

Fewest sheets first, then the least area of sheets, then the largest rest in one stretch. Sheets
are filled one after another in several orders of the sections (see `packing`), the best kept; each
then gives way to a smaller one at hand if its sections fit there.

Measured on three 3 m letterings of 9 to 18 sections as strips 1189 mm high: 413 to 446, 1172 to
1229 and 846 to 882 mm, against 440 to 454, 1071 to 1108 and 876 to 930 mm by a general-purpose
library of irregular strip packing. Its result changes from run to run, since it is bound to the
clock, and it can't be stopped; so sheets are filled here. One strip in three was shorter by the
library: of sheets that are nearly full one more may be used than is needed.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from shapely.geometry import Polygon

from holeplacer.cutting import blank, packing
from holeplacer.cutting.blank import Blank, Place
from holeplacer.cutting.packing import Gather
from holeplacer.errors import Cancelled, InputError
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import stock_fit
from holeplacer.seams.sections import Section
from holeplacer.sheet.stock import Stock
from holeplacer.units import format_length

_CELLS = 150
"""Cells of the grid along the longest usable side."""

_LEAST_CELL_MM = 2.0
_TRIALS = 50
"""Orders tried times sections; few sections get more orders, each tried in several ways."""

_MOST_ORDERS, _FEW_ORDERS = 8, 2

_FIRST_WAY: Gather = "left"
_LAST_WAY: Gather = "straight"
_WAYS: tuple[Gather, ...] = (_FIRST_WAY, "corner", _LAST_WAY)
"""The first one leaves the largest rest; the last one is tried only where a sheet less may do."""


@dataclass(frozen=True)
class Placed:
    """A section on its sheet: turned about 0, 0 of the sign, then moved.

    Attributes:
        section: Its number.
        sheet: Index of the sheet, from 0.
        x_mm, y_mm: How far it is moved; the sheet's lower left corner is at 0, 0.
        angle_rad: How far it is turned, anticlockwise.
    """

    section: int
    sheet: int
    x_mm: float
    y_mm: float
    angle_rad: float

    def of(self, polygon: Polygon) -> Polygon:
        """An area of the section as it lies on the sheet."""
        return Place(self.x_mm, self.y_mm, self.angle_rad).of(polygon)


@dataclass(frozen=True)
class UsedSheet:
    """One sheet that is cut.

    Attributes:
        stock: Of which size.
        usable_width_mm, usable_height_mm: What may be cut of it, from the margin on.
        metal_mm2: Area of the sections on it.
    """

    stock: Stock
    usable_width_mm: float
    usable_height_mm: float
    metal_mm2: float

    @property
    def area_mm2(self) -> float:
        """Of the whole sheet."""
        return self.stock.width_mm * self.stock.height_mm

    @property
    def scrap_share(self) -> float:
        """Part of the sheet that is no section."""
        return 1.0 - self.metal_mm2 / self.area_mm2


@dataclass(frozen=True, eq=False)
class SheetLayout:
    """All sections on their sheets.

    Attributes:
        placed: In order of the sections' numbers.
        sheets: In the order they are cut.
        sections: What is laid out.
        choice: Margin and distances it is held to.
    """

    placed: tuple[Placed, ...]
    sheets: tuple[UsedSheet, ...]
    sections: tuple[Section, ...]
    choice: SectionsChoice

    @property
    def scrap_share(self) -> float:
        """Part of all sheets together that is no section."""
        return 1.0 - sum(s.metal_mm2 for s in self.sheets) / sum(s.area_mm2 for s in self.sheets)

    def section(self, number: int) -> Section:
        """The section of that number."""
        return next(section for section in self.sections if section.number == number)

    def on_sheet(self, sheet: int) -> tuple[Placed, ...]:
        """What lies on one sheet."""
        return tuple(placed for placed in self.placed if placed.sheet == sheet)


@dataclass(frozen=True)
class Kept:
    """What lies on sheets already and stays there.

    Attributes:
        placed: Sections, on sheets counted from 0 without a gap.
        stock: Of which size each of these sheets is; sizes at hand.
    """

    placed: tuple[Placed, ...] = ()
    stock: tuple[Stock, ...] = ()


@dataclass(frozen=True, eq=False)
class _Filled:
    stock: Stock
    bed: packing.Bed
    laid: dict[int, Place]


def sheet_layout(
    sections: Sequence[Section],
    choice: SectionsChoice,
    *,
    kept: Kept | None = None,
    brief: bool = False,
    progress: Callable[[float, str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> SheetLayout:
    """Lay sections on the sheets at hand.

    Once area proves that neither fewer nor smaller sheets can do, only the rest may still grow.

    Args:
        sections: To lay; nothing is laid into their counters.
        choice: Sheets, margin, travel, distance and turning.
        kept: Sections that stay where they are, even if they collide there.
        brief: Whether to try few orders and leave the rest as it comes: it may take a sheet more.
        progress: Told the share done.
        cancelled: Asked often whether to stop.

    Raises:
        InputError: A section is larger than every sheet, or the sheets at hand don't suffice.
        Cancelled: The person stopped the work.
    """
    if not choice.stock:
        raise InputError("no sheet is at hand", where="sections", remedy="enter a sheet's size")
    blanks = [_fitted(section, choice) for section in sections]
    kept = kept or Kept()
    held = {placed.section for placed in kept.placed}
    free = [item for item in blanks if item.number not in held]

    def look() -> None:
        if cancelled is not None and cancelled():
            raise Cancelled("stopped", remedy="nothing was changed")

    most = _FEW_ORDERS if brief else _MOST_ORDERS
    count = min(most, max(_FEW_ORDERS, _TRIALS // max(len(free), 1)))
    trials = [(way, order) for way in _WAYS for order in packing.orders(free, count)]
    best: list[_Filled] | None = None
    for index, (gather, order) in enumerate(trials):
        if best and _is_done(best, blanks, choice, gather, brief=brief):
            break
        if progress is not None:
            progress(index / len(trials), "laying sections on sheets")
        begun = _begun(kept, blanks, choice, gather)
        filled = _filled(order, choice, look, begun, gather)
        filled = _shrunk(filled, len(begun), order, choice, look)
        if best is None or _cost(filled, blanks) < _cost(best, blanks):
            best = filled
    if best is None or _unlaid(best, blanks):
        raise _too_few_sheets(best or [], blanks)
    return _layout(best, sections, choice)


def refreshed(layout: SheetLayout, placed: Sequence[Placed]) -> SheetLayout:
    """The layout with its sections elsewhere and its sheets' figures anew."""
    area = {section.number: section.area_mm2 for section in layout.sections}
    sheets = tuple(
        replace(sheet, metal_mm2=sum(area[p.section] for p in placed if p.sheet == index))
        for index, sheet in enumerate(layout.sheets)
    )
    return replace(layout, placed=tuple(placed), sheets=sheets)


def _fitted(section: Section, choice: SectionsChoice) -> Blank:
    """The section as a blank that fits at least one of the sheets."""
    found = blank.blank_of(section.number, section.polygon, choice.turning)
    sizes = stock_fit.usable_sizes(choice)
    for usable in sizes:
        found = blank.fitting(found, usable)
    if any(blank.fits_in(found, usable) for usable in sizes):
        return found
    wide, high = found.flat_size
    raise InputError(
        f"section {section.number} of {format_length(wide)} x {format_length(high)} fits on none "
        "of the sheets",
        where="sections",
        remedy="divide it by a seam, enter a larger sheet, or let sections be turned",
    )


def _beds(stock: Stock, choice: SectionsChoice, gather: Gather) -> Iterator[packing.Bed]:
    """Empty sheets of one stock, either way on the table if that makes a difference."""
    longest = max(max(s.width_mm, s.height_mm) for s in stock_fit.usable_sizes(choice))
    cell = max(_LEAST_CELL_MM, longest / _CELLS)
    for usable in stock_fit.usable_sizes(replace(choice, stock=(stock,))):
        yield packing.Bed(usable.width_mm, usable.height_mm, choice.apart_mm, cell, gather)


def _begun(
    kept: Kept, blanks: Sequence[Blank], choice: SectionsChoice, gather: Gather
) -> list[_Filled]:
    """Sheets with what stays on them, either way on the table as it suits that."""
    by_number, margin, begun = {item.number: item for item in blanks}, choice.margin_mm, []
    for index, size in enumerate(kept.stock):
        stock = next(item for item in choice.stock if item == size)
        laid = {
            item.section: Place(item.x_mm - margin, item.y_mm - margin, item.angle_rad)
            for item in kept.placed
            if item.sheet == index
        }
        beds = list(_beds(stock, choice, gather))
        within = (all(bed.holds(by_number[n], laid[n]) for n in laid) for bed in beds)
        bed = next((bed for bed, fits in zip(beds, within, strict=True) if fits), beds[0])
        for number, place in laid.items():
            bed.hold(by_number[number], place)
        begun.append(_Filled(stock, bed, laid))
    return begun


def _filled(
    order: Sequence[Blank],
    choice: SectionsChoice,
    look: Callable[[], None],
    begun: Sequence[_Filled],
    gather: Gather,
) -> list[_Filled]:
    """What was begun, then sheet after sheet, each of the stock that takes most of what is left."""
    left, used = list(order), list(begun)
    for sheet in used:
        sheet.laid.update(packing.pack(sheet.bed, left, look))
        left = [item for item in left if item.number not in sheet.laid]
    while left:
        area = {item.number: item.area.area for item in left}
        best: tuple[tuple[float, float], _Filled] | None = None
        for stock in _at_hand(used, choice):
            for bed in _beds(stock, choice, gather):
                laid = packing.pack(bed, left, look)
                key = (-sum(area[number] for number in laid), _area(stock))
                if laid and (best is None or key < best[0]):
                    best = key, _Filled(stock, bed, laid)
        if best is None:
            return used
        used.append(best[1])
        left = [item for item in left if item.number not in best[1].laid]
    return used


def _shrunk(
    used: list[_Filled],
    first: int,
    order: Sequence[Blank],
    choice: SectionsChoice,
    look: Callable[[], None],
) -> list[_Filled]:
    """The same with every sheet from one on as small as its sections allow, the last one first."""
    used = list(used)
    for index in reversed(range(first, len(used))):
        own = [item for item in order if item.number in used[index].laid]
        others = used[:index] + used[index + 1 :]
        smaller = [s for s in _at_hand(others, choice) if _area(s) < _area(used[index].stock)]
        for stock in sorted(smaller, key=_area):
            found = _on_one(stock, own, choice, look)
            if found is not None:
                used[index] = found
                break
    return used


def _on_one(
    stock: Stock, blanks: Sequence[Blank], choice: SectionsChoice, look: Callable[[], None]
) -> _Filled | None:
    """All of the blanks on one sheet, if they fit."""
    for gather in _WAYS:
        for bed in _beds(stock, choice, gather):
            laid = packing.pack(bed, blanks, look)
            if len(laid) == len(blanks):
                return _Filled(stock, bed, laid)
    return None


def _at_hand(used: Sequence[_Filled], choice: SectionsChoice) -> list[Stock]:
    """Stock of which a sheet is left."""
    return [
        stock
        for stock in choice.stock
        if stock.count is None or sum(sheet.stock is stock for sheet in used) < stock.count
    ]


def _area(stock: Stock) -> float:
    return stock.width_mm * stock.height_mm


def _unlaid(used: Sequence[_Filled], blanks: Sequence[Blank]) -> int:
    return len(blanks) - sum(len(sheet.laid) for sheet in used)


def _cost(used: Sequence[_Filled], blanks: Sequence[Blank]) -> tuple[float, float, float, float]:
    """Sections without a sheet, sheets, their area, and less the largest rest in one stretch."""
    area = sum(_area(sheet.stock) for sheet in used)
    rests = ((s.stock.width_mm - s.bed.right_mm) * s.stock.height_mm for s in used)
    return _unlaid(used, blanks), len(used), round(area, 3), -round(max(rests, default=0.0), 3)


def _is_done(
    best: Sequence[_Filled],
    blanks: Sequence[Blank],
    choice: SectionsChoice,
    gather: Gather,
    *,
    brief: bool,
) -> bool:
    """Whether the best so far is not worth trying this way too."""
    if gather == _LAST_WAY and not _may_do_with_fewer(best, blanks):
        return True
    one_size = len(choice.stock) == 1  # of several others may do, which area does not tell
    return (brief or gather != _FIRST_WAY) and one_size and not _may_do_with_fewer(best, blanks)


def _may_do_with_fewer(used: Sequence[_Filled], blanks: Sequence[Blank]) -> bool:
    """Whether by area a sheet less would do; True where sections found no room."""
    if _unlaid(used, blanks):
        return True
    room = sorted(sheet.bed.width_mm * sheet.bed.height_mm for sheet in used)
    return sum(item.area.area for item in blanks) <= sum(room[1:])


def _too_few_sheets(used: Sequence[_Filled], blanks: Sequence[Blank]) -> InputError:
    left = _unlaid(used, blanks)
    return InputError(
        f"the sheets at hand take {len(blanks) - left} of {len(blanks)} sections",
        where="sections",
        remedy="enter more or larger sheets, or let sections lie closer together",
    )


def _layout(
    used: Sequence[_Filled], sections: Sequence[Section], choice: SectionsChoice
) -> SheetLayout:
    margin = choice.margin_mm
    placed = [
        Placed(number, index, place.x_mm + margin, place.y_mm + margin, place.angle_rad)
        for index, sheet in enumerate(used)
        for number, place in sheet.laid.items()
    ]
    placed.sort(key=lambda item: item.section)
    sheets = tuple(UsedSheet(s.stock, s.bed.width_mm, s.bed.height_mm, 0.0) for s in used)
    return refreshed(SheetLayout((), sheets, tuple(sections), choice), placed)
