"""The read-back fails where it must."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.cutting.contours import Part, RoundHole
from holeplacer.cutting.cut_path import cut_path
from holeplacer.documents import cut_check, cut_drawing
from holeplacer.errors import ExportError
from holeplacer.sheet.process import process

PLATE = Part(
    "A",
    shapely.box(0, 0, 80, 60).difference(shapely.box(20, 20, 40, 40)),
    (RoundHole(60, 30, 7.1, 1),),
)
FOUND = cut_path([PLATE], process("plasma"), 2.0)
DATA = cut_drawing.cut_drawing(FOUND)


def check(paths, data=DATA, units="mm"):
    cut_check.check_cut_drawing(
        data, paths, cut_drawing.LAYER_OF, version="R2000", units=units, tolerance_mm=0.05
    )


def paths():
    return [cut.path for cut in FOUND.cuts]


def test_a_good_drawing_passes():
    """Nothing is raised."""
    check(paths())


@pytest.mark.parametrize("missing", [0, 1, 2])
def test_a_path_too_many_or_too_few(missing):
    """On any layer."""
    with pytest.raises(ExportError, match="closed paths"):
        check([path for index, path in enumerate(paths()) if index != missing])


@pytest.mark.parametrize("moved", [1, 2])
def test_a_path_that_strays(moved):
    """By a tenth of a millimetre."""
    wanted = paths()
    wanted[moved] = replace(wanted[moved], xy=wanted[moved].xy + np.array([0.1, 0.0]))
    with pytest.raises(ExportError, match=r"0\.100 mm off"):
        check(wanted)


def test_a_hole_of_another_size():
    """Two tenths in diameter."""
    wanted = paths()
    wanted[0] = replace(wanted[0], hole=replace(wanted[0].hole, diameter_mm=7.3))
    with pytest.raises(ExportError, match="path 1 on HOLES"):
        check(wanted)


def test_the_wrong_direction():
    """A counter that runs clockwise."""
    counter = next(stroke for stroke in cut_drawing.drawing_of(FOUND).strokes
                   if stroke.layer == "COUNTERS")  # fmt: skip
    drawing = cut_drawing.drawing_of(FOUND)
    turned = replace(counter, curve=replace(counter.curve, xy=counter.curve.xy[::-1]))
    strokes = tuple(turned if s.layer == "COUNTERS" else s for s in drawing.strokes)
    data = cut_drawing._dxf(replace(drawing, strokes=strokes), cut_drawing.CutStyle())
    with pytest.raises(ExportError, match="wrong direction"):
        check(paths(), data)


def test_another_unit_and_no_drawing_at_all():
    """Inches where millimetres were wanted; half a file."""
    with pytest.raises(ExportError, match="unit"):
        check(paths(), units="in")
    with pytest.raises(ExportError):
        check(paths(), DATA[: len(DATA) // 2])
