"""Effective wind area."""

from hypothesis import given
from hypothesis import strategies as st

from holeplacer.loads.effective_area import effective_area_mm2, fastener_area_mm2

LENGTHS = st.floats(1.0, 1e4)


def test_a_wide_strip_takes_its_own_width():
    """Above a third of the span the width counts as it is."""
    assert effective_area_mm2(300.0, 200.0) == 60_000.0
    assert effective_area_mm2(300.0, 40.0) == 30_000.0


@given(LENGTHS, LENGTHS, LENGTHS)
def test_a_fastener_never_takes_more_than_hangs_on_it(span, width, side):
    """The tributary area is the most, the span's area the other bound."""
    area = fastener_area_mm2(span, width, side * side)
    assert area <= side * side
    assert area <= effective_area_mm2(span, width)
    assert area in (side * side, effective_area_mm2(span, width))
