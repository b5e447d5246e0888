"""What a plan's figures can be."""

from dataclasses import replace

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import KnownDistance, ReadOptions
from holeplacer.errors import InputError
from holeplacer.loads.loading import Loading, Temperature
from holeplacer.plan import validity
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import SheetChoice, StandoffChoice
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import Feeds, SectionsChoice
from holeplacer.sheet import metal
from holeplacer.sheet.stock import Stock
from holeplacer.standoffs import standoff

NAN = float("nan")
METAL = replace(metal.metal("steel"), name="scrap", gauge_series="")
NORMAL = standoff.standoff("25 mm, M6 stud")
SCRAP = replace(METAL, ultimate_mpa=100.0)


def test_a_sound_plan_comes_back_itself(plan):
    """Nothing is changed."""
    assert validity.checked(plan) is plan


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"sheet": SheetChoice(thickness_mm=0.0)}, "sheet thickness"),
        ({"sheet": SheetChoice(process="wishing")}, "process"),
        ({"sheet": SheetChoice(gauge=99)}, "gauge"),
        ({"sheet": SheetChoice(metal="tin", gauge=None)}, "tin"),
        ({"sheet": SheetChoice(metal="s235")}, "s235 has no gauges"),
        ({"sheet": SheetChoice(finish="jam")}, "finish"),
        ({"sheet": SheetChoice(finish_mm=-0.1)}, "finish"),
        ({"sheet": SheetChoice("scrap", None, own_metal=SCRAP)}, "tensile strength"),
        ({"sheet": SheetChoice("tin", None, own_metal=METAL)}, "given twice"),
        (
            {"sheet": SheetChoice("steel", 16, own_metal=replace(METAL, name="steel"))},
            "the table's",
        ),
        ({"sheet": SheetChoice(" ", None, own_metal=replace(METAL, name=" "))}, "letters"),
        ({"sheet": SheetChoice("scrap", 16, own_metal=METAL)}, "scrap has no gauges"),
        ({"standoff": StandoffChoice(fit="hopeful")}, "fit"),
        ({"standoff": StandoffChoice(head="crown")}, "head"),
        ({"standoff": StandoffChoice(stud_material="oak")}, "stud material"),
        ({"standoff": StandoffChoice(bearing_mm=-1.0)}, "bearing diameter"),
        ({"standoff": StandoffChoice(hole_mm=NAN)}, "hole diameter"),
        ({"standoff": StandoffChoice(cap_mm=-1.0)}, "cap"),
        ({"limits": Limits(spacing_mm=0.0)}, "spacing"),
        ({"limits": Limits(edge_distance_mm=NAN)}, "edge distance"),
        ({"limits": Limits(turning_share=1.5)}, "turning share"),
        ({"limits": Limits(rule_set="hope")}, "rule set"),
        ({"offset_mm": float("inf")}, "offset"),
        ({"holes": (Hole(1, NAN, 0.0),)}, "hole 1, x"),
        ({"holes": (Hole(1, 0.0, 0.0, -3.0),)}, "hole 1, diameter"),
        ({"holes": (Hole(0, 0.0, 0.0),)}, "number"),
        ({"holes": (Hole(2, 0.0, 0.0), Hole(2, 9.0, 0.0))}, "twice"),
        ({"bosses": (Boss(0.0, 0.0, 0.0, 1.0),)}, "boss, radius"),
        ({"reading": ReadOptions(units="cubits")}, "cubits"),
        ({"reading": ReadOptions(width_mm=1.0, height_mm=1.0)}, "more than one"),
        ({"reading": ReadOptions(tolerance_mm=0.0)}, "tolerance"),
        ({"reading": ReadOptions(known=KnownDistance(1, 2, 1, 2, 50.0))}, "same"),
        ({"seams": (Seam(0.0, 0.0, NAN, 1.0),)}, "seam 1, x2"),
        ({"seams": (Seam(0.0, 1.0, 2.0, 1.0), Seam(3.0, 4.0, 3.0, 4.0))}, "seam 2"),
        ({"seams": (Seam(0.0, 1.0, 2.0, 1.0),) * 10_001}, "more than 10000"),
        ({"sections": SectionsChoice((Stock(0.0, 1000.0, True),))}, "sheet, width"),
        ({"sections": SectionsChoice((Stock(9.0, 9.0, True),) * 1001)}, "more than 1000"),
        ({"sections": SectionsChoice(margin_mm=-1.0)}, "margin"),
        ({"sections": SectionsChoice(travel_width_mm=NAN)}, "table travel"),
        ({"sections": SectionsChoice(root_gap_mm=99.0)}, "root gap"),
        ({"sections": SectionsChoice(preparation="glue")}, "glue"),
        ({"sections": SectionsChoice(turning="twirl")}, "twirl"),
        ({"sections": SectionsChoice(feeds=Feeds(cut_mm_min=0.0))}, "cutting feed"),
        ({"artwork": ArtworkFile("../../escape.svg", b"")}, "file name"),
    ],
)
def test_what_cannot_be_meant_is_named(plan, change, named):
    """Each impossible figure is refused by a sentence that names it."""
    with pytest.raises(InputError, match=named):
        validity.checked(replace(plan, **change))


@pytest.mark.parametrize(
    ("loading", "named"),
    [
        (Loading(pressure_out_pa=-10.0), "pressure off the wall"),
        (Loading(deflection_limit_mm=NAN), "deflection limit"),
        (Loading(temperature=Temperature(0.0, 40.0, 60.0)), "do not rise"),
    ],
)
def test_an_impossible_load_is_named(plan, loading, named):
    """A plan's loads are held to what loads can be."""
    with pytest.raises(InputError, match=named):
        validity.checked(replace(plan, loading=loading))


def test_a_metal_and_hardware_alone_can_be_checked():
    """What the person saved is held to the same figures as what is in a plan."""
    assert validity.checked_metal(METAL) is METAL
    assert validity.checked_standoff(NORMAL) is NORMAL
    with pytest.raises(InputError, match="density"):
        validity.checked_metal(replace(METAL, density_kg_m3=0.0))
    with pytest.raises(InputError, match="projection"):
        validity.checked_standoff(replace(NORMAL, projection_mm=-1.0))
