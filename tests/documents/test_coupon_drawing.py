"""The coupon's drawing, read back by GDAL."""

import math
from dataclasses import replace

import numpy as np
import pyogrio
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cutting import coupon
from holeplacer.cutting.cut_path import CutWish
from holeplacer.documents import caution, coupon_drawing
from holeplacer.documents.cut_drawing import CutStyle
from holeplacer.plan.plan import Plan

PLAN = Plan(ArtworkFile("bar.svg", b""))
MADE = coupon.coupon(PLAN, 4.0)


def read(data, tmp_path, *layers):
    """Lines on some layers, in the file's unit."""
    path = tmp_path / "coupon.dxf"
    path.write_bytes(data)
    frame = pyogrio.raw.read(path)
    names, geometry = frame[3][list(frame[0]["fields"]).index("Layer")], frame[2]
    return [shapely.from_wkb(g) for g, name in zip(geometry, names, strict=True) if name in layers]


@pytest.mark.parametrize("version", ["R12", "R2000"])
def test_a_second_reader_finds_every_hole_where_it_is_tried(tmp_path, version):
    """Diameters and centres are the coupon's, the plate its size, the slot one closed line."""
    data = coupon_drawing.coupon_drawing(PLAN, MADE, CutStyle(version=version))
    rings = read(data, tmp_path, "HOLES")
    want = sorted((t.x_mm, t.y_mm, t.diameter_mm) for t in MADE.trials if not t.is_slot)
    boxes = [ring.bounds for ring in rings]
    have = sorted(((b[0] + b[2]) / 2, (b[1] + b[3]) / 2, b[2] - b[0]) for b in boxes)
    assert np.allclose(have, want, atol=0.02)
    (plate,) = read(data, tmp_path, "OUTER")
    assert np.allclose(plate.bounds, (0, 0, MADE.width_mm, MADE.height_mm), atol=0.06)
    (slot,) = read(data, tmp_path, "COUNTERS")
    assert slot.is_ring


@pytest.mark.parametrize("ligament", [0.3, 4.0])
def test_labels_and_the_caps_ring_are_marked_within_the_plate(tmp_path, ligament):
    """Marks lie on metal: no label runs into an opening; the ring is as wide as the cap presses."""
    data = coupon_drawing.coupon_drawing(PLAN, coupon.coupon(PLAN, ligament))
    marks = read(data, tmp_path, "MARKS")
    openings = shapely.union_all(
        [shapely.Polygon(line) for line in read(data, tmp_path, "HOLES", "COUNTERS")]
    )
    plate = shapely.box(0, 0, MADE.width_mm, MADE.height_mm)
    assert len(marks) > 30
    assert all(plate.contains(mark) and not mark.intersects(openings) for mark in marks)
    widest = max(mark.bounds[2] - mark.bounds[0] for mark in marks)
    assert widest == pytest.approx(PLAN.standoff.pressed_mm, abs=0.02)


def test_it_is_offset_like_the_sign(tmp_path):
    """With the kerf taken off, holes are drawn smaller by it and the plate larger."""
    data = coupon_drawing.coupon_drawing(PLAN, MADE, wish=CutWish(offset=True, leads=False))
    (plate,) = read(data, tmp_path, "OUTER")
    kerf = plate.bounds[2] - plate.bounds[0] - MADE.width_mm
    widths = [r.bounds[2] - r.bounds[0] for r in read(data, tmp_path, "HOLES")]
    want = min(trial.diameter_mm for trial in MADE.trials)
    assert min(widths) == pytest.approx(want - kerf, abs=0.05)
    assert 1.0 < kerf < 2.0


def test_inches_are_inches(tmp_path):
    """The plate's size in the file is that of the coupon by 25.4."""
    data = coupon_drawing.coupon_drawing(PLAN, MADE, CutStyle(units="in"))
    (plate,) = read(data, tmp_path, "OUTER")
    assert plate.bounds[2] * 25.4 == pytest.approx(MADE.width_mm, abs=0.06)


def test_holes_that_are_drilled_are_only_marked(tmp_path):
    """A process that cuts no holes leaves centre marks, and the slot and the plate to cut."""
    plan = replace(PLAN, sheet=replace(PLAN.sheet, process="hand"))
    data = coupon_drawing.coupon_drawing(plan, MADE)
    assert read(data, tmp_path, "HOLES") == []
    marks = read(data, tmp_path, "MARKS")
    for trial in MADE.trials:
        if not trial.is_slot:
            at = shapely.Point(trial.x_mm, trial.y_mm)
            assert any(math.isclose(mark.distance(at), 0, abs_tol=1e-3) for mark in marks)


def test_it_is_written_with_its_proof(tmp_path):
    """The file holds what the drawing's bytes are."""
    path = tmp_path / "coupon.dxf"
    coupon_drawing.write_coupon_drawing(PLAN, MADE, path)
    assert path.read_bytes() == coupon_drawing.coupon_drawing(PLAN, MADE)


def test_the_slip_can_be_printed():
    """Every line of the slip, and the caution."""
    text = coupon_drawing.slip_text(PLAN, MADE).decode("utf-8")
    assert all(line in text for line in coupon.slip(PLAN, MADE))
    assert caution.SHORT in text
