"""Trial: holes tried out, and the ground that all trials share."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import trial
from holeplacer.placement.watch import Watch
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance

HOLES = (Hole(1, 100, 0), Hole(2, 350, 0), Hole(3, 600, 0), Hole(4, 880, 0))


@pytest.fixture(scope="module")
def bar():
    """A straight stroke 1 m long, 40 mm wide and half as wide in its last quarter."""
    outline = Outline.from_geometry(
        shapely.union_all([shapely.box(0, -20, 750, 20), shapely.box(750, -5, 1000, 5)])
    )
    return outline, medial_axis.medial_axis(outline)


def plan(pascal=1000.0):
    return replace(
        Plan(ArtworkFile("bar.svg", b"")),
        holes=HOLES,
        loading=Loading("entered", pressure_out_pa=pascal),
    )


def site(bar, *, wind_only=False):
    room, xy = trial.room(plan(), *bar)
    bare = trial.broken_by_rule(plan(), *bar)
    return trial.Site(*bar, Watch(), bare, room, xy, wind_only)


def test_room_is_wide_enough(bar):
    """Every place offered has the edge distance needed, as finely as the axis is drawn."""
    _, xy = trial.room(plan(), *bar)
    assert len(xy) > 50
    assert bar[0].edge_distance(xy).min() >= edge_distance.limit(plan()) - 0.01
    assert np.max(xy[:, 0]) < 760


def test_no_rule_is_traded_for_another(bar):
    """Plans that break one rule less and another more are not kept."""
    here = site(bar)
    assert here.keeps(plan())
    crowded = replace(plan(), holes=(*HOLES, Hole(5, 104, 0)))
    assert sum(trial.broken_by_rule(crowded, *bar)) > 0
    assert not here.keeps(crowded)


def test_wind_alone_leaves_the_wind_as_it_is(bar):
    """Judged by wind alone, deflection is the same and weight pushes no stud."""
    whole, wind = site(bar).judged(plan()), site(bar, wind_only=True).judged(plan())
    assert wind.deflection_mm == pytest.approx(whole.deflection_mm, rel=1e-12)
    assert wind.found.effects.in_plane == ()
    assert wind.utilisation <= whole.utilisation


def test_overload_outranks_deflection(bar):
    """What fails counts before how much the sheet gives."""
    calm, stormy = site(bar).judged(plan(50.0)), site(bar).judged(plan(5000.0))
    assert calm.rank < stormy.rank
    assert calm.rank[0] == 0 < stormy.rank[0]


def test_nothing_is_judged_without_a_wind(bar):
    """Without a wind there is nothing to judge."""
    assert site(bar).judged(replace(plan(), loading=Loading())) is None
