"""What all bodies share."""

import numpy as np
import pytest
from scipy.sparse import csr_array
from shapely.geometry import box

from holeplacer.structure.body import Gauges, Place, rigid

NO_STANDOFFS = np.empty((0, 2)), np.empty((0, 1))


def test_rigid_movements_are_about_the_centre():
    """The centre of gravity rises in the first movement only."""
    place = Place.of(box(10, 20, 50, 50))
    assert place.size_mm == pytest.approx(25.0)
    assert place.rigid_at([[30.0, 35.0]]).tolist() == [[1.0, 0.0, 0.0]]
    assert place.rigid_at([[55.0, 35.0]])[0] == pytest.approx([1.0, 1.0, 0.0])


def test_rigid_slopes_are_those_of_the_deflection():
    """Tilts have the slope that their deflection has."""
    place = Place.of(box(0, 0, 30, 40))
    moved = rigid(np.array([[0.0, 0.0], [10.0, 0.0]]), place)
    assert (moved[3, 1] - moved[0, 1]) / 10 == pytest.approx(moved[1, 1])
    assert moved[2, 1] == 0.0


def gauges(mean=None):
    one = csr_array(np.array([[1.0, 0.0], [0.0, 1.0]]))
    zero = csr_array((2, 2))
    components = csr_array(np.vstack([one.toarray(), zero.toarray(), 2 * one.toarray()]))
    return Gauges(
        xy=np.zeros((2, 2)),
        components=components,
        preset=np.zeros(6),
        mean=mean,
        points=None,
        station=np.array([0, 2, 2]),
        gauge=np.array([0, 0, 1]),
    )


def test_stress_is_von_mises():
    """sqrt(x^2 + 3 s^2) without a stress across."""
    assert gauges().stress(np.array([3.0, 0.0]), *NO_STANDOFFS) == pytest.approx(
        [np.sqrt(9 + 3 * 36), 0.0]
    )


def test_means_are_taken_of_components():
    """Opposite stresses cancel before they are squared."""
    mean = csr_array(np.full((2, 2), 0.5))
    assert gauges(mean).stress(np.array([5.0, -5.0]), *NO_STANDOFFS) == pytest.approx([0.0, 0.0])


def test_each_station_has_its_worst_gauge():
    """A station without a gauge has none."""
    found = gauges().along_strokes(np.array([7.0, 9.0]), 4)
    assert found.tolist() == [7.0, 0.0, 9.0, 0.0]
