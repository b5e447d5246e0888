"""PDF files of papers, read back by another library."""

import io
import math

import numpy as np
import pypdf
import pytest

from holeplacer.errors import ExportError
from holeplacer.paper import pdf_file
from holeplacer.paper.display_list import (
    Circle,
    Group,
    Leaf,
    Line,
    Papers,
    Path,
    Pen,
    Subpath,
    Text,
    grey,
)

MICROMETRE = 1e-3


def one(*items, width=3000.0, height=1000.0):
    return Papers("Trial", (Leaf(width, height, items),), "a subject")


def test_positions_hold_two_micrometres_anywhere_on_the_longest_page(read_paper):
    """Seven digits are enough for five metres."""
    xy = np.random.default_rng(3).uniform(0.0, 5080.0, (2000, 2))
    papers = one(Path((Subpath(xy.copy()),)), width=5080.0, height=5080.0)
    (page,) = read_paper(pdf_file.pdf_bytes(papers))
    assert np.abs(page.lines[0].xy - xy).max() < 2 * MICROMETRE


@pytest.mark.parametrize(("width", "height"), [(3000, 1000), (215.9, 279.4), (2999.37, 609.6)])
def test_the_page_is_as_large_as_the_leaf(read_paper, width, height):
    """Not in whole points, to a micrometre."""
    (page,) = read_paper(pdf_file.pdf_bytes(one(width=width, height=height)))
    assert (page.width_mm, page.height_mm) == pytest.approx((width, height), abs=MICROMETRE)


def test_pens_circles_and_closed_runs_come_back(read_paper):
    """Width, dash, shade, closing; a circle by its centre and radius, a curve by its end."""
    square = np.array([(0, 0), (10, 0), (10, 10), (0, 10)], float)
    curve = np.array([(0, 0), (5, 5), (10, 5), (15, 0)], float)
    papers = one(
        Line(1, 2, 3, 4, Pen(0.5, grey(0.5), (3, 1))),
        Path((Subpath(square, closed=True),), Pen(0.3)),
        Path((Subpath(curve, cubic=True),), Pen(0.3)),
        Circle(50.0, 60.0, 3.572),
    )
    (page,) = read_paper(pdf_file.pdf_bytes(papers))
    line, ring, bend = page.lines
    assert (line.dashed, line.lightness) == (True, pytest.approx(0.5))
    assert line.width_mm == pytest.approx(0.5, abs=MICROMETRE)
    assert (ring.closed, ring.dashed, ring.lightness) == (True, False, 0.0)
    assert bend.xy[-1] == pytest.approx((15, 0), abs=MICROMETRE)
    assert page.circles == pytest.approx(np.array([[50.0, 60.0, 3.572]]), abs=MICROMETRE)


def test_text_stands_where_it_should_and_turned(read_paper):
    """Signs of the trade are read as such; the anchor is the end that was asked for."""
    papers = one(
        Text("Ø 7.14 × ½ °", 100.0, 200.0, 5.0),
        Text("upright", 30.0, 40.0, 5.0, bold=True, angle_rad=math.pi / 2),
        Text("left of it", 900.0, 10.0, 5.0, anchor="end"),
    )
    (page,) = read_paper(pdf_file.pdf_bytes(papers))
    found = {text: (x, y) for text, x, y in page.texts}
    assert found["Ø 7.14 × ½ °"] == pytest.approx((100.0, 200.0), abs=0.01)
    assert found["upright"] == pytest.approx((30.0, 40.0), abs=0.01)
    assert found["left of it"][0] < 890.0


def test_every_font_listed_is_embedded(read_paper):
    """None is left to the printer, not even one that no text uses."""
    for papers in (one(), one(Text("a", 1, 1)), one(Text("b", 1, 1, bold=True), Text("a", 1, 9))):
        (page,) = read_paper(pdf_file.pdf_bytes(papers))
        assert all(page.fonts.values())
    assert sorted(name.split("+")[1] for name in page.fonts) == [
        "BitstreamVeraSans-Bold",
        "BitstreamVeraSans-Roman",
    ]


def test_the_file_asks_not_to_be_scaled_and_is_always_the_same():
    """PrintScaling is None; equal papers are equal bytes."""
    papers = one(Text("Hello", 1, 1), Line(0, 0, 9, 9))
    data = pdf_file.pdf_bytes(papers)
    root = pypdf.PdfReader(io.BytesIO(data)).trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert pdf_file.pdf_bytes(papers) == data


def test_a_pen_changed_inside_a_group_does_not_leak_out(read_paper):
    """What a clipped group sets ends with it."""
    group = Group((Line(0, 0, 1, 1, Pen(2.0)),), clip_mm=(0, 0, 5, 5))
    papers = one(Line(0, 0, 2, 2, Pen(0.5)), group, Line(0, 0, 3, 3, Pen(0.5)))
    (page,) = read_paper(pdf_file.pdf_bytes(papers))
    widths = [line.width_mm for line in page.lines]
    assert widths == pytest.approx([0.5, 2.0, 0.5], abs=MICROMETRE)


def test_pages_of_different_sizes_stand_in_one_file(read_paper):
    """Each leaf has its own box."""
    leaves = (Leaf(210.0, 297.0, ()), Leaf(914.4, 3000.0, ()))
    pages = read_paper(pdf_file.pdf_bytes(Papers("Two", leaves)))
    assert [page.height_mm for page in pages] == pytest.approx([297.0, 3000.0], abs=MICROMETRE)


def test_a_page_beyond_the_limit_is_refused_and_so_is_nothing_at_all():
    """Scaling would be silent in many readers, so it is an error instead."""
    with pytest.raises(ExportError, match=r"6\.00 m"):
        pdf_file.pdf_bytes(one(width=6000.0))
    with pytest.raises(ExportError, match="nothing to print"):
        pdf_file.pdf_bytes(Papers("Empty", ()))
