"""Copies of blocks in the drawing."""

import math

import ezdxf
import pytest
from dxf_drafts import (
    QUICK,
    as_lines,
    block,
    by_gdal,
    circle,
    drafted,
    entries,
    furthest,
    insert,
    line,
    read,
    saved,
    tags,
)
from hypothesis import given, settings
from hypothesis import strategies as st

numbers = st.floats(-50, 50).map(lambda value: round(value, 2))
scales = st.sampled_from([1.0, -1.0, 0.5, 2.0, -1.5])


@st.composite
def places(draw):
    return {
        "insert": (draw(numbers), draw(numbers)),
        "xscale": draw(scales),
        "yscale": draw(scales),
        "rotation": draw(st.floats(0, 360)),
        "extrusion": draw(st.sampled_from([(0, 0, 1), (0, 0, -1)])),
    }


@given(places(), places())
@settings(max_examples=25, deadline=None, phases=QUICK)
def test_nested_insertions_agree_with_gdal(tmp_path_factory, inner, outer):
    """Scaled, turned, mirrored and stretched copies within copies lie where GDAL puts them."""
    doc = ezdxf.new("R2000")
    leaf = doc.blocks.new("LEAF", base_point=(1, 2))
    leaf.add_line((0, 0), (10, 3))
    leaf.add_lwpolyline([(0, 0), (8, 0), (8, 5)], close=True)
    even = all(abs(place["xscale"]) == abs(place["yscale"]) for place in (inner, outer))
    if even:
        leaf.add_arc((3, 4), 5, 20, 140)
        leaf.add_lwpolyline([(0, 0, 0.5), (8, 0, -0.2), (8, 5, 0)], format="xyb")
    doc.blocks.new("BRANCH").add_blockref("LEAF", inner.pop("insert"), dxfattribs=inner)
    doc.modelspace().add_blockref("BRANCH", outer.pop("insert"), dxfattribs=outer)
    file = saved(doc)
    path = tmp_path_factory.mktemp("gdal") / "sign.dxf"
    assert furthest(as_lines(read(file)), by_gdal(file, path)) < 0.02


def test_counts_of_copies():
    """Every copy counts: read, hidden and left out alike."""
    blocks = block("B", circle(on="A") + tags(0, "TEXT", 8, "A") + line(0, 0, 1, 1, 31, 5))
    drawing = read(drafted(insert("B", 0, 0, 70, 3, 71, 2, 44, 5, 45, 5, on="C"), blocks=blocks))
    assert entries(drawing.account.read) == {("CIRCLE", "layer A"): 6, ("LINE", "layer C"): 6}
    assert entries(drawing.account.mended) == {
        ("LINE not level: read as seen from above", "layer C"): 6
    }
    assert sum(entries(drawing.account.ignored).values()) == 6
    assert set(drawing.layers) == {("0", 0, True), ("C", 6, True), ("A", 12, True)}


def test_lines_of_many_layers_come_apart():
    """Loose lines are kept in bulk, one array for each layer."""
    drawn = "".join(line(i, 0, i, 1, on=f"L{i % 3}") for i in range(30))
    drawing = read(drafted(drawn))
    assert {lines.layer: len(lines.xy) for lines in drawing.lines} == {"L0": 10, "L1": 10, "L2": 10}
    assert all(lines.kind == "LINE" for lines in drawing.lines)


@pytest.mark.parametrize("angle", [0, 30, 90])
def test_stretched_circle_of_a_turned_block(angle):
    """A circle stretched along the turned axis has its major axis there."""
    data = drafted(insert("B", 0, 0, 41, 4, 50, angle), blocks=block("B", circle()))
    curve = read(data).contours[0].segments[0].curve
    turn = math.degrees(math.atan2(curve.major[1], curve.major[0])) % 180
    assert math.hypot(*curve.major) == pytest.approx(4)
    assert min(abs(turn - angle), 180 - abs(turn - angle)) < 1e-9
