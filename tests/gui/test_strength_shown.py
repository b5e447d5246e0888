"""Which response is drawn, and the scales that views share."""

from dataclasses import replace

import pytest

from holeplacer.gui.strength_shown import Colouring, StrengthShown, round_up
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


@pytest.fixture
def shown(windy):
    return StrengthShown.of(windy)


def test_there_is_one_for_a_session(windy, shown):
    """Views share it."""
    assert StrengthShown.of(windy) is shown


def test_drawn_only_while_open_or_pinned(shown):
    """Another stage leaves the sign as it is, unless the person wants it."""
    assert shown.drawn is None
    shown.set_open(True)
    assert shown.drawn is shown.strength is not None
    shown.set_open(False)
    assert shown.response is None
    shown.set_pinned(True)
    assert shown.drawn is not None


def test_the_case_chosen_or_the_worst(shown):
    """By name; an unknown name falls back to the worst of what is drawn."""
    shown.set_open(True)
    shown.set_case("pressure in")
    assert shown.response.name == "pressure in"
    shown.set_case("gone")
    worst = max(shown.strength.effects.wind, key=lambda case: case.max_deflection_mm)
    assert shown.response is worst
    shown.set_colouring(Colouring.STRESS)
    assert shown.response.max_stress_mpa == worst.max_stress_mpa


def test_scales_end_in_round_figures_above_all(shown):
    """So that ticks divide them well."""
    shown.set_open(True)
    effects = shown.strength.effects
    assert shown.top("deflection") == round_up(effects.wind[0].max_deflection_mm)
    assert shown.top("reaction") >= max(effects.wind[0].reactions_n)
    assert shown.top("stress") >= effects.wind[0].max_stress_mpa


def test_scales_are_round_in_the_unit_shown(windy, shown):
    """Inches, pounds and ksi have round figures of their own."""
    shown.set_open(True)
    windy.set_unit(LengthUnit.INCH)
    for name, size in (("deflection", 25.4), ("reaction", 4.4482216152605), ("stress", 6.894757)):
        inches = shown.top(name) / size
        assert inches == pytest.approx(round_up(0.9999 * inches), rel=1e-6)
    effects = shown.strength.effects
    assert shown.top("deflection") >= effects.wind[0].max_deflection_mm
    windy.set_unit(LengthUnit.MM)
    assert shown.top("deflection") == round_up(effects.wind[0].max_deflection_mm)


def test_scales_only_grow_while_a_hole_is_dragged(windy, shown, strokes):
    """Colours stay comparable; committed, the scale fits again."""
    shown.set_open(True)
    before = shown.top("deflection")
    calm = replace(windy.plan.loading, pressure_out_pa=10.0)
    windy.preview(edit.with_loading(windy.plan, calm))
    assert shown.top("deflection") == before
    windy.push(edit.with_loading(windy.committed, calm), "Less")
    assert shown.top("deflection") < before


def test_changes_are_told_once(shown):
    """The same choice again is none."""
    told = []
    shown.changed.connect(lambda: told.append(1))
    shown.set_reactions(False)
    shown.set_reactions(False)
    shown.set_deflected(True)
    assert len(told) == 2


@pytest.mark.parametrize(
    ("value", "top"),
    [(3.7, 4.0), (4.0, 4.0), (0.011, 0.012), (0.0, 1.0), (-1.0, 1.0), (float("inf"), 1.0)],
)
def test_round_up(value, top):
    """The next round figure."""
    assert round_up(value) == pytest.approx(top)
