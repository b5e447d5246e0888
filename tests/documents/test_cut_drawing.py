"""Cut drawings, read back by GDAL."""

import itertools
import math

import numpy as np
import pyogrio
import pyogrio.raw
import pytest
import shapely

from holeplacer.cutting.contours import Kind, Part, RoundHole, SeamEdge, signed_area_mm2
from holeplacer.cutting.cut_path import CutWish, cut_path
from holeplacer.documents import caution, cut_drawing
from holeplacer.documents.cut_drawing import CutStyle
from holeplacer.errors import ExportError, InputError
from holeplacer.sheet.process import process

PLASMA = process("plasma")
KERF = PLASMA.kerf_mm(2.0)


def letter(x):
    """Two parts of a wavy band with a counter, a hole to cut, a hole to drill and a seam."""
    t = np.linspace(0, 2 * math.pi, 900, endpoint=False)
    r = 90 + 12 * np.sin(3 * t)
    band = shapely.Polygon(np.column_stack([x + r * np.cos(t), 1.3 * r * np.sin(t)]))
    return band.difference(shapely.Point(x, 0).buffer(40, quad_segs=128))


def sheet_parts():
    left = Part("S1", letter(0.0), (RoundHole(-66, 0, 7.144, 1), RoundHole(66, 0, 3.0, 2)))
    cut = shapely.intersection(letter(260.0), shapely.box(260, -200, 500, 200))
    seams = (SeamEdge(1, (260.0, 41.0), (260.0, 100.0)),)
    return left, Part("S2", cut, (), seams)


@pytest.fixture(autouse=True)
def fine_arcs():
    """GDAL draws arcs in steps of 4 degrees, too coarse to measure by."""
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": 0.25})
    yield
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": None})


def by_gdal(data, path):
    """(layer, line in mm as GDAL reads it) of every entity, in the file's order."""
    path.write_bytes(data)
    meta, _, geometry, fields = pyogrio.raw.read(path, layer="entities")
    layers = fields[list(meta["fields"]).index("Layer")]
    return list(zip(layers, shapely.from_wkb(geometry), strict=True))


@pytest.mark.parametrize("offset", [False, True])
@pytest.mark.parametrize(("version", "units"), [("R2000", "mm"), ("R12", "mm"), ("R2010", "in")])
def test_gdal_reads_every_path_closed_in_order_and_direction(tmp_path, version, units, offset):
    """Holes, counters, outer contours; closed; outer clockwise; within the tolerance, both ways."""
    found = cut_path(sheet_parts(), PLASMA, 2.0, None, CutWish(offset))
    data = cut_drawing.cut_drawing(found, CutStyle(version, units))
    mm = 25.4 if units == "in" else 1.0
    rows = by_gdal(data, tmp_path / "sheet.dxf")
    layers = [layer for layer, _ in rows if layer in cut_drawing.LAYER_OF.values()]
    assert layers == ["HOLES", "COUNTERS", "OUTER", "OUTER"]
    lines = [line for layer, line in rows if layer in cut_drawing.LAYER_OF.values()]
    for line, cut in zip(lines, found.cuts, strict=True):
        xy = shapely.get_coordinates(line) * mm
        assert np.abs(xy[0] - xy[-1]).max() < 1e-6
        assert (signed_area_mm2(xy[:-1]) < 0) == (cut.path.kind is Kind.OUTER)
        ring, want = shapely.LinearRing(xy), shapely.LinearRing(cut.path.xy)
        slack = 0.05 + 0.03  # GDAL's and our own chords
        for one, other in ((ring, want), (want, ring)):
            points = shapely.points(shapely.get_coordinates(shapely.segmentize(one, 0.5)))
            assert shapely.distance(other, points).max() <= slack


def test_cuts_do_not_overlap_and_spare_the_metal(tmp_path):
    """Each path as GDAL reads it, as wide as the kerf, meets no other and takes no metal."""
    parts = sheet_parts()
    found = cut_path(parts, PLASMA, 2.0, None, CutWish(offset=True))
    rows = by_gdal(cut_drawing.cut_drawing(found), tmp_path / "sheet.dxf")
    torn = KERF / 2 - 0.06
    cuts = [line.buffer(torn) for layer, line in rows if layer in ("HOLES", "COUNTERS", "OUTER")]
    for i, one in enumerate(cuts):
        assert all(not one.intersects(other) for other in cuts[i + 1 :])
    metal = shapely.union_all([part.polygon for part in parts])
    holes = shapely.Point(-66, 0).buffer(7.144 / 2)
    ways = [line.buffer(torn) for layer, line in rows if layer == "PIERCES"]
    for region in [*cuts, *ways]:
        assert region.intersection(metal.difference(holes)).area < 1e-3


def test_each_path_is_preceded_by_its_lead_in(tmp_path):
    """On the layer of pierces, from the pierce to the point where the path begins."""
    found = cut_path(sheet_parts(), PLASMA, 2.0)
    rows = by_gdal(cut_drawing.cut_drawing(found), tmp_path / "sheet.dxf")
    for (layer, way), (_, path) in itertools.pairwise(rows):
        if layer == "PIERCES":
            end, start = shapely.get_coordinates(way)[-1], shapely.get_coordinates(path)[0]
            assert end == pytest.approx(start, abs=1e-6)
    assert sum(layer == "PIERCES" for layer, _ in rows) == len(found.cuts)


def test_marks_come_first_and_can_be_left_out(tmp_path):
    """A centre mark for the hole to drill always; labels and match marks if wanted."""
    found = cut_path(sheet_parts(), PLASMA, 2.0)
    full = [layer for layer, _ in by_gdal(cut_drawing.cut_drawing(found), tmp_path / "a.dxf")]
    bare = cut_drawing.cut_drawing(found, CutStyle(labels=False))
    few = [layer for layer, _ in by_gdal(bare, tmp_path / "b.dxf")]
    assert few.count("MARKS") == 2
    assert few.count("SEAMS") == 0
    assert full.count("MARKS") > 8
    assert full.count("SEAMS") == 1
    assert max(i for i, name in enumerate(full) if name in ("MARKS", "SEAMS")) < full.index("HOLES")


def test_few_arcs_instead_of_many_chords():
    """What they are, and how far they stray, is told."""
    drawing = cut_drawing.drawing_of(cut_path(sheet_parts(), PLASMA, 2.0))
    assert drawing.entities < sum(len(path.xy) for path in drawing.paths) / 10
    assert 0 < drawing.deviation_mm <= 0.05


def test_the_caution_heads_the_file_and_the_same_sheet_gives_the_same_bytes():
    """Nobody opens it without having the caution in it."""
    found = cut_path(sheet_parts(), PLASMA, 2.0)
    data = cut_drawing.cut_drawing(found)
    assert data.decode("cp1252").startswith(f"999\r\n{caution.SHORT}")
    assert data == cut_drawing.cut_drawing(found)


def test_written_files(tmp_path):
    """The file holds the drawing; what the work was made from is not overwritten."""
    found = cut_path(sheet_parts(), PLASMA, 2.0)
    target = tmp_path / "sheet-1.dxf"
    cut_drawing.write_cut_drawing(found, target)
    assert target.read_bytes() == cut_drawing.cut_drawing(found)
    with pytest.raises(ExportError, match="overwrite"):
        cut_drawing.write_cut_drawing(found, target, protected=[target])
    with pytest.raises(InputError):
        cut_drawing.cut_drawing(found, CutStyle(units="ft"))
