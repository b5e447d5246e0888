"""Holes and bosses stay on the lettering when the artwork is read otherwise."""

import numpy as np
import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.errors import ArtworkError
from holeplacer.evaluation.layout import lay_out
from holeplacer.evaluation.rereading import reread
from holeplacer.plan import edit
from holeplacer.plan.hole import Boss
from holeplacer.plan.plan import Plan

BAR = ArtworkFile(
    "bar.svg",
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 400 100">'
    b'<path d="M20 30 H320 V70 H20 Z"/></svg>',
)


@pytest.fixture
def layout():
    """A bar 300 x 40 mm with a hole on its middle line and one near its edge with a boss."""
    plan = Plan(BAR, ReadOptions(units="mm"))
    plan = edit.with_hole_added(plan, 100, 50)
    plan = edit.with_hole_added(plan, 200, 66, fixed=True)
    return lay_out(edit.with_boss(plan, Boss(200, 66, 12, 10)))


@pytest.mark.parametrize(
    "reading",
    [
        ReadOptions(units="in"),
        ReadOptions(units="mm", width_mm=900.0),
        ReadOptions(units="mm", rotation_rad=0.5),
        ReadOptions(units="mm", mirror=True, rotation_rad=2.0, scale=1.5),
    ],
)
def test_holes_stay_on_the_lettering(layout, reading):
    """A hole keeps its distance from the edge in proportion to the sign."""
    made = reread(layout.plan, layout, reading)
    assert made.plan.reading == reading
    hole, other = made.plan.holes
    times = np.sqrt(made.artwork.outline.area_mm2 / layout.artwork.outline.area_mm2)
    before = layout.artwork.outline.edge_distance([(100, 50), (200, 66)])
    after = made.artwork.outline.edge_distance([(hole.x_mm, hole.y_mm), (other.x_mm, other.y_mm)])
    assert after == pytest.approx(before * times, rel=1e-6)
    assert other.fixed


def test_bosses_come_along_with_their_size(layout):
    """The boss is round its hole again, its radius unchanged."""
    made = reread(layout.plan, layout, ReadOptions(units="mm", rotation_rad=0.5))
    (boss,) = made.plan.bosses
    hole = made.plan.holes[1]
    assert (boss.x_mm, boss.y_mm) == (hole.x_mm, hole.y_mm)
    assert boss.radius_mm == 12
    assert made.outline.edge_distance([(hole.x_mm, hole.y_mm)])[0] == pytest.approx(12, abs=0.05)


def test_back_again_gives_the_holes_back(layout):
    """Turned and turned back, every hole is where it was."""
    turned = reread(layout.plan, layout, ReadOptions(units="mm", rotation_rad=0.5))
    back = reread(turned.plan, turned, layout.plan.reading)
    for old, new in zip(layout.plan.holes, back.plan.holes, strict=True):
        assert (new.x_mm, new.y_mm) == pytest.approx((old.x_mm, old.y_mm), abs=1e-9)


def test_what_cannot_be_read_so_is_an_error(layout):
    """A layer that is not there leaves no outline."""
    with pytest.raises(ArtworkError):
        reread(layout.plan, layout, ReadOptions(units="mm", layers=("nowhere",)))
