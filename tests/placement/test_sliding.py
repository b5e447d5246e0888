"""Sliding: holes moved along their strokes until the sheet gives less."""

from dataclasses import replace

import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import sliding, trial
from holeplacer.placement.watch import Watch
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan

HOLES = (Hole(1, 60, 0), Hole(2, 280, 0), Hole(3, 420, 0), Hole(4, 700, 0), Hole(5, 930, 0))


@pytest.fixture(scope="module")
def bar():
    """A straight stroke 1 m long."""
    outline = Outline.from_geometry(shapely.box(0, -20, 1000, 20))
    return outline, medial_axis.medial_axis(outline)


def slid(bar, tries, holes=HOLES):
    plan = replace(
        Plan(ArtworkFile("bar.svg", b"")),
        holes=holes,
        loading=Loading("entered", pressure_out_pa=500.0),
    )
    room, xy = trial.room(plan, *bar)
    bare = trial.broken_by_rule(plan, *bar)
    site = trial.Site(*bar, Watch(), bare, room, xy, wind_only=True)
    begun = site.judged(plan)
    return begun, sliding.slid(site, begun, tries), site


def test_less_gives(bar):
    """Uneven spans are evened out; the sheet gives clearly less, all rules still kept."""
    begun, ended, site = slid(bar, 60)
    assert ended.rank < begun.rank
    assert ended.deflection_mm < 0.8 * begun.deflection_mm
    assert site.keeps(ended.plan)
    assert len(ended.plan.holes) == len(HOLES)


def test_no_tries_no_slides(bar):
    """The number of tries bounds the work."""
    begun, ended, _ = slid(bar, 0)
    assert ended is begun


def test_fixed_holes_stay(bar):
    """What the person fixed is not slid."""
    _, ended, _ = slid(bar, 60, tuple(replace(hole, fixed=True) for hole in HOLES))
    assert [(hole.x_mm, hole.y_mm) for hole in ended.plan.holes] == [
        (hole.x_mm, hole.y_mm) for hole in HOLES
    ]
