"""DXF files as whole drawings."""

import re

import ezdxf
import numpy as np
import pytest
from dxf_drafts import (
    as_lines,
    by_gdal,
    circle,
    curves_of,
    drafted,
    ends_of_lines,
    entries,
    furthest,
    line,
    read,
    saved,
    tags,
)

from holeplacer.artwork import dxf_reader
from holeplacer.artwork.options import ReadOptions
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline, Spline
from holeplacer.geometry.flatten import flatten_all

VERSIONS = ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]


def sign(version):
    """A drawing with every kind of curve that the version knows, and a block."""
    doc = ezdxf.new(version, units=4)
    doc.layers.add("CUT")
    leaf = doc.blocks.new("LEAF")
    leaf.add_circle((0, 0), 2)
    leaf.add_line((0, 0), (5, 5))
    space = doc.modelspace()
    space.add_arc((30, 0), 5, 10, 200, dxfattribs={"layer": "CUT"})
    space.add_polyline2d([(0, 0), (40, 0, 0.4), (40, 30)], format="xyb", close=True)
    space.add_blockref("LEAF", (50, 50), dxfattribs={"rotation": 40, "layer": "CUT"})
    space.add_text("words")
    if version != "R12":
        space.add_lwpolyline([(0, 40), (10, 40, -0.5), (10, 50)], format="xyb")
        space.add_ellipse((80, 0), (20, 5), 0.4, 0, 4)
    return doc


@pytest.mark.parametrize("version", VERSIONS)
def test_all_versions_agree_with_gdal(tmp_path, version):
    """GDAL draws the same from R12 to 2018, and the unit is known where the version has one."""
    data = saved(sign(version))
    drawing = read(data)
    texts = {"TEXT not read: lettering must be converted to curves"}
    assert {entry.what for entry in drawing.account.ignored} == texts
    assert drawing.units == (None if version == "R12" else "mm")
    path = tmp_path / "sign.dxf"
    theirs = by_gdal(re.sub(rb"TEXT\r?\n", b"NOTEXT\n", data), path)
    assert furthest(as_lines(drawing), theirs) < 0.02


def test_kinds_of_curves_survive():
    """Every curve comes out as what it is."""
    doc = sign("R2010")
    doc.modelspace().add_open_spline([(0, 0), (1, 2), (3, 3), (4, 0)])
    kinds = {(s.kind, type(s.curve)) for s in segments(read(saved(doc)))}
    assert kinds == {
        ("ARC", CircularArc),
        ("CIRCLE", CircularArc),
        ("POLYLINE", Polyline),
        ("LWPOLYLINE", Polyline),
        ("ELLIPSE", EllipticArc),
        ("SPLINE", Spline),
    }


def segments(drawing):
    closed = [segment for contour in drawing.contours for segment in contour.segments]
    return [*closed, *drawing.loose]


def test_closed_curves_are_contours_and_open_ones_loose():
    """What closes by itself is a contour without a fill; the rest waits to be chained."""
    drawing = read(saved(sign("R2010")))
    assert [s.kind for c in drawing.contours for s in c.segments] == ["POLYLINE", "CIRCLE"]
    assert all(contour.fill is None for contour in drawing.contours)
    assert {segment.kind for segment in drawing.loose} == {"ARC", "LWPOLYLINE", "ELLIPSE"}
    assert len(ends_of_lines(drawing)) == 1


def test_nothing_usable_names_what_there_is():
    """A file of lettering and fills is refused with their numbers and the way out."""
    data = drafted(tags(0, "TEXT", 8, "A") * 7 + tags(0, "HATCH", 8, "B") + circle(0, 0, -1))
    with pytest.raises(ArtworkError, match="no curve of it can be used: it holds 7 TEXT") as caught:
        read(data)
    assert "convert lettering" in str(caught.value)


def test_counts_are_complete():
    """Every entity of the file is either read or accounted for."""
    drawn = circle() * 5 + line(0, 0, 1, 1) * 4 + tags(0, "TEXT") * 3 + circle(0, 0, "x") * 2
    account = read(drafted(drawn)).account
    read_count = sum(entries(account.read).values())
    assert (read_count, sum(entries(account.ignored).values())) == (9, 5)


def test_many_vertices_and_lines_are_read_in_bulk():
    """Long polylines and floods of loose lines come out whole."""
    count = 30_000
    vertices = "".join(tags(10, i, 20, i % 7) for i in range(count))
    old = "".join(tags(0, "VERTEX", 10, i, 20, i % 5) for i in range(count))
    drawing = read(
        drafted(
            tags(0, "LWPOLYLINE", 70, 0) + vertices + tags(0, "POLYLINE", 70, 1) + old
            + tags(0, "SEQEND") + line(0, 0, 1, 1) * count
        )
    )  # fmt: skip
    assert sorted(len(curve.xy) for curve in curves_of(drawing)) == [count, count]
    assert len(ends_of_lines(drawing)) == count


SPOILED = ["nan", "inf", "-1e308", "1e308", "0", "-1", "", "abc", "9" * 25, "1 2", "LINE", "70"]


OBJECTS = re.compile(rb"  0\nSECTION\n  2\nOBJECTS\n.*?ENDSEC\n", re.DOTALL)


@pytest.fixture(scope="module")
def signs():
    """Lines of one file of each of three versions, without the objects that nobody reads."""
    return [OBJECTS.sub(b"", saved(sign(version))).split(b"\n") for version in VERSIONS[::3]]


def spoil(lines, rng):
    """Change, lose, double or cut a few lines after the header."""
    begin = lines.index(b"BLOCKS")
    for _ in range(rng.choice([1, 3, 10])):
        at = int(rng.integers(begin, len(lines) - 4))
        change = rng.random()
        if change < 0.7:
            lines[at | (change < 0.6)] = str(rng.choice(SPOILED)).encode()
        elif change < 0.8:
            del lines[at & ~1 : (at & ~1) + 2]
        elif change < 0.95:
            lines[at & ~1 : at & ~1] = lines[begin : begin + rng.choice([2, 20])]
        else:
            return lines[:at]
    return lines


@pytest.mark.parametrize("seed", range(8))
def test_spoiled_files_are_read_or_refused(signs, seed):
    """However lines of a file are changed, lost or doubled, nothing but an ArtworkError comes."""
    rng = np.random.default_rng(seed)
    outcomes = set()
    for _ in range(12):
        data = b"\n".join(spoil(list(signs[rng.integers(len(signs))]), rng))
        try:
            flatten_all(curves_of(read(data)), 0.02)
            outcomes.add("")
        except ArtworkError as error:
            outcomes.add(str(error))
    assert not any("\n" in outcome for outcome in outcomes)


def test_a_drawing_too_large_for_memory_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """By its unpacked size, before any of it is taken apart."""
    monkeypatch.setattr(dxf_reader, "LARGEST_DXF_MB", 1)
    with pytest.raises(ArtworkError, match=r"big.dxf: the DXF is larger than 1 MB"):
        dxf_reader.read_dxf(b"0\nSECTION\n" * 100_001, "big.dxf", ReadOptions(units="mm"))
