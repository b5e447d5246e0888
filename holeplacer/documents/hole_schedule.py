"""Hole schedule: a table of every hole, measured from the sign's lower left corner."""

import csv
import io
from fractions import Fraction

from holeplacer.documents import caution
from holeplacer.evaluation.evaluate import Evaluation, HoleFigures
from holeplacer.evaluation.layout import Layout
from holeplacer.units import MM_PER_INCH

COLUMNS = (
    "number",
    "x_mm",
    "y_mm",
    "x_in",
    "y_in",
    "diameter_mm",
    "diameter_in",
    "edge_distance_mm",
    "ligament_mm",
    "piece",
    "made_by",
    "artwork_x_mm",
    "artwork_y_mm",
)
"""Inches are to the nearest 1/32, for a tape measure; millimetres are exact to a hundredth.
`x` and `y` are from the datum, `artwork_x` and `artwork_y` those of the drawing."""


def hole_schedule(layout: Layout, evaluation: Evaluation) -> bytes:
    """The table as CSV: notes, column names, one row per hole in order of number.

    Notes begin with `#`: the datum, how to read the columns, and the caution.

    Args:
        layout: The plan with its outline.
        evaluation: Figures of its holes.

    Returns:
        UTF-8 text with the CRLF line ends of RFC 4180.
    """
    left, bottom, _, _ = layout.outline.bounds_mm
    text = io.StringIO()
    for note in _notes(layout):
        text.write(f"# {note}\r\n")
    rows = csv.writer(text)
    rows.writerow(COLUMNS)
    for hole in sorted(evaluation.holes, key=lambda hole: hole.number):
        rows.writerow(_row(hole, left, bottom))
    return text.getvalue().encode("utf-8", errors="replace")


def tape_inches(mm: float) -> str:
    """Inches to the nearest 1/32, as a tape shows them: `37 5/16`.

    >>> tape_inches(947.7375)
    '37 5/16'
    >>> tape_inches(-0.2)
    '0'
    """
    fraction = Fraction(round(mm / MM_PER_INCH * 32), 32)
    whole, part = divmod(abs(fraction), 1)
    shown = " ".join(str(value) for value in (whole, part) if value) or "0"
    return f"-{shown}" if fraction < 0 else shown


def _notes(layout: Layout) -> tuple[str, ...]:
    left, bottom, right, top = layout.outline.bounds_mm
    name = "".join(sign if sign.isprintable() else "?" for sign in layout.plan.artwork.name)
    return (
        f"Holes of {name}, sign {right - left:.2f} x {top - bottom:.2f} mm",
        (
            "Datum: lower left corner of the rectangle round the whole sign, seen from the front; "
            "x to the right and y up"
        ),
        (
            f"Datum in the artwork's coordinates: x {left:.3f} mm and y {bottom:.3f} mm; inches to "
            "the nearest 1/32"
        ),
        "Edge distance: hole centre to the nearest cut edge; ligament: metal left between them",
        caution.SHORT,
    )


def _row(hole: HoleFigures, left: float, bottom: float) -> tuple[str, ...]:
    x, y = hole.x_mm - left, hole.y_mm - bottom
    return (
        str(hole.number),
        f"{x:.2f}",
        f"{y:.2f}",
        tape_inches(x),
        tape_inches(y),
        f"{hole.diameter_mm:.3f}",
        tape_inches(hole.diameter_mm),
        f"{hole.edge_distance_mm:.2f}",
        f"{hole.ligament_mm:.2f}",
        str(hole.piece + 1) if hole.piece >= 0 else "outside",
        "drill" if hole.drilled else "cut",
        f"{hole.x_mm:.4f}",
        f"{hole.y_mm:.4f}",
    )
