"""Mass and centre of gravity."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.sheet import gauge, metal
from holeplacer.sheet.mass import Coat, sheet_mass

STEEL = metal.metal("steel")


def test_a_square_metre_by_density_and_by_gauge():
    """16 gauge steel: 2.442 lb/ft2 by density, 2.500 by its gauge, both in kg."""
    row = gauge.gauge("steel", 16)
    found = sheet_mass([1e6], [(0, 0)], STEEL, row.thickness_mm, nominal_lb_ft2=row.nominal_lb_ft2)
    assert found.metal_kg * 0.204816 == pytest.approx(2.442, abs=5e-4)
    assert found.nominal_kg * 0.204816 == pytest.approx(2.5, abs=1e-5)
    assert found.mass_kg == found.metal_kg


def test_without_a_nominal_weight_there_is_none():
    """Stainless gauges are no weights."""
    assert sheet_mass([1e6], [(0, 0)], metal.metal("stainless"), 1.588).nominal_kg is None


def test_a_finish_weighs_on_both_faces():
    """0.1 mm of 1500 kg/m3 on each face of a square metre is 0.3 kg."""
    found = sheet_mass([1e6], [(0, 0)], STEEL, 2.0, coat=Coat(0.1, 1500.0))
    assert found.finish_kg == pytest.approx(0.3)
    assert found.mass_kg == pytest.approx(15.7 + 0.3)
    assert found.pieces[0].mass_kg == pytest.approx(found.mass_kg)


def test_two_pieces_balance_between_them():
    """The whole balances where a see-saw of its pieces would."""
    found = sheet_mass([300.0, 100.0], [(0, 0), (40, 8)], STEEL, 1.0)
    assert found.centre_mm == pytest.approx((10.0, 2.0))
    assert [piece.centre_mm for piece in found.pieces] == [(0, 0), (40, 8)]
    assert found.pieces[0].mass_kg == pytest.approx(3 * found.pieces[1].mass_kg)


def test_holes_are_taken_out_of_their_own_piece():
    """A hole at one end moves the balance to the other, of its piece alone."""
    found = sheet_mass([1000.0, 1000.0], [(0, 0), (90, 0)], STEEL, 1.0, holes=[(0, 10, 0, 10.0)])
    drop = math.pi * 25
    assert found.drops_mm2 == pytest.approx(drop)
    assert found.pieces[0].area_mm2 == pytest.approx(1000 - drop)
    assert found.pieces[0].centre_mm == pytest.approx((-10 * drop / (1000 - drop), 0))
    assert found.pieces[1].centre_mm == (90, 0)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(-900, 900), st.floats(-90, 90), st.floats(2, 9)),
        max_size=6,
        unique_by=lambda hole: (round(hole[0] / 20), round(hole[1] / 20)),
    )
)
def test_holes_cut_from_the_polygon_say_the_same(found):
    """Second way: cut the holes from the plate and take the polygon's own area and centroid."""
    holes = [hole for hole in found if all(
        math.dist(hole[:2], other[:2]) > 20 for other in found if other is not hole
    )]  # fmt: skip
    plate = shapely.box(-1000, -100, 1000, 100)
    cut = plate
    for x, y, diameter in holes:
        turns = np.linspace(0, 2 * np.pi, 4001)
        ring = np.column_stack([x + diameter / 2 * np.cos(turns), y + diameter / 2 * np.sin(turns)])
        cut = cut.difference(shapely.Polygon(ring))
    mass = sheet_mass([plate.area], [(0, 0)], STEEL, 1.5, holes=[(0, *hole) for hole in holes])
    assert mass.area_mm2 == pytest.approx(cut.area, rel=1e-9)
    assert mass.centre_mm == pytest.approx((cut.centroid.x, cut.centroid.y), abs=1e-6)


def test_no_metal_is_refused():
    """One sentence, no division by nothing."""
    with pytest.raises(InputError, match="no metal"):
        sheet_mass([], [], STEEL, 1.0)
