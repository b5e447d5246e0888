"""Sheet limits: both questions asked at once."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import Cancelled
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose, sheet_limits
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan

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


def test_both_answers(wave):
    """Strip, spacing and gauge; the shares told go up to 1."""
    plan = edit.with_holes(windy(600.0), propose.propose(PLAN, *wave).holes)
    told = []
    found = sheet_limits.sheet_limits(plan, *wave, progress=lambda share, _: told.append(share))
    assert found.strip_span_mm > 0
    assert found.spacing.enough
    assert found.gauge.enough
    assert told == sorted(told)
    assert told[-1] == 1.0


def test_nothing_without_wind(wave):
    """Without a wind there is nothing to solve."""
    assert sheet_limits.sheet_limits(PLAN, *wave) is None


def test_can_be_stopped(wave):
    """The person can stop the work."""
    with pytest.raises(Cancelled):
        sheet_limits.sheet_limits(windy(1000.0), *wave, cancelled=lambda: True)
