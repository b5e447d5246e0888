"""Gauge limit: the thinnest gauge for holes that stay where they are."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import Cancelled
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import gauge_limit, propose
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.rules import strength

PLAN = Plan(ArtworkFile("wave.svg", b""))


@pytest.fixture(scope="module")
def wave():
    """A stroke 30 mm wide that swings up and down over 0.9 m."""
    x = np.linspace(0.0, 900.0, 91)
    line = shapely.LineString(np.column_stack([x, 120 * np.sin(x / 120)]))
    outline = Outline.from_geometry(line.buffer(15, quad_segs=16))
    return outline, medial_axis.medial_axis(outline)


def windy(pascal, **more):
    return replace(PLAN, loading=Loading("entered", pressure_out_pa=pascal, **more))


@pytest.fixture(scope="module")
def holes(wave):
    return propose.propose(PLAN, *wave).holes


@pytest.mark.parametrize("pascal", [300.0, 600.0, 2000.0])
def test_passes_and_the_next_thinner_fails(wave, holes, pascal):
    """By a full evaluation with the same holes."""
    plan = edit.with_holes(windy(pascal), holes)
    found = gauge_limit.gauge_limit(plan, *wave)
    assert found.enough
    assert found.thinner.number == found.gauge.number + 1
    assert found.taken(plan).holes == plan.holes
    whole = strength.strength(found.taken(plan), *wave)
    assert whole.worst_known.share == pytest.approx(found.verdict.utilisation)
    assert whole.worst_known.share <= 1.0
    thin = strength.strength(gauge_limit.with_gauge(plan, found.thinner), *wave)
    assert thin.worst_known.share > 1.0


def test_not_even_the_thickest(wave, holes):
    """It says so, and what fails."""
    found = gauge_limit.gauge_limit(edit.with_holes(windy(100_000.0), holes), *wave)
    assert not found.enough
    assert found.verdict.utilisation > 1.0
    assert found.thinner is None


def test_nothing_to_ask(wave, holes):
    """Without wind or holes there is no answer."""
    assert gauge_limit.gauge_limit(edit.with_holes(PLAN, holes), *wave) is None
    assert gauge_limit.gauge_limit(windy(500.0), *wave) is None


def test_can_be_stopped(wave, holes):
    """The person can stop the work."""
    with pytest.raises(Cancelled):
        gauge_limit.gauge_limit(
            edit.with_holes(windy(600.0), holes), *wave, Watch(cancelled=lambda: True)
        )
