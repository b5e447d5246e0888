"""Pull-over."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.resistance import pull_over
from holeplacer.resistance.sheet_grade import SheetGrade


def sheet(family="steel", method="asd", thickness=1.5, ultimate=359.0):
    return SheetGrade(family, method, thickness, 228.0, ultimate)


@pytest.mark.parametrize(
    ("family", "method", "thickness", "allowed", "source"),
    [
        ("steel", "asd", 1.5, 1.5 * 1.5 * 12 * 359 / 3, "AISI S100-16 J4.4.2"),
        ("steel", "lrfd", 1.5, 0.5 * 1.5 * 1.5 * 12 * 359, "AISI S100-16 J4.4.2"),
        ("stainless", "asd", 1.5, 1.5 * 1.5 * 12 * 359 / 3, "AISI S100-16 J4.4.2"),
        ("aluminium", "asd", 1.5, (12 + 1.7 * 1.5) * 1.5 * 228 / 3, "Aluminum Design Manual"),
        ("steel", "en", 1.5, 0.5 * 12 * 1.5 * 359 / 1.25, "EN 1993-1-3 Table 8.2"),
        ("steel", "en", 2.9, 0.5 * 12 * 2.9 * 359 / 1.25, "EN 1993-1-3 Table 8.2"),
        ("steel", "en", 3.0, 0.6 * math.pi * 12 * 3 * 359 / 1.25, "EN 1993-1-8 Table 3.4"),
        (
            "aluminium",
            "en",
            1.5,
            6.1 * 1.5 * 260 * math.sqrt(12 / 22) / 1.25,
            "EN 1999-1-4 8.3.3.1",
        ),
    ],
)
def test_strength_by_rules(family, method, thickness, allowed, source):
    """Each family's own clause."""
    result = pull_over.check(sheet(family, method, thickness), 300.0, pressed_mm=12.0, hole_mm=7.0)
    assert result.resistance == pytest.approx(allowed)
    assert result.utilisation == pytest.approx(300 / allowed)
    assert result.source.startswith(source)


@pytest.mark.parametrize(("thickness", "outside"), [(1.49, False), (1.51, True)])
def test_thick_aluminium_is_said(thickness, outside):
    """EN 1999-1-4 covers sheeting to 1.5 mm."""
    result = pull_over.check(sheet("aluminium", "en", thickness), 1.0, pressed_mm=12.0, hole_mm=7.0)
    assert ("thicker than" in result.note) == outside


@pytest.mark.parametrize("pressed", [0.0, 6.0, 7.0])
@pytest.mark.parametrize("method", ["asd", "lrfd", "en"])
def test_cap_that_passes_through_the_hole_holds_nothing(pressed, method):
    """No cap, or one no wider than the hole: infinitely used under load, and said."""
    result = pull_over.check(sheet(method=method), 1.0, pressed_mm=pressed, hole_mm=7.0)
    assert result.resistance == 0
    assert result.utilisation == math.inf
    assert "as wide as" in result.note


@pytest.mark.parametrize(
    ("thickness", "outside"), [(0.4, True), (0.5, False), (1.5, False), (1.6, True)]
)
def test_outside_eurocode_range_is_said(thickness, outside):
    """0.5 to 1.5 mm is what Table 8.2 covers."""
    result = pull_over.check(
        sheet(method="en", thickness=thickness), 1.0, pressed_mm=12.0, hole_mm=7.0
    )
    assert ("outside" in result.note) == outside
    assert "repeats" in result.note


def test_small_heads_are_said():
    """AISI asks for a head of at least 5/16 in."""
    result = pull_over.check(sheet(), 1.0, pressed_mm=7.5, hole_mm=6.0)
    assert "at least 0.3125 in" in result.note


@pytest.mark.parametrize(
    ("family", "share"), [("steel", 0.5), ("stainless", 0.5), ("aluminium", 1)]
)
def test_pulled_on_one_side_only(family, share):
    """AISI halves what holds a sheet that pulls on one side of the cap, and says so."""
    even, one_sided = (
        pull_over.check(sheet(family), 1.0, pressed_mm=12.0, hole_mm=7.0, eccentric=eccentric)
        for eccentric in (False, True)
    )
    assert one_sided.resistance == pytest.approx(share * even.resistance)
    assert ("one side only" in one_sided.note) == (share < 1)
    assert "one side only" not in even.note


@pytest.mark.parametrize(
    ("family", "cap_mm"), [("steel", 0.75 * 25.4), ("aluminium", 0.625 * 25.4)]
)
def test_wide_washers_count_up_to_a_cap(family, cap_mm):
    """Beyond it a wider washer changes nothing but the note."""
    at, over = (
        pull_over.check(sheet(family), 1.0, pressed_mm=size, hole_mm=7.0)
        for size in (cap_mm, 2 * cap_mm)
    )
    assert over.resistance == pytest.approx(at.resistance)
    assert "of the washer" in over.note
    assert "of the washer" not in at.note


def test_the_part_that_presses_is_named():
    """Pushed on to the wall it is the barrel that presses."""
    result = pull_over.check(sheet(), 1.0, pressed_mm=12.0, hole_mm=7.0, part="barrel")
    assert result.check == "pull-over at the barrel"
    with pytest.raises(InputError, match="the barrel's diameter in mm is -1"):
        pull_over.check(sheet(), 1.0, pressed_mm=-1.0, hole_mm=7.0, part="barrel")


@pytest.mark.parametrize("method", ["asd", "lrfd", "en"])
@pytest.mark.parametrize("family", ["steel", "stainless", "aluminium", "copper"])
@settings(max_examples=25, deadline=None)
@given(st.floats(5, 40), st.floats(0.4, 6), st.floats(1.0, 1.6))
def test_more_metal_is_never_weaker(family, method, washer, thickness, more):
    """Thicker or stronger sheet, or a wider washer, never lets go sooner."""

    def allowed(w, t, fu=200.0):
        made = SheetGrade(family, method, t, 0.6 * fu, fu)
        return pull_over.check(made, 1.0, pressed_mm=w, hole_mm=4.0).resistance

    base = allowed(washer, thickness) * (1 - 1e-9)
    assert allowed(washer, thickness * more) >= base
    assert allowed(washer * more, thickness) >= base
    assert allowed(washer, thickness, 200.0 * more) >= base
