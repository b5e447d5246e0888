"""Wall coefficients of ASCE 7."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.loads import asce7_wall
from holeplacer.loads.loading import Asce7Site

SITE = Asce7Site(
    roof_height_mm=4572.0, zone="by place", corner_distance_mm=1300.0, least_width_mm=12_192.0
)


@given(
    st.floats(0.0, 1e8),
    st.floats(0.0, 1e8),
    st.sampled_from([("4", "out"), ("5", "out"), ("4", "in"), ("5", "in")]),
)
def test_a_smaller_area_never_gets_less(area1, area2, which):
    """Coefficients fall with the area, within the figure's ends."""
    small, large = sorted((area1, area2))
    least, most = asce7_wall.gcp(*which, 1e12), asce7_wall.gcp(*which, 0.0)
    assert least <= asce7_wall.gcp(*which, large) <= asce7_wall.gcp(*which, small) + 1e-12
    assert asce7_wall.gcp(*which, small) <= most


def test_the_corner_is_never_kinder_than_the_field():
    """Zone 5 pulls at least as hard as zone 4, and both are pressed alike."""
    for area in (1e4, 1e6, 4e6, 3e7, 1e9):
        assert asce7_wall.gcp("5", "out", area) >= asce7_wall.gcp("4", "out", area)
        assert asce7_wall.gcp("5", "in", area) == asce7_wall.gcp("4", "in", area)


def test_zone_by_place():
    """Within a corner strip (4 ft = 1219 mm here) zone 5, beyond it zone 4; the steps show why."""
    zone, steps = asce7_wall.zone_at(SITE)
    assert zone == "4"
    assert [s.symbol for s in steps] == ["a", "e"]
    assert steps[0].value == pytest.approx(1219.2)
    assert "zone 4" in steps[1].meaning
    assert asce7_wall.zone_at(replace(SITE, corner_distance_mm=1200.0))[0] == "5"
    assert asce7_wall.zone_at(replace(SITE, corner_distance_mm=0.0))[0] == "5"


def test_a_named_zone_needs_nothing_else():
    """Distances are asked for only where the zone goes by place."""
    assert asce7_wall.zone_at(Asce7Site(zone="4")) == ("4", ())
    assert asce7_wall.zone_at(Asce7Site()) == ("5", ())


@pytest.mark.parametrize("missing", ["corner_distance_mm", "least_width_mm", "roof_height_mm"])
def test_by_place_asks_for_its_distances(missing):
    """What is missing is named, with the safe way round it."""
    with pytest.raises(InputError, match="not entered"):
        asce7_wall.zone_at(replace(SITE, **{missing: None}))


def test_step_of_a_coefficient():
    """It names zone and direction, and an entered one goes before the figure's."""
    by_figure = asce7_wall.gcp_step("5", "out", 1e4, None)
    assert by_figure.value == 1.4
    assert "off the wall, zone 5, corner strip" in by_figure.meaning
    assert "30.3-1" in by_figure.source
    own = asce7_wall.gcp_step("5", "in", 1e4, 0.9)
    assert (own.value, own.entered) == (0.9, True)
