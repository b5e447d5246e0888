"""What is a curve, what an insertion, what neither."""

import ezdxf
import pytest
from dxf_drafts import circle, curves_of, drafted, entries, line, read, saved, tags

from holeplacer.artwork import dxf_contents
from holeplacer.artwork.dxf_contents import NOT_READ, OTHERWISE_NOT_READ
from holeplacer.errors import ArtworkError


@pytest.mark.parametrize("kind", [*NOT_READ, "DIMENSION", "LEADER", "HELIX", "WIPEOUT", "MADE_UP"])
def test_everything_else_is_named(kind):
    """No entity is lost silently: each kind is counted by layer, with why it is not read."""
    drawing = read(drafted(circle() + tags(0, kind, 8, "NOTES") * 3))
    why = NOT_READ.get(kind, OTHERWISE_NOT_READ)
    assert entries(drawing.account.ignored) == {(f"{kind} {why}", "layer NOTES"): 3}


def test_hatches_of_a_real_file_are_accounted_for():
    """Fills, texts and dimensions that ezdxf writes are all in the account."""
    doc = ezdxf.new("R2010")
    space = doc.modelspace()
    space.add_hatch().paths.add_polyline_path([(0, 0), (1, 0), (1, 1)])
    space.add_mtext("words")
    space.add_text("word")
    space.add_solid([(0, 0), (1, 0), (1, 1)])
    space.add_3dface([(0, 0), (1, 0), (1, 1)])
    space.add_linear_dim(base=(0, 2), p1=(0, 0), p2=(3, 0)).render()
    space.add_circle((0, 0), 1)
    drawing = read(saved(doc))
    named = {entry.what.split()[0] for entry in drawing.account.ignored}
    assert named >= {"HATCH", "MTEXT", "TEXT", "SOLID", "3DFACE", "DIMENSION"}
    assert len(curves_of(drawing)) == 1


@pytest.mark.parametrize(
    ("code", "what"), [(60, "marked invisible"), (67, "in paper space (a sheet layout)")]
)
@pytest.mark.parametrize("kind", ["LINE", "CIRCLE", "INSERT", "LWPOLYLINE"])
def test_invisible_and_sheet_entities_are_left_out(code, what, kind):
    """Entities marked invisible, or on a sheet, are not read but accounted for."""
    entity = tags(0, kind, 8, "A", code, 1, 10, 0, 20, 0, 11, 1, 21, 1, 40, 1)
    drawing = read(drafted(circle() + entity))
    assert entries(drawing.account.ignored) == {(f"{kind} {what}", "layer A"): 1}


def test_vertices_go_with_their_polyline():
    """The parts of a POLYLINE that is left out are not counted on their own."""
    mesh = tags(0, "POLYLINE", 8, "A", 70, 64) + tags(0, "VERTEX", 8, "A", 10, 0) * 4
    drawing = read(drafted(circle() + mesh + tags(0, "SEQEND")))
    assert entries(drawing.account.ignored) == {("POLYLINE that is a surface mesh", "layer A"): 1}


def test_sheet_layouts_kept_as_blocks_are_accounted_for():
    """What is drawn on further sheets is named as well."""
    doc = ezdxf.new("R2010")
    doc.modelspace().add_circle((0, 0), 1)
    doc.layouts.get("Layout1").add_line((0, 0), (1, 1))
    doc.layouts.new("Second").add_circle((0, 0), 5)
    found = entries(read(saved(doc)).account.ignored)
    assert found[("LINE in paper space (a sheet layout)", "layer 0")] == 1
    assert found[("CIRCLE in paper space (a sheet layout)", "layer 0")] == 1


@pytest.mark.parametrize(("limit", "entity"), [("CURVES", circle()), ("LINES", line(0, 0, 1, 1))])
def test_a_flood_of_curves_is_refused(monkeypatch, limit, entity):
    """More curves or lines than can be followed in time are refused by their number."""
    monkeypatch.setattr(dxf_contents, f"MOST_{limit}", 10)
    with pytest.raises(ArtworkError, match=f"holds 11 {limit.lower()}, more than the 10"):
        read(drafted(entity * 11))
    assert read(drafted(entity * 10)).account.read[0].count == 10
