"""What the report says of the largest spacing and the thinnest gauge."""

import json
from dataclasses import replace

import msgspec
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.documents import sheet_limits_report
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose, sheet_limits
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan


@pytest.fixture(scope="module")
def found():
    outline = Outline.from_geometry(shapely.LineString([(0, 0), (900, 100)]).buffer(15))
    axis = medial_axis.medial_axis(outline)
    calm = Plan(ArtworkFile("bar.svg", b""))
    holes = propose.propose(calm, outline, axis).holes
    windy = replace(calm, loading=Loading("entered", pressure_out_pa=800.0))
    return sheet_limits.sheet_limits(edit.with_holes(windy, holes), outline, axis)


def test_figures_are_those_found(found):
    """Answer, what governs it, and the next that fails."""
    told = json.loads(msgspec.json.encode(sheet_limits_report.sheet_limits_report(found)))
    assert told["spacing_mm"] == found.spacing.spacing_mm
    assert told["overhang_mm"] == found.spacing.overhang_mm
    assert told["governs"]["value"] <= 1.0 < told["fails"]["value"]
    assert told["gauge"] == found.gauge.gauge.number
    assert told["gauge_governs"]["value"] <= 1.0 < told["thinner_fails"]["value"]
    assert told["governs"]["not_judged"] == ["anchor in the wall"]


def test_not_asked():
    """Null."""
    assert sheet_limits_report.sheet_limits_report(None) is None
