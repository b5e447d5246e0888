"""What the person saved comes back, and only what can be meant."""

from dataclasses import replace

import pytest

from holeplacer.errors import InputError
from holeplacer.gui.own_stock import OwnStock
from holeplacer.sheet import metal
from holeplacer.standoffs import standoff

SCRAP = replace(metal.metal("steel"), name="scrap", yield_mpa=150.0)
LONG = replace(standoff.standoff("25 mm, M6 stud"), name="long ones", projection_mm=80.0)


@pytest.fixture
def stock(settings):
    return OwnStock(settings)


def test_what_is_kept_comes_back(stock, settings):
    """Equal to the last figure, also for another window on the same settings."""
    stock.keep_metal(SCRAP)
    stock.keep_standoff(LONG)
    settings.sync()
    again = OwnStock(settings)
    assert again.metals() == (SCRAP,)
    assert again.standoffs() == (LONG,)


def test_the_same_name_is_replaced(stock):
    """One metal by each name, in order of names."""
    stock.keep_metal(SCRAP)
    stock.keep_metal(replace(SCRAP, name="alloy of mine"))
    stock.keep_metal(replace(SCRAP, yield_mpa=160.0))
    assert [item.name for item in stock.metals()] == ["alloy of mine", "scrap"]
    assert stock.metals()[1].yield_mpa == 160.0


def test_forgotten_is_gone(stock, qtbot):
    """And whoever lists them is told."""
    stock.keep_metal(SCRAP)
    stock.keep_standoff(LONG)
    with qtbot.waitSignal(stock.changed):
        stock.forget_metal("scrap")
    with qtbot.waitSignal(stock.changed):
        stock.forget_standoff("long ones")
    assert (stock.metals(), stock.standoffs()) == ((), ())


@pytest.mark.parametrize(
    ("keep", "said"),
    [
        (lambda stock: stock.keep_metal(metal.metal("steel")), "table already"),
        (lambda stock: stock.keep_metal(replace(SCRAP, name="  ")), "name of its own"),
        (lambda stock: stock.keep_metal(replace(SCRAP, density_kg_m3=0.0)), "density"),
        (lambda stock: stock.keep_standoff(replace(LONG, name="own")), "table already"),
        (lambda stock: stock.keep_standoff(replace(LONG, stud_mm=-1.0)), "stud diameter"),
    ],
)
def test_what_cannot_be_kept_is_refused(stock, keep, said):
    """A name that is taken, none, or a figure that can't be meant."""
    with pytest.raises(InputError, match=said):
        keep(stock)
    assert (stock.metals(), stock.standoffs()) == ((), ())


@pytest.mark.parametrize("text", ["", "{", "[1, 2]", '[{"name": "x"}]'])
def test_damaged_settings_count_as_none(stock, settings, text):
    """No traceback when the window opens."""
    settings.setValue("own/metals", text)
    assert stock.metals() == ()
