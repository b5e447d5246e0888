"""The picture."""

import math
from dataclasses import replace

import pytest
from lxml import etree

from holeplacer.documents import picture
from holeplacer.evaluation import evaluate
from holeplacer.plan.hole import Hole

SVG = "{http://www.w3.org/2000/svg}"


def drawn(layout):
    evaluation = evaluate.evaluate(layout.plan, layout.outline, layout.axis)
    return etree.fromstring(picture.picture(layout, evaluation))


def test_it_is_the_sign_at_true_size(laid_out):
    """One user unit is one mm, and the view holds the whole sign with a margin."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    root = drawn(layout)
    x, y, wide, high = (float(value) for value in root.get("viewBox").split())
    assert (root.get("width"), root.get("height")) == (f"{wide:g}mm", f"{high:g}mm")
    left, bottom, right, top = layout.outline.bounds_mm
    assert x < left < right < x + wide
    assert y < -top < -bottom < y + high
    assert root.find(f"{SVG}path").get("d").count("M") == 4


def test_holes_lie_where_the_plan_has_them(laid_out):
    """Each hole is a circle of its diameter with its number; y is turned down."""
    root = drawn(laid_out(Hole(7, 55.0, -50.0)))
    circles = [[float(c.get(k)) for k in ("cx", "cy", "r")] for c in root.iter(f"{SVG}circle")]
    assert [55.0, 50.0, 3.572] in circles
    assert next(t.text for t in root.iter(f"{SVG}text")) == "7"


def test_a_broken_rule_shows(laid_out):
    """A hole too near the edge wears a broken ring, one that is right does not."""
    assert "stroke-dasharray" not in etree.tostring(drawn(laid_out(Hole(1, 55.0, -50.0)))).decode()
    bad = drawn(laid_out(Hole(1, 79.0, -50.0)))
    (ring,) = [c for c in bad.iter(f"{SVG}circle") if c.get("stroke-dasharray")]
    assert float(ring.get("cx")) == 79.0


@pytest.mark.parametrize("name", ["<&>\"'", "a\x00b\x0b", "п" * 10, "]]>"])
def test_any_file_name_makes_a_sound_picture(laid_out, name):
    """Signs that markup or XML forbids do no harm."""
    layout = laid_out()
    plan = replace(layout.plan, artwork=replace(layout.plan.artwork, name=name))
    root = drawn(replace(layout, plan=plan))
    assert len(root.find(f"{SVG}title").text) == len(name)


def test_it_states_size_and_caution(laid_out):
    """Size in mm, number of holes, and what the figures are not."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    texts = [t.text for t in drawn(layout).iter(f"{SVG}text")]
    assert f"{math.floor(layout.outline.bounds_mm[2] - layout.outline.bounds_mm[0])}" in texts[1]
    assert "1 hole" in texts[1]
    assert "licensed engineer" in texts[2]
