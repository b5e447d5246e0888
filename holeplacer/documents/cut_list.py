"""Cut list: sheets and sections with what each costs to cut, as a table of values."""

import csv
import io
import math
from dataclasses import dataclass

from holeplacer.cutting import cut_figures, division
from holeplacer.cutting.cut_figures import CutFigures, PartFigures
from holeplacer.cutting.sheet_layout import Placed, SheetLayout
from holeplacer.documents import caution
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.seams import preparation, tacking
from holeplacer.seams.tacking import Weld
from holeplacer.sheet.stock import Stock
from holeplacer.units import LengthUnit, format_length, format_mass, format_way

COLUMNS = (
    "sheet",
    "section",
    "width_mm",
    "height_mm",
    "area_mm2",
    "mass_kg",
    "contours",
    "cut_mm",
    "pierces",
    "holes_cut",
    "holes_drilled",
    "weld_mm",
    "x_mm",
    "y_mm",
    "angle_deg",
)
"""One row per section. Width and height are those of the rectangle round it as it lies; x and y
are that rectangle's lower left corner from the sheet's; the angle is from the sign to the sheet."""


@dataclass(frozen=True, eq=False)
class CutList:
    """What the list says.

    Attributes:
        plan: Whose sign it is.
        layout: Which section lies where.
        sheets: Figures of each sheet.
        whole: Figures of all of them.
        welds: Seams in the order they are welded.
    """

    plan: Plan
    layout: SheetLayout
    sheets: tuple[CutFigures, ...]
    whole: CutFigures
    welds: tuple[Weld, ...] = ()

    @property
    def name(self) -> str:
        """Of the artwork, without signs that can't be printed."""
        return "".join(sign if sign.isprintable() else "?" for sign in self.plan.artwork.name)


def cut_list(layout: SheetLayout, plan: Plan, outline: Outline) -> CutList:
    """The list of a layout.

    Args:
        layout: Sections of the plan on sheets.
        plan: The plan with the holes and seams that the sections refer to.
        outline: Its cut outline.
    """
    figures = division.figures(layout, plan)
    welded = tacking.welds(outline, plan.seams, layout.sections)
    return CutList(plan, layout, figures, cut_figures.together(figures), welded)


def as_csv(listed: CutList) -> bytes:
    """The list as CSV: notes that begin with `#`, column names, a row per section.

    Returns:
        UTF-8 text with the CRLF line ends of RFC 4180.
    """
    text = io.StringIO()
    notes = (*heading(listed), *sheet_lines(listed), *weld_lines(listed), caution.SHORT)
    for note in notes:
        text.write(f"# {note}\r\n")
    rows = csv.writer(text)
    rows.writerow(COLUMNS)
    for index, figures in enumerate(listed.sheets):
        for placed, part in zip(listed.layout.on_sheet(index), figures.parts, strict=True):
            rows.writerow(_row(listed, placed, part))
    return text.getvalue().encode("utf-8", errors="replace")


def heading(listed: CutList, unit: LengthUnit = LengthUnit.MM) -> tuple[str, ...]:
    """What is cut, of what, and what it comes to."""
    sheet, whole = listed.plan.sheet, listed.whole
    return (
        f"Cut list of {listed.name}",
        (
            f"{sheet.material.alloy}, {format_length(sheet.thickness_mm, unit)}, cut by "
            f"{sheet.process}; margin {format_length(listed.layout.choice.margin_mm, unit)}, "
            f"sections at least {format_length(listed.layout.choice.apart_mm, unit)} apart"
        ),
        (
            f"{_counted(len(listed.sheets), 'sheet')}, {_counted(len(whole.parts), 'section')}, "
            f"{format_mass(whole.mass_kg, unit)}; {_cost(whole, unit)}"
        ),
    )


def sheet_lines(listed: CutList, unit: LengthUnit = LengthUnit.MM) -> tuple[str, ...]:
    """One line for each sheet: size, measured or not, scrap share, what it costs to cut."""
    return tuple(
        f"Sheet {number}: {size(used.stock, unit)}; {_cost(figures, unit)}"
        for number, (used, figures) in enumerate(
            zip(listed.layout.sheets, listed.sheets, strict=True), start=1
        )
    )


def weld_lines(listed: CutList, unit: LengthUnit = LengthUnit.MM) -> tuple[str, ...]:
    """How seams are prepared and in which order tacked and welded; nothing where there are none."""
    if not listed.welds:
        return ()
    tacks = sum(len(weld.tacks) for weld in listed.welds)
    total = sum(weld.weld_mm for weld in listed.welds)
    return (
        (
            f"{_counted(len(listed.welds), 'seam')}, {format_length(total, unit)} of weld. Lay all "
            f"sections out flat, match marks together, and clamp them; set all {tacks} tacks by "
            "number before welding one seam through"
        ),
        *preparation.notes(listed.plan, unit),
        *(_weld(weld, unit) for weld in listed.welds),
    )


def _weld(weld: Weld, unit: LengthUnit) -> str:
    sides = " and ".join(str(number) for number in weld.between)
    tacks = ", ".join(str(tack.order) for tack in weld.tacks)
    return (
        f"Weld {weld.order}: seam {weld.seam + 1} between sections {sides}, "
        f"{format_length(weld.weld_mm, unit)}; tacks {tacks}, the first "
        f"{'in the middle' if len(weld.tacks) % 2 else 'at one end'}"
    )


def size(stock: Stock, unit: LengthUnit = LengthUnit.MM) -> str:
    """A sheet's size, with a warning where nobody measured it."""
    sides = f"{format_length(stock.width_mm, unit)} x {format_length(stock.height_mm, unit)}"
    if stock.measured:
        return f"{sides} measured" + (f" (bought as {stock.nominal})" if stock.nominal else "")
    return f"{sides} nominal, NOT MEASURED: measure it before cutting"


def _cost(figures: CutFigures, unit: LengthUnit) -> str:
    if figures.minutes is None:
        time = "no time, since speeds are not entered"
    else:
        time = f"about {figures.minutes:.0f} min by the speeds entered"
    return (
        f"scrap {100 * figures.scrap_share:.1f} %, cut {format_way(figures.cut_mm, unit)}, "
        f"{_counted(figures.pierces, 'pierce')}, {_counted(figures.holes_cut, 'hole')} cut and "
        f"{figures.holes_drilled} to drill, {time}"
    )


def _row(listed: CutList, placed: Placed, part: PartFigures) -> tuple[str, ...]:
    left, bottom, _, _ = placed.of(listed.layout.section(placed.section).polygon).bounds
    return (
        str(placed.sheet + 1),
        part.label,
        f"{part.width_mm:.1f}",
        f"{part.height_mm:.1f}",
        f"{part.area_mm2:.1f}",
        f"{part.mass_kg:.3f}",
        str(part.contours),
        f"{part.cut_mm:.0f}",
        str(part.contours),
        str(part.holes_cut),
        str(part.holes_drilled),
        f"{part.weld_mm:.1f}",
        f"{left:.2f}",
        f"{bottom:.2f}",
        f"{math.degrees(placed.angle_rad) % 360.0:.2f}",
    )


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
