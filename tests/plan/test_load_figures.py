"""What the figures of a loading can be."""

from dataclasses import fields, is_dataclass, replace

import pytest

from holeplacer.errors import InputError
from holeplacer.loads.loading import Asce7Site, Loading, Temperature, WallFixing, WoodScrew
from holeplacer.plan import load_figures, validity


def figure_names(part):
    """Names of all fields that hold figures, of the value and of its parts."""
    for field in fields(part):
        if is_dataclass(getattr(part, field.name)):
            yield from figure_names(getattr(part, field.name))
        elif "float" in str(field.type):
            yield field.name


WHOLE = replace(Loading(), fixing=WallFixing(screw=WoodScrew()))


def test_every_figure_has_its_range():
    """No figure of a loading goes unchecked, and no range is of a figure that is not there."""
    assert set(figure_names(WHOLE)) == set(load_figures.RANGES)


def test_a_new_plans_loading_is_possible():
    """The defaults lie within their ranges."""
    found = list(load_figures.figures(WHOLE))
    assert len(found) > 15
    assert all(value is None or least <= value <= most for _, value, least, most in found)


@pytest.mark.parametrize(
    ("loading", "named"),
    [
        (Loading(pressure_out_pa=-10.0), "pressure off the wall: -10 is not possible"),
        (Loading(pressure_in_pa=float("nan")), "pressure on to the wall"),
        (Loading(deflection_limit_mm=0.0), "deflection limit"),
        (Loading(asce7=Asce7Site(basic_speed_m_s=4000.0)), "basic wind speed"),
        (Loading(fixing=WallFixing(screw=WoodScrew(specific_gravity=7.0))), "specific gravity"),
        (Loading(temperature=Temperature(0.0, 40.0, 60.0)), "60 °C at installation"),
    ],
)
def test_what_cannot_be_meant_is_named(plan, loading, named):
    """A plan with an impossible load is refused by a sentence that names the figure."""
    with pytest.raises(InputError, match=named):
        validity.checked(replace(plan, loading=loading))
