"""Wind by EN 1991-1-4 against published figures and worked cases.

Sources: EN 1991-1-4, sections 4 and 7, as excerpts and two worked examples on public pages (P), or
recomputed from them (R). Table 7.1 and the partial factors of EN 1990 are from memory (M).
"""

import pytest

from holeplacer.loads import combination, en1991, en1991_velocity, wind
from holeplacer.loads.loading import En1991Site, Loading


def figures(site):
    """Every step of the velocity pressure by its symbol."""
    return {step.symbol: step.value for step in en1991_velocity.peak_pressure(site).steps}


def site(terrain, vb, z_m):
    return En1991Site(basic_speed_m_s=vb, terrain=terrain, reference_height_mm=z_m * 1000)


@pytest.mark.parametrize(("vb", "qb"), [(25.0, 390.6), (26.0, 422.5)])
def test_basic_velocity_pressure(vb, qb):
    """qb = rho vb2 / 2."""
    assert figures(site("II", vb, 10))["qb"] == pytest.approx(qb, abs=0.05)


def test_terrain_two_at_ten_metres():
    """vb 25: cr 1.0067, vm 25.17, Iv .1887, qp 918.9, ce 2.352."""
    found = figures(site("II", 25.0, 10))
    assert found["cr"] == pytest.approx(1.0067, abs=5e-5)
    assert found["vm"] == pytest.approx(25.17, abs=5e-3)
    assert found["Iv"] == pytest.approx(0.1887, abs=5e-5)
    assert found["qp"] == pytest.approx(918.9, abs=0.05)
    assert found["ce"] == pytest.approx(2.352, abs=5e-4)


@pytest.mark.parametrize(
    ("terrain", "qp_10", "ce_10", "qp_5"),
    [
        ("0", 1165.8, 2.985, 1017.3),
        ("I", 1081.4, 2.769, 924.4),
        ("II", 918.9, 2.352, 753.6),
        ("III", 667.7, 1.709, 500.3),
        ("IV", 459.4, 1.176, 459.4),
    ],
)
def test_every_terrain(terrain, qp_10, ce_10, qp_5):
    """qp and ce at 10 m and 5 m, vb 25; terrain IV is constant below 10 m."""
    at_ten = figures(site(terrain, 25.0, 10))
    assert at_ten["qp"] == pytest.approx(qp_10, abs=0.05)
    assert at_ten["ce"] == pytest.approx(ce_10, abs=5e-4)
    assert figures(site(terrain, 25.0, 5))["qp"] == pytest.approx(qp_5, abs=0.05)


def test_published_case_by_the_sea():
    """Terrain 0, vb 25, z 77.36 m: kr .156, cr 1.585, vm 39.62, Iv .098, qp 1.658; z 28: 1.403."""
    found = figures(site("0", 25.0, 77.36))
    assert found["kr"] == pytest.approx(0.156, abs=5e-4)
    assert found["cr"] == pytest.approx(1.585, abs=5e-4)
    assert found["vm"] == pytest.approx(39.62, abs=5e-3)
    assert found["Iv"] == pytest.approx(0.098, abs=5e-4)
    assert found["qp"] == pytest.approx(1658, abs=0.5)
    lower = figures(site("0", 25.0, 28))
    assert lower["cr"] == pytest.approx(1.426, abs=5e-4)
    assert lower["qp"] == pytest.approx(1403, abs=0.5)


def test_published_case_in_town():
    """Terrain IV, vb 26, z 9 m (10 m rules): kr .234, cr .54, Iv .434, ce 1.18, qp .497."""
    found = figures(site("IV", 26.0, 9))
    assert found["kr"] == pytest.approx(0.234, abs=5e-4)
    assert found["cr"] == pytest.approx(0.54, abs=5e-3)
    assert found["Iv"] == pytest.approx(0.434, abs=5e-4)
    assert found["ce"] == pytest.approx(1.18, abs=5e-3)
    assert found["qp"] == pytest.approx(497, abs=0.5)


@pytest.mark.parametrize(
    ("zone", "tens", "ones"),
    [
        ("A", (1.2, 1.2, 1.2), (1.4, 1.4, 1.4)),
        ("B", (0.8, 0.8, 0.8), (1.1, 1.1, 1.1)),
        ("C", (0.5, 0.5, 0.5), (0.5, 0.5, 0.5)),
        ("D", (0.7, 0.8, 0.8), (1.0, 1.0, 1.0)),
        ("E", (0.3, 0.5, 0.7), (0.3, 0.5, 0.7)),
    ],
)
def test_wall_coefficients(zone, tens, ones):
    """Table 7.1 at h/d 1/4, 1 and 5: cpe,10 and cpe,1 of every zone (M)."""
    for ratio, ten, one in zip((0.25, 1.0, 5.0), tens, ones, strict=True):
        assert en1991.cpe(zone, ratio, 10e6) == pytest.approx(ten)
        assert en1991.cpe(zone, ratio, 1e6) == pytest.approx(one)
        assert en1991.cpe(zone, ratio, 80e6) == pytest.approx(ten)
        assert en1991.cpe(zone, ratio, 0.02e6) == pytest.approx(one)


def test_coefficient_between_the_areas():
    """Zone A, 3 m2: 1.305."""
    assert en1991.cpe("A", 1.0, 3e6) == pytest.approx(1.305, abs=5e-4)


def test_both_ways_at_characteristic_level_and_with_the_partial_factor():
    """Terrain II, 10 m, vb 25: zone A 1.4 x 918.9 off the wall, zone D 918.9 on to it; x 1.5."""
    loading = Loading(method="en1991-1-4", design_method="en", en1991=site("II", 25.0, 10))
    found = wind.design_pressure(loading, effective_area_mm2=0.1e6)
    assert found.nominal_out_pa == pytest.approx(1286.5, abs=0.1)
    assert found.nominal_in_pa == pytest.approx(918.9, abs=0.05)
    assert found.out_pa == pytest.approx(1.5 * found.nominal_out_pa)


def test_combinations():
    """EN 1990 Eq. 6.10: 1.35G + 1.5Q and 1.0G + 1.5Q; 6.14b for deflection (M)."""
    rows = combination.combinations(Loading(method="en1991-1-4", design_method="en"))
    assert [row.name for row in rows if row.purpose == "strength"] == [
        "1.35G",
        "1.35G + 1.5Q",
        "1.0G + 1.5Q",
    ]
    assert [row.name for row in rows if row.purpose == "deflection"] == ["1.0G", "1.0G + 1.0Q"]
