"""SVG files of leaves, read back by another library."""

import io
import math

import numpy as np
import pytest
import svgelements
from lxml import etree

from holeplacer.paper import svg_file
from holeplacer.paper.display_list import Circle, Group, Leaf, Line, Path, Pen, Subpath, Text, grey

PX = 25.4 / 96


def shapes(leaf):
    """Paths of a leaf in mm, y up."""
    svg = svgelements.SVG.parse(io.BytesIO(svg_file.svg_bytes(leaf)), reify=True, ppi=96)
    return [item for item in svg.elements() if isinstance(item, svgelements.Shape)], svg


def test_the_picture_is_true_to_size_and_upright():
    """A line three metres long is so for the other reader; y is turned back."""
    drawn = Leaf(3200.0, 900.0, (Line(100.0, 50.0, 3100.0, 850.0),))
    (line,), svg = shapes(drawn)
    assert (svg.width * PX, svg.height * PX) == pytest.approx((3200.0, 900.0), abs=5e-3)
    segments = svgelements.Path(line)
    ends = [(p.x * PX, 900.0 - p.y * PX) for p in (segments[0].end, segments[-1].end)]
    assert np.array(ends) == pytest.approx(np.array([(100, 50), (3100, 850)]), abs=5e-3)


def test_paths_circles_and_groups_are_named_and_closed():
    """A group's name is its id; a clip is a rectangle; fills are even-odd."""
    square = np.array([(0, 0), (10, 0), (10, 10), (0, 10)], float)
    curve = np.array([(0, 0), (5, 5), (10, 5), (15, 0)], float)
    filled = Path((Subpath(square, closed=True), Subpath(curve, cubic=True)), Pen(0.2), grey(0.8))
    group = Group((filled, Circle(5.0, 6.0, 2.0)), "holes", (1.0, 1.0, 9.0, 9.0))
    root = etree.fromstring(svg_file.svg_bytes(Leaf(20.0, 20.0, (group,))))
    (named,) = root.xpath("//*[@id='holes']")
    path, circle = named
    assert path.get("d").endswith("Z") is False
    assert "C" in path.get("d")
    assert path.get("d").count("Z") == 1
    assert (path.get("fill-rule"), path.get("fill")) == ("evenodd", "#cccccc")
    assert (circle.get("cy"), circle.get("fill")) == ("14", "none")
    (rect,) = root.xpath("//*[local-name()='clipPath']/*")
    assert [rect.get(key) for key in ("x", "y", "width", "height")] == ["1", "11", "8", "8"]


def test_texts_are_escaped_anchored_and_turned():
    """An ampersand in a name harms nothing; a turn is about the anchor."""
    text = Text("Fish & <Chips>", 5.0, 5.0, 3.0, True, "middle", math.pi / 2, grey(0.4))
    root = etree.fromstring(svg_file.svg_bytes(Leaf(20.0, 20.0, (text,)), title="A & B"))
    (found,) = root.xpath("//*[local-name()='text']")
    assert found.text == "Fish & <Chips>"
    assert found.get("text-anchor") == "middle"
    assert found.get("transform") == "rotate(-90 5 15)"
    assert root[0].text == "A & B"
