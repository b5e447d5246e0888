"""Figures of the seam in hand."""

from holeplacer.gui.canvas.seam_figures import seam_lines
from holeplacer.plan.seam import Seam
from holeplacer.units import LengthUnit


def test_each_figure_stands_beside_its_limit(strokes):
    """Weld, hole, tip, junction; what is short is marked."""
    seam = Seam(110.0, 80.0, 110.0, 120.0)
    weld, hole, tip, junction = seam_lines(strokes.plan, strokes, seam, LengthUnit.MM)
    assert (weld.what, weld.figure, weld.limit) == ("weld length", "40 mm", "")
    assert (hole.what, hole.figure, hole.broken) == ("to hole 1", "10 mm", True)
    assert hole.limit.startswith("≥ 18.")
    assert (tip.what, tip.limit, tip.broken) == ("to the tip", "≥ 15 mm", False)
    assert junction.what == "to the junction"


def test_inches_where_inches_are_shown(strokes):
    """Every figure in the unit of the window."""
    seam = Seam(240.0, 80.0, 240.0, 120.0)
    lines = seam_lines(strokes.plan, strokes, seam, LengthUnit.INCH)
    assert all(line.figure.endswith(" in") for line in lines)
