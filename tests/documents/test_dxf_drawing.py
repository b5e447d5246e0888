"""The whole sign with its holes."""

import io
from dataclasses import replace

import ezdxf
import numpy as np
import pyogrio
import pytest
import shapely

from holeplacer.documents import dxf_drawing
from holeplacer.documents.dxf_wish import Wish
from holeplacer.errors import ExportError, InputError
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole

HOLES = (Hole(1, 55.0, -50.0), Hole(2, 255.0, -50.0, diameter_mm=9.525))


@pytest.fixture
def fine_arcs():
    """Has GDAL step along arcs by half a degree; of itself it takes four."""
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": 0.5})
    yield
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": None})


def space_of(data):
    return ezdxf.read(io.StringIO(data.decode("cp1252"), newline=None)).modelspace()


def layers_of(data):
    return {entity.dxf.layer for entity in space_of(data)}


def test_holes_are_circles_where_the_plan_has_them(laid_out):
    """Each hole is a circle of its own diameter on the hole layer."""
    space = space_of(dxf_drawing.hole_drawing(laid_out(*HOLES)))
    circles = list(space.query("CIRCLE[layer=='HOLES']"))
    assert [tuple(c.dxf.center.vec2) for c in circles] == [(55, -50), (255, -50)]
    assert [2 * c.dxf.radius for c in circles] == pytest.approx([7.144, 9.525])


def test_holes_the_process_cannot_cut_are_marked_instead(laid_out):
    """A hole under the process's least diameter is a cross on the mark layer, not a circle."""
    layout = laid_out(HOLES[0], replace(HOLES[1], diameter_mm=3.0))
    for wanted in (True, False):
        data = dxf_drawing.hole_drawing(layout, centre_marks=wanted, numbers=False)
        space = space_of(data)
        assert len(space.query("CIRCLE[layer=='HOLES']")) == 1
        marks = [
            (line.dxf.start + line.dxf.end) / 2 for line in space.query("LINE[layer=='MARKS']")
        ]
        assert marks.count((255, -50, 0)) == 2
        assert len(marks) == (4 if wanted else 2)


def test_marks_are_as_wished(laid_out):
    """Without numbers and centre marks nothing lies on the mark layer."""
    layout = laid_out(*HOLES)
    assert "MARKS" not in layers_of(
        dxf_drawing.hole_drawing(layout, numbers=False, centre_marks=False)
    )
    texts = [t.dxf.text for t in space_of(dxf_drawing.hole_drawing(layout)).query("TEXT")]
    assert texts[:2] == ["1", "2"]
    assert texts[2].startswith("Sign 3")
    assert texts[2].endswith("mm overall")
    inches = space_of(dxf_drawing.hole_drawing(layout, units="in")).query("TEXT")
    assert "in overall" in inches.last.dxf.text


def test_the_artwork_s_own_hole_layer_is_left_alone(laid_out):
    """Artwork on a layer named Holes keeps it; the mounting holes go on another."""
    data = dxf_drawing.hole_drawing(laid_out(*HOLES, layer="Holes"))
    space = space_of(data)
    assert len(space.query("CIRCLE[layer=='HOLES-2']")) == 2
    assert len(space.query("SPLINE[layer=='Holes']")) == 20


def test_no_holes_is_a_drawing_too(laid_out):
    """The bare outline can be written before any hole is placed."""
    assert layers_of(dxf_drawing.hole_drawing(laid_out(layer=""))) == {
        "OUTER", "COUNTERS", "MARKS",
    }  # fmt: skip


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
@pytest.mark.parametrize("kinds", [("spline",) * 5, ("arc", "ellipse", "bulges", "line")])
def test_a_second_reader_sees_the_same_sign(laid_out, tmp_path, fine_arcs, version, kinds):
    """GDAL reads the holes at their places and the contours as the outline's region."""
    layout, path = laid_out(*HOLES, kinds=kinds, layer=""), tmp_path / "sign.dxf"
    wish = Wish(version, numbers=False, centre_marks=False)
    dxf_drawing.write_hole_drawing(layout, path, wish)
    meta, _, shapes, fields = pyogrio.raw.read(path)
    layer = fields[list(meta["fields"]).index("Layer")]
    lines = shapely.from_wkb(shapes)
    holes = lines[layer == "HOLES"]
    for hole, line in zip(layout.plan.holes, holes, strict=True):
        box = shapely.bounds(line)
        assert (box[:2] + box[2:]) / 2 == pytest.approx((hole.x_mm, hole.y_mm), abs=1e-3)
        assert box[2] - box[0] == pytest.approx(layout.plan.diameter_of(hole), abs=2e-2)
    cut = [shapely.LineString(np.asarray(line.coords)[:, :2]) for line in lines[layer != "HOLES"]]
    snapped = shapely.set_precision(shapely.union_all(cut), 1e-5)
    back = shapely.build_area(snapped)
    want = layout.outline.region
    assert back.symmetric_difference(want).area < 0.05 * want.length
    assert shapely.hausdorff_distance(back, want) < 0.06


def test_a_drawing_replaces_only_after_its_proof(laid_out, tmp_path, monkeypatch):
    """If the file read back is not the sign, the old drawing stays."""
    path = tmp_path / "sign.dxf"
    path.write_bytes(b"old")
    layout = laid_out(*HOLES)
    moved = replace(layout, plan=edit.with_hole_moved(layout.plan, 1, 55.001, -50.0))
    wrong = dxf_drawing.hole_drawing(moved)
    monkeypatch.setattr(dxf_drawing.dxf_file, "dxf_bytes", lambda *_, **__: wrong)
    with pytest.raises(ExportError, match=r"off by 0\.001 mm"):
        dxf_drawing.write_hole_drawing(layout, path)
    assert path.read_bytes() == b"old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["sign.dxf"]


def test_an_unknown_version_is_refused(laid_out):
    """The sentence names the versions that can be written."""
    with pytest.raises(InputError, match="R2000"):
        dxf_drawing.hole_drawing(laid_out(), version="R1")
