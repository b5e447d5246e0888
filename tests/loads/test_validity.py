"""What a loading's figures can be."""

import dataclasses
import math

import pytest

from holeplacer.errors import InputError
from holeplacer.loads import validity
from holeplacer.loads.loading import (
    Asce7Site,
    En1991Site,
    Loading,
    Temperature,
    WallFixing,
    WoodScrew,
)


def test_a_sound_loading_comes_back_itself():
    """Nothing is changed, and what is not entered yet is no fault."""
    for loading in (Loading(), Loading(method="asce7-22"), Loading(method="entered")):
        assert validity.checked(loading) is loading


@pytest.mark.parametrize(
    ("loading", "named"),
    [
        (Loading(pressure_out_pa=-1.0), "pressure off the wall"),
        (Loading(pressure_out_pa=0.0), "pressure off the wall"),
        (Loading(pressure_out_pa=20e6), "pressure off the wall"),
        (Loading(pressure_in_pa=-1.0), "pressure on to the wall"),
        (Loading(asce7=Asce7Site(basic_speed_m_s=0.0)), "basic wind speed"),
        (Loading(asce7=Asce7Site(basic_speed_m_s=math.inf)), "basic wind speed"),
        (Loading(asce7=Asce7Site(kd=85.0)), "Kd"),
        (Loading(en1991=En1991Site(basic_speed_m_s=-1.0)), "basic wind velocity"),
        (Loading(en1991=En1991Site(height_to_depth=0.0)), "height over depth"),
        (Loading(temperature=Temperature(highest_c=500.0)), "highest temperature"),
        (Loading(temperature=Temperature(lowest_c=30.0)), "temperatures"),
        (Loading(temperature=Temperature(installation_c=70.0)), "temperatures"),
        (Loading(deflection_limit_mm=0.0), "deflection limit"),
        (Loading(deflection_ratio=math.nan), "deflection ratio"),
        (Loading(handling_factor=0.5), "handling factor"),
        (Loading(fixing=WallFixing(tension_n=0.0)), "allowable tension"),
        (Loading(fixing=WallFixing(screw=WoodScrew(specific_gravity=42.0))), "specific gravity"),
    ],
)
def test_what_can_not_be_meant_is_named(loading, named):
    """The sentence says which figure, its value and what it may be."""
    with pytest.raises(InputError) as caught:
        validity.checked(loading)
    assert caught.value.where.startswith(named)
    assert caught.value.remedy


def test_no_number_gets_through():
    """Every figure of the loading, nested ones too, refuses to be no number."""
    for holder, put in (
        (Loading(), lambda value: value),
        (Asce7Site(), lambda value: Loading(asce7=value)),
        (En1991Site(), lambda value: Loading(en1991=value)),
        (Temperature(), lambda value: Loading(temperature=value)),
        (WallFixing(), lambda value: Loading(fixing=value)),
        (WoodScrew(), lambda value: Loading(fixing=WallFixing(screw=value))),
    ):
        for field in dataclasses.fields(holder):
            if "float" in str(field.type):
                broken = put(dataclasses.replace(holder, **{field.name: math.nan}))
                with pytest.raises(InputError):
                    validity.checked(broken)
