"""Deflection."""

import pytest

from holeplacer.errors import InputError
from holeplacer.resistance import deflection


def test_entered_limit():
    """2 mm of 5 mm allowed."""
    result = deflection.check_limit(2.0, 5.0)
    assert result.utilisation == pytest.approx(0.4)
    assert result.status == "E"
    assert result.source == "entered"


def test_no_limit_is_no_pass():
    """Without a limit the utilisation is open."""
    result = deflection.check_limit(2.0, None)
    assert result.utilisation is None
    assert result.note == "no limit entered"


@pytest.mark.parametrize(
    ("ratio", "overhang", "status", "said"),
    [
        (60, False, "P", "siding"),
        (120, False, "M", "customary"),
        (30, True, "M", "cantilever counts as twice"),
        (60, True, "M", "cantilever counts as twice"),
        (90, False, "E", "entered"),
    ],
)
def test_span_ratio_names_where_it_comes_from(ratio, overhang, status, said):
    """L/60 is read, L/120 from memory, any other entered; none is of a code for signs."""
    result = deflection.check_ratio(3.0, 600.0, ratio, overhang=overhang)
    assert result.resistance == pytest.approx(600 / ratio)
    assert result.utilisation == pytest.approx(3 * ratio / 600)
    assert result.status == status
    assert said in result.source
    assert ("overhang" in result.check) == overhang


def test_no_span_that_cannot_be():
    """A span of nothing and a limit of nothing are refused."""
    with pytest.raises(InputError, match="the span in mm is 0"):
        deflection.check_ratio(1.0, 0.0, 60)
    with pytest.raises(InputError, match="the deflection ratio is -1"):
        deflection.check_ratio(1.0, 10.0, -1)
    with pytest.raises(InputError, match="the deflection limit in mm is 0"):
        deflection.check_limit(1.0, 0.0)
