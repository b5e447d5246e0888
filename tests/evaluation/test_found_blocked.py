"""Ways out for a hole found blocked, held to plain geometry."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest
import shapely

sys.path.insert(0, str(Path(__file__).parents[2] / "scripts"))

import check_found

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import Cancelled, InputError
from holeplacer.evaluation import evaluate, found_blocked
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.wall.zone import Zone


@pytest.fixture(scope="module")
def sign():
    """A wave with a fork and a ring, its axis, and its proposed holes."""
    wave = shapely.LineString([(0, 0), (250, 120), (500, 0), (750, 120), (1000, 0)]).buffer(18)
    fork = shapely.LineString([(500, 0), (500, -260), (640, -330)]).buffer(16)
    ring = shapely.Point(1150, 0).buffer(130).difference(shapely.Point(1150, 0).buffer(95))
    outline = Outline.from_geometry(shapely.union_all([wave, fork, ring]))
    axis = medial_axis.medial_axis(outline)
    plan = Plan(ArtworkFile("sign.svg", b""))
    return edit.with_holes(plan, propose.propose(plan, outline, axis).holes), outline, axis


def _bar(length=800.0):
    outline = Outline.from_geometry(shapely.box(0, 0, length, 60))
    holes = (Hole(1, 100.0, 30.0), Hole(2, 400.0, 30.0), Hole(3, 700.0, 30.0))
    return (
        Plan(ArtworkFile("bar.svg", b""), holes=holes),
        outline,
        medial_axis.medial_axis(outline),
    )


@pytest.mark.parametrize("cut", [False, True])
def test_every_way_out_for_every_hole_passes_plain_geometry(sign, cut):
    """Each hole blocked in turn: what is said to keep every rule does so to another judge."""
    plan, outline, axis = sign
    helped = 0
    for hole in plan.holes:
        offered = found_blocked.alternatives(plan, outline, axis, hole.number, cut=cut)
        assert offered
        for item in offered:
            if item.passes:
                helped += 1
                faults = check_found.faults_of(plan, outline, axis, hole, item, pitch_mm=8.0)
                assert not list(faults), (hole.number, item.words)
                assert not evaluate.evaluate(item.plan, outline, axis).broken
            else:
                assert evaluate.evaluate(item.plan, outline, axis).broken
    assert helped >= len(plan.holes) // 2


def test_the_judge_sees_what_is_wrong(sign):
    """A way out that only leaves a hole away, claimed to pass, is caught by the same judge."""
    plan, outline, axis = sign
    number = plan.holes[0].number
    (skip,) = [
        item
        for item in found_blocked.alternatives(plan, outline, axis, number, cut=True)
        if item.kind == "skip"
    ]
    assert list(check_found.faults_of(plan, outline, axis, plan.holes[0], skip))
    stayed = replace(skip, plan=plan)
    faults = list(check_found.faults_of(plan, outline, axis, plan.holes[0], stayed))
    assert any("NEAR what was found" in fault for fault in faults)


def test_a_hole_moves_as_little_as_the_wall_asks():
    """Two drilled holes' radii and the entered margin: nearer there is no place; one way only."""
    plan, outline, axis = _bar()
    (move,) = found_blocked.alternatives(plan, outline, axis, 3, cut=False)
    asked = plan.wall.clear_mm + 2 * 4.0
    assert move.kind == "move"
    assert move.passes
    assert move.way_mm == pytest.approx(asked, abs=0.3)
    assert edit.hole_numbered(move.plan, 3).x_mm < 700.0
    assert move.plan.holes[:2] == plan.holes[:2]
    assert move.before.largest_span_mm == pytest.approx(300.0)


def test_both_ways_are_offered_where_both_will_do():
    """With spacing to spare the hole may go to either side."""
    plan, outline, axis = _bar()
    plan = edit.with_limits(plan, replace(plan.limits, spacing_mm=400.0))
    offered = found_blocked.alternatives(plan, outline, axis, 2)
    assert [item.kind for item in offered] == ["move", "move"]
    assert sorted(edit.hole_numbered(item.plan, 2).x_mm > 400 for item in offered) == [False, True]


def test_two_holes_do_what_one_can_not():
    """At full spacing no single place will do: one on each side, numbered as none was before."""
    plan, outline, axis = _bar()
    offered = found_blocked.alternatives(plan, outline, axis, 2, cut=True)
    assert [item.kind for item in offered] == ["add", "skip", "glue"]
    assert offered[0].added == (4, 5)
    assert not edit.hole_numbered(offered[0].plan, 2).fastened
    assert [item.passes for item in offered] == [True, False, False]
    assert {finding.rule for finding in offered[1].breaks} == {"spacing"}


def test_a_lost_last_hole_leaves_its_number_free():
    """New holes never bear the number of the one they stand for."""
    plan, outline, axis = _bar()
    plan = edit.with_hole_numbered(plan, 2, 3)
    offered = found_blocked.alternatives(plan, outline, axis, 3, cut=False)
    assert offered[0].added == (4, 5)


def test_strength_is_compared_under_wind():
    """With a wind chosen, utilisation and deflection are told before and after, and overload."""
    plan, outline, axis = _bar()
    plan = edit.with_loading(plan, Loading(method="entered", pressure_out_pa=300.0))
    add, skip, glue = found_blocked.alternatives(plan, outline, axis, 2, cut=True)
    assert add.after.deflection_mm < add.before.deflection_mm < skip.after.deflection_mm
    assert skip.after.utilisation > 1 > skip.before.utilisation
    assert any(finding.rule == "strength" for finding in glue.breaks)


def test_seams_and_blocked_zones_are_kept_clear_of():
    """A seam on one side and a beam on the other push the new place further out."""
    plan, outline, axis = _bar()
    plan = edit.with_limits(plan, replace(plan.limits, spacing_mm=500.0, overhang_mm=250.0))
    plan = edit.with_seams(plan, (Seam(440.0, 0.0, 440.0, 60.0),))
    corners = ((340.0, -10.0), (370.0, -10.0), (370.0, 70.0), (340.0, 70.0))
    beam = Zone("blocked", "beam", "polygon", corners)
    plan = edit.with_wall(plan, replace(plan.wall, zones=(beam,)))
    for item in found_blocked.alternatives(plan, outline, axis, 2, cut=False):
        x = edit.hole_numbered(item.plan, 2).x_mm
        assert item.passes
        assert not 340.0 - 25.0 < x < 370.0 + 25.0
        assert abs(x - 440.0) > plan.sections.seam_clear_mm


def test_taking_a_way_out_reissues_the_papers():
    """The plan gets mark, holes and the next revision, with what changed and the date."""
    plan, outline, axis = _bar()
    marked = found_blocked.marked(plan, 3, "steel")
    (move,) = found_blocked.alternatives(marked, outline, axis, 3)
    once = found_blocked.taken(marked, move, "2026-11-25")
    assert once.wall.as_found[0].what == "steel"
    assert (once.wall.as_found[0].x_mm, once.wall.revisions[0].number) == (700.0, 1)
    assert once.wall.revisions[0].changes == ("Hole 3 was found blocked: steel", move.words)
    again = found_blocked.alternatives(once, outline, axis, 3)
    twice = found_blocked.taken(once, again[0])
    assert [revision.number for revision in twice.wall.revisions] == [1, 2]
    assert len(twice.wall.as_found) == 2
    assert not evaluate.evaluate(twice, outline, axis).broken


def test_another_hole_near_what_was_found_is_told_whichever_way():
    """It keeps every way out from passing, but not the search from curing all else."""
    plan, outline, axis = _bar()
    plan = edit.with_holes(plan, (*plan.holes, Hole(4, 720.0, 30.0)))
    offered = found_blocked.alternatives(plan, outline, axis, 3, cut=False)
    assert not any(item.passes for item in offered)
    for item in offered:
        assert [finding.place.index for finding in item.beside] == [4]
        assert set(item.beside) <= set(item.breaks)
    assert offered[0].kind == "move"
    assert offered[0].breaks == offered[0].beside


def test_what_was_broken_before_is_not_held_against_a_way_out():
    """A bare end that nobody asked about does not keep a hole from moving."""
    plan, outline, axis = _bar(1400.0)
    offered = found_blocked.alternatives(plan, outline, axis, 1, cut=False)
    assert offered[0].before.broken
    assert offered[0].passes


def test_a_dot_has_no_other_place():
    """Where the piece has no room, only leaving the hole out is offered, with what that breaks."""
    outline = Outline.from_geometry(shapely.Point(0, 0).buffer(20))
    plan = Plan(ArtworkFile("dot.svg", b""), holes=(Hole(1, -6.0, 0.0), Hole(2, 6.0, 0.0)))
    offered = found_blocked.alternatives(plan, outline, medial_axis.medial_axis(outline), 1)
    assert [item.kind for item in offered] == ["skip", "glue"]
    assert all("turning" in {finding.rule for finding in item.breaks} for item in offered)


def test_unknown_and_glued_holes_are_refused():
    """Nothing is drilled for a glued standoff, and a number must be there."""
    plan, outline, axis = _bar()
    with pytest.raises(InputError):
        found_blocked.alternatives(plan, outline, axis, 9)
    with pytest.raises(InputError):
        found_blocked.marked(edit.with_hole_fastened(plan, 1, False), 1)


def test_work_can_be_stopped():
    """Asking for a stop ends the search."""
    with pytest.raises(Cancelled):
        found_blocked.alternatives(*_bar(), 2, cancelled=lambda: True)
