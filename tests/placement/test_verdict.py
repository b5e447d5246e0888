"""Verdict: every limit state asked."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose, verdict
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


def test_is_that_of_a_full_evaluation(wave):
    """Greatest utilisation and what is not judged agree with strength itself."""
    plan = edit.with_holes(windy(900.0), propose.propose(PLAN, *wave).holes)
    said, whole = verdict.verdict(plan, *wave), strength.strength(plan, *wave)
    assert said.utilisation == whole.worst_known.share
    assert set(said.not_judged) == {
        state.utilisation.check for state in whole.states if state.share is None
    }
    assert verdict.verdict(plan, *wave, wind_only=True).utilisation <= said.utilisation


def test_no_holes_bear_nothing(wave):
    """A sign on nothing does not pass."""
    assert not verdict.verdict(windy(10.0), *wave).passes


def test_the_number_of_holes_may_change(wave):
    """A hole more or less, with those that stay remembered, is judged like a plan never seen."""
    holes = propose.propose(PLAN, *wave).holes
    verdict.verdict(edit.with_holes(windy(900.0), holes), *wave)
    fewer = edit.with_holes(windy(900.0), holes[:-1])
    again = (wave[0], medial_axis.medial_axis(wave[0]))
    assert verdict.verdict(fewer, *wave).utilisation == pytest.approx(
        verdict.verdict(fewer, *again).utilisation
    )
