"""Proposals on metal, judged by brute force."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from graphs import strokes
from independent_check import judge

from holeplacer.errors import Cancelled, InputError
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement.propose import largest_span_mm, propose
from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam
from holeplacer.rules import edge_distance, neighbours, seam_distance, spacing, turning

LOOP = [(300 + 120 * np.cos(t), 120 * np.sin(t)) for t in np.linspace(0, 2 * np.pi, 60)]
WORD = [[(0, 0), (180, 0)], LOOP, [(420, 0), (700, 60), (900, 300)], [(700, 60), (760, -200)]]


@pytest.fixture(scope="module")
def word():
    """A stroke into a ring and out to two tips, 30 mm wide; a dot beside it."""
    sign = Outline.from_geometry(
        shapely.union_all([strokes(WORD).region, shapely.Point(300, 300).buffer(14)])
    )
    return sign, medial_axis(sign)


def judged(plan, sign, axis, proposal):
    xy = [(hole.x_mm, hole.y_mm) for hole in proposal.holes]
    half, most = plan.limits.spacing_mm / 2, plan.limits.overhang_mm
    return judge(sign.region, axis, xy, half, most, edge_distance.limit(plan))


@pytest.mark.parametrize(("spacing_mm", "overhang_mm"), [(300, 100), (150, 60), (500, 250)])
def test_every_rule_is_kept(plan, word, spacing_mm, overhang_mm):
    """Brute force finds no point too far, no tip, no edge, no neighbour; nor do the rules."""
    sign, axis = word
    plan = replace(
        plan, limits=replace(plan.limits, spacing_mm=spacing_mm, overhang_mm=overhang_mm)
    )
    found = propose(plan, sign, axis)
    worst = judged(plan, sign, axis, found)
    assert worst.way <= spacing_mm / 2 + 1e-3
    assert worst.tip <= overhang_mm + 1e-3
    assert worst.edge >= edge_distance.limit(plan) - 1e-6
    assert worst.apart >= neighbours.limit(plan) - 1e-6
    placed = replace(plan, holes=found.holes)
    for rule in (spacing, edge_distance, neighbours):
        assert rule.check(placed, sign, axis) == ()
    assert [f.place.index - 1 for f in turning.check(placed, sign, axis)] == list(found.unheld)
    assert found.proven
    assert found.lower_bound == found.count == len(found.holes)


def test_dot_too_small_for_two(plan, word):
    """The dot has room for one hole only, and is named."""
    sign, axis = word
    found = propose(plan, sign, axis)
    (piece,) = found.unheld
    assert sign.pieces[piece].area_mm2 < 700


def test_numbers_and_coordinates(plan, word):
    """Numbered from left to right, coordinates round."""
    sign, axis = word
    holes = propose(plan, sign, axis).holes
    assert [hole.number for hole in holes] == list(range(1, len(holes) + 1))
    assert [hole.x_mm for hole in holes] == sorted(hole.x_mm for hole in holes)
    round_ = [hole for hole in holes if round(hole.x_mm, 2) == hole.x_mm]
    assert len(round_) >= len(holes) - 2


def test_fixed_holes_stay(plan, word):
    """A fixed hole stays, keeps its number and counts; new ones take free numbers."""
    sign, axis = word
    free = propose(plan, sign, axis)
    fixed = Hole(2, 60.0, 0.0, fixed=True)
    found = propose(replace(plan, holes=(fixed, Hole(5, 100.0, 0.0))), sign, axis)
    assert fixed in found.holes
    assert 5 <= found.count <= free.count + 1
    assert sorted(hole.number for hole in found.holes) == list(range(1, found.count + 1))
    assert len(found.new) == found.count - 1
    assert spacing.check(replace(plan, holes=found.holes), sign, axis) == ()


@pytest.mark.parametrize("count", [None, 9])
def test_new_holes_keep_clear_of_seams(plan, word, count):
    """Seams across the strokes where holes would lie push them away, no finding is left."""
    sign, axis = word
    bare = propose(plan, sign, axis, count=count)
    seams = tuple(
        Seam(hole.x_mm, hole.y_mm - 20, hole.x_mm, hole.y_mm + 20)
        for hole in bare.holes
        if hole.y_mm < 250
    )
    divided = replace(plan, seams=seams)
    assert len(seams) >= 2
    before = seam_distance.check(replace(divided, holes=bare.holes), sign, axis)
    assert len(before) >= len(seams)
    found = propose(divided, sign, axis, count=count)
    after = replace(divided, holes=found.holes)
    assert seam_distance.check(after, sign, axis) == ()
    assert edge_distance.check(after, sign, axis) == ()


def test_small_change_reshuffles_nothing(plan, word):
    """With a slightly larger spacing every hole stays near its earlier place."""
    sign, axis = word
    first = propose(plan, sign, axis)
    wider = replace(plan, limits=replace(plan.limits, spacing_mm=303.0))
    second = propose(wider, sign, axis, near=first.holes)
    assert second.count == first.count
    for one, two in zip(first.holes, second.holes, strict=True):
        assert np.hypot(one.x_mm - two.x_mm, one.y_mm - two.y_mm) < 30.0


def test_given_number(plan, word):
    """A given number is used, and more holes make the largest span shorter."""
    sign, axis = word
    fewest = propose(plan, sign, axis)
    same = propose(plan, sign, axis, count=fewest.count)
    more = propose(plan, sign, axis, count=fewest.count + 3)
    assert (same.count, more.count) == (fewest.count, fewest.count + 3)
    assert more.tightness < same.tightness <= 1.02
    assert largest_span_mm(plan, more) == pytest.approx(300 * more.tightness)


def test_a_number_that_breaks_the_limits_is_not_proven(plan, word):
    """Too few holes for the spacing are never called the least there can be; the fewest are."""
    sign, axis = word
    fewest = propose(plan, sign, axis)
    few = propose(plan, sign, axis, count=fewest.count - 1)
    assert few.tightness > 1.0
    assert not few.proven
    alone = strokes([[(0, 0), (700, 0)]])
    one = propose(plan, alone, medial_axis(alone), count=1)
    assert (one.count, one.proven) == (1, False)


def test_too_few(plan, word):
    """Fewer than the pieces: one clear sentence."""
    sign, axis = word
    with pytest.raises(InputError, match="need 2 at least"):
        propose(plan, sign, axis, count=1)


def test_progress_and_cancel(plan, word):
    """Progress ends at one; a stopped proposal raises."""
    sign, axis = word
    told = []
    propose(plan, sign, axis, progress=lambda share, text: told.append(share))
    assert told[-1] == 1.0
    assert told == sorted(told)
    with pytest.raises(Cancelled):
        propose(plan, sign, axis, cancelled=lambda: len(told) > 0)


def test_too_thin(plan):
    """A stroke too thin for holes gets none, and the ways out with their figures."""
    sign = strokes([[(0, 0), (400, 0)]], half_width=6.0)
    found = propose(plan, sign, medial_axis(sign))
    assert (found.count, found.proven, found.unheld) == (0, True, (0,))
    (bare,) = found.unsupported
    assert bare.length_mm == pytest.approx(400, abs=1)
    assert bare.clear_width_mm == pytest.approx(12, abs=0.1)
    assert bare.needed_mm == pytest.approx(2 * edge_distance.limit(plan))
    assert {way.act for way in bare.ways_out} >= {"hole", "offset", "boss"}


def test_symmetric_where_the_outline_is(plan):
    """On a symmetric stroke the holes are symmetric."""
    sign = strokes([[(-500, 200), (0, 0), (500, 200)]])
    xy = np.array([(h.x_mm, h.y_mm) for h in propose(plan, sign, medial_axis(sign)).holes])
    mirrored = xy[::-1] * [-1, 1]
    np.testing.assert_allclose(xy, mirrored, atol=1.0)
