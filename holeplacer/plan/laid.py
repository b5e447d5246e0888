"""Laid section: where on a sheet one section lies, kept because somebody moved sections by hand."""

from dataclasses import dataclass

from holeplacer.sheet.stock import Stock


@dataclass(frozen=True)
class LaidSection:
    """One section on its sheet.

    Sections are numbered anew whenever a seam changes; so a point within and the area tell which
    one is meant. Where neither finds it any more, it is laid out with the rest.

    Attributes:
        x_mm, y_mm: A point within the section, in sign coordinates.
        area_mm2: Area of the section.
        stock: Which size of sheet it lies on.
        sheet: Which sheet, counted from 0.
        at_x_mm, at_y_mm: Where that point lies on the sheet, from its lower left corner.
        angle_rad: How far the section is turned, anticlockwise.
        by_hand: Somebody put it there: it stays when the rest is laid out anew.
    """

    x_mm: float
    y_mm: float
    area_mm2: float
    stock: Stock
    sheet: int
    at_x_mm: float
    at_y_mm: float
    angle_rad: float
    by_hand: bool = False
