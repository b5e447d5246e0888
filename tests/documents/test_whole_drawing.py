"""The whole sign with its seams, read back by GDAL."""

from dataclasses import replace

import numpy as np
import pyogrio
import pytest
import shapely

from holeplacer.documents import dxf_drawing, whole_drawing
from holeplacer.documents.dxf_wish import Wish
from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam
from holeplacer.seams import sections


def divided(laid_out):
    """The sign with its holes, cut by one upright seam through its first piece's middle."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    piece = layout.outline.pieces[0].polygon
    left, bottom, right, top = piece.bounds
    for share in np.linspace(0.3, 0.7, 9):
        x = left + share * (right - left)
        cut = piece.intersection(shapely.LineString([(x, bottom - 1), (x, top + 1)]))
        (x1, y1), *_, (x2, y2) = shapely.get_coordinates(shapely.get_parts(cut)[0])
        seam = Seam(x1, y1, x2, y2)
        plan = replace(layout.plan, seams=(seam,))
        layout = replace(layout, plan=plan)
        made = sections.sections(layout.outline, plan.seams, plan.holes)
        if len(made) > len(layout.outline.pieces):
            break
    return layout, made


def lines_of(data, tmp_path):
    path = tmp_path / "whole.dxf"
    path.write_bytes(data)
    meta, _, geometry, fields = pyogrio.raw.read(path)
    names = fields[list(meta["fields"]).index("Layer")]
    found = {}
    for name, wkb in zip(names, geometry, strict=True):
        found.setdefault(name, []).append(shapely.from_wkb(wkb))
    return found


@pytest.mark.parametrize("version", ["R12", "R2000"])
def test_the_seam_stands_in_the_drawing_where_it_is(laid_out, tmp_path, version):
    """A second reader finds it on its own layer, and marks on theirs, within the metal."""
    layout, made = divided(laid_out)
    data = whole_drawing.whole_drawing(layout, made, Wish(version=version))
    found = lines_of(data, tmp_path)
    (seam,) = found[whole_drawing.SEAMS]
    (want,) = layout.plan.seams
    ends = [(want.x1_mm, want.y1_mm), (want.x2_mm, want.y2_mm)]
    assert np.allclose(shapely.get_coordinates(seam), ends, atol=1e-6)
    marks = [line for line in found["MARKS"] if line.geom_type == "LineString"]
    assert all(layout.outline.region.buffer(0.1).covers(line) for line in marks)


def test_contours_stay_as_the_artist_drew_them(laid_out):
    """But for the scribed lines the page is that of the undivided sign."""
    layout, made = divided(laid_out)
    page = whole_drawing.whole_page(layout, made, Wish())
    plain = dxf_drawing.hole_page(layout, Wish())
    assert page.circles == plain.circles
    assert len(page.contours) == len(plain.contours)
    assert len(page.scribed) >= 1


def test_a_layer_of_that_name_is_not_written_over(laid_out, monkeypatch):
    """Where the artwork has a layer SEAMS, the seams' own is numbered."""
    layout, made = divided(laid_out)
    plain = dxf_drawing.hole_page(layout, Wish())
    taken = replace(plain, layers=(replace(plain.layers[0], name="Seams"), *plain.layers))
    monkeypatch.setattr(dxf_drawing, "hole_page", lambda *_: taken)
    page = whole_drawing.whole_page(layout, made, Wish())
    assert page.layers[-1].name == "SEAMS-2"


def test_it_is_written_with_its_proof(laid_out, tmp_path):
    """The file holds what the drawing's bytes are."""
    layout, made = divided(laid_out)
    path = tmp_path / "whole.dxf"
    whole_drawing.write_whole_drawing(layout, made, path)
    assert path.read_bytes() == whole_drawing.whole_drawing(layout, made)
