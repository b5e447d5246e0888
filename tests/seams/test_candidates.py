"""Places for seams."""

import numpy as np
import pytest
import shapely
from shapely.geometry import box

from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam
from holeplacer.seams import candidates


def test_cuts_run_across_from_edge_to_edge(sign, shapes):
    """Every end lies on the cut edge, every cut within metal, and each one alone parts or opens
    just one stroke: it meets the edge at its ends only."""
    for name in ("fork", "handle", "ring", "wedge"):
        here = sign(shapes[name], 500)
        cuts = candidates.candidates(here.plan, here.outline, here.axis)
        assert len(cuts) > 10
        at = here.outline.edge_distance(cuts.ends.reshape(-1, 2))
        assert np.abs(at).max() < 1e-6
        within = shapely.length(
            shapely.intersection(shapely.linestrings(cuts.ends), here.outline.region.buffer(1e-6))
        )
        assert within == pytest.approx(cuts.weld_mm, abs=1e-5)


def test_cuts_do_not_cross(sign, shapes):
    """Chords of different discs part the metal one after the other."""
    here = sign(shapes["fork"], 500)
    cuts = candidates.candidates(here.plan, here.outline, here.axis)
    inner = cuts.ends.mean(axis=1, keepdims=True) + 0.999 * (
        cuts.ends - cuts.ends.mean(axis=1, keepdims=True)
    )
    lines = shapely.linestrings(inner)
    pairs = shapely.STRtree(lines).query(lines, predicate="intersects")
    assert (pairs[0] == pairs[1]).all()


def test_holes_tips_and_junctions_are_kept_clear_of(sign, shapes):
    """The entered distance is kept, measured to every point of the cut, and not much more."""
    holes = (Hole(1, 60.0, 0.0, 6.0),)
    here = sign(shapes["fork"], 500, holes=holes, seam_clear_mm=12.0)
    cuts = candidates.candidates(here.plan, here.outline, here.axis)
    lines = shapely.linestrings(cuts.ends)
    hole = shapely.distance(lines, shapely.Point(60, 0)) - 3.0
    assert hole == pytest.approx(cuts.hole_mm)
    assert 12.0 - 1e-5 <= hole.min() < 12.0 + candidates.PITCH_MM
    tips = shapely.multipoints([tip.xy for tip in here.axis.tips])
    assert shapely.distance(lines, tips).min() == pytest.approx(cuts.tip_mm.min())
    assert cuts.tip_mm.min() >= 12.0 - 1e-5
    assert cuts.junction_mm.min() >= 12.0 - 1e-5


def test_fixed_seams_are_kept_clear_of(sign):
    """No second weld beside one that stays; beside one that is free there may be."""
    here = sign(box(0, -6, 300, 6), 500)
    for fixed, nearest in ((True, 5.0), (False, 0.0)):
        plan = here.plan.__class__(
            here.plan.artwork, seams=(Seam(150, -6, 150, 6, fixed),), sections=here.plan.sections
        )
        cuts = candidates.candidates(plan, here.outline, here.axis)
        apart = np.abs(cuts.ends[:, :, 0].mean(axis=1) - 150.0).min()
        assert nearest <= apart < nearest + candidates.PITCH_MM


def test_bends_and_tapers_are_measured(sign, shapes):
    """A bar has neither, a ring bends, a wedge tapers."""
    found = {}
    for name in ("bar", "ring", "wedge"):
        here = sign(shapes[name], 500)
        cuts = candidates.candidates(here.plan, here.outline, here.axis)
        found[name] = (float(np.median(cuts.turn_rad)), float(np.median(cuts.taper)))
    assert found["bar"] == pytest.approx((0, 0), abs=1e-6)
    assert found["ring"][0] > 0.1
    assert found["wedge"][1] == pytest.approx(16 / 280, rel=0.02)


def test_metal_without_axis_has_no_cuts(sign):
    """A round blob has no stroke to cut."""
    here = sign(shapely.Point(0, 0).buffer(20), 500)
    cuts = candidates.candidates(here.plan, here.outline, here.axis)
    assert len(cuts) == 0
