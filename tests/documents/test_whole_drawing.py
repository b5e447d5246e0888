"""The whole sign with its original curves, read back by GDAL and by the strict reader."""

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from holeplacer.cutting.contours import Part, RoundHole, SeamEdge, signed_area_mm2
from holeplacer.documents import cut_drawing, dxf_check, whole_drawing
from holeplacer.documents.cut_drawing import CutStyle
from holeplacer.errors import ExportError

KINDS = [("spline", "arc", "line", "spline"), ("spline", "bulges", "ellipse", "line", "steps")]
HOLES = (RoundHole(55.0, -50.0, 7.1, 1), RoundHole(255.0, -50.0, 3.0, 2))


def parts_of(outline):
    seam = SeamEdge(1, (0.1, -20.0), (0.1, 30.0))
    first, second = (piece.polygon for piece in outline.pieces)
    return Part("S1", first, HOLES[:1], (seam,)), Part("S2", second, HOLES[1:])


def entities(data, version, layer):
    document = dxf_check.read_document(data, version)
    return [entity for entity in document.modelspace() if entity.dxf.layer == layer]


def test_curves_go_out_as_they_were_drawn(drawn_letters):
    """Splines, arcs and ellipses keep their kind and number; holes first, outer contours last."""
    drawn, outline = drawn_letters(KINDS)
    drawing = whole_drawing.whole_drawing(outline, drawn, parts_of(outline), 4.76)
    data = cut_drawing.proven_dxf(drawing, CutStyle())
    outer = Counter(entity.dxftype() for entity in entities(data, "R2000", "OUTER"))
    assert outer["SPLINE"] == 3
    assert outer["ELLIPSE"] == 1
    assert outer["ARC"] == 1
    layers = [s.layer for s in drawing.strokes if s.layer in cut_drawing.LAYER_OF.values()]
    assert layers == sorted(layers, key=["HOLES", "COUNTERS", "OUTER"].index)
    assert layers.count("HOLES") == 1


def test_strokes_run_in_the_direction_of_cutting(drawn_letters):
    """Paths, and the strokes in their order, run outer clockwise and inside anticlockwise."""
    drawn, outline = drawn_letters([("spline", "line", "spline"), ("spline",) * 5])
    drawing = whole_drawing.whole_drawing(outline, drawn, parts_of(outline), 4.76)
    for path in drawing.paths:
        assert (signed_area_mm2(path.xy) < 0) == (path.kind.name == "OUTER")
    document = dxf_check.read_document(cut_drawing.proven_dxf(drawing, CutStyle()), "R2000")
    for layer, clockwise in (("COUNTERS", False), ("OUTER", True)):
        for contour in dxf_check.read_contours(document, {layer}, 1.0):
            assert (signed_area_mm2(contour.xy) < 0) == clockwise


@pytest.mark.parametrize(("version", "units"), [("R12", "mm"), ("R2010", "in")])
def test_every_version_and_unit_is_proven(drawn_letters, version, units):
    """R12 has no splines; each file holds every path where it belongs."""
    drawn, outline = drawn_letters(KINDS)
    style = CutStyle(version, units)
    drawing = whole_drawing.whole_drawing(outline, drawn, parts_of(outline), 4.76, style)
    data = cut_drawing.proven_dxf(drawing, style)
    if version == "R12":
        assert not any(e.dxftype() == "SPLINE" for e in entities(data, "R12", "OUTER"))


def test_seams_and_marks_are_there(drawn_letters):
    """The seam as a line, the small hole as a cross, both labels."""
    drawn, outline = drawn_letters(KINDS)
    drawing = whole_drawing.whole_drawing(outline, drawn, parts_of(outline), 4.76)
    layers = Counter(stroke.layer for stroke in drawing.strokes)
    assert layers["SEAMS"] == 1
    assert layers["MARKS"] > 6


def test_an_outline_other_than_the_drawing_is_refused(drawn_letters, monkeypatch):
    """The read-back measures against the outline: a contour moved by 1 mm does not pass."""
    drawn, outline = drawn_letters(KINDS)
    drawing = whole_drawing.whole_drawing(outline, drawn, parts_of(outline), 4.76)
    moved = tuple(replace(path, xy=path.xy + np.array([1.0, 0.0])) for path in drawing.paths)
    wrong = cut_drawing.CutDrawing(drawing.strokes, moved, drawing.bounds_mm, 1, 0.0, 0.05, False)
    with pytest.raises(ExportError, match="mm off"):
        cut_drawing.proven_dxf(wrong, CutStyle())
