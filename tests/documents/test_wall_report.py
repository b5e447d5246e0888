"""The report's parts on wall and hardware."""

from dataclasses import replace

import msgspec
import pytest

from holeplacer.documents import hardware_list, wall_report
from holeplacer.plan.hole import Hole
from holeplacer.wall.as_found import Revision
from holeplacer.wall.layer import Layer
from holeplacer.wall.wall import Elevation, Placing, Wall
from holeplacer.wall.zone import Studs, Zone

WALL = Wall(
    Elevation(6000.0, 3000.0, -150.0),
    Placing("left", 300.0, "ground", 2600.0),
    studs=(Studs(400.0),),
    layers=(Layer("cladding", 6.0, "stucco"), Layer("soft", 19.0), Layer("structure", 89.0)),
    revisions=(Revision(2, ("hole 2 moved",)),),
)


@pytest.fixture
def layout(laid_out):
    found = laid_out(Hole(1, 55.0, -50.0), Hole(2, 255.0, -50.0, fastened=False))
    return replace(found, plan=replace(found.plan, wall=WALL))


def told(value):
    return msgspec.json.decode(msgspec.json.encode(value))


def test_without_a_wall_there_is_no_part_of_it(laid_out):
    """Null; the hardware is listed all the same."""
    bare = laid_out(Hole(1, 55.0, -50.0))
    assert wall_report.wall_report(bare) is None
    assert len(wall_report.hardware(bare)) == len(hardware_list.hardware_list(bare.plan))


def test_its_form_is_fixed(layout):
    """The keys are what other programs rely on."""
    value = told(wall_report.wall_report(layout))
    assert set(value) == {
        "placed", "layers", "drilling", "clear_mm", "landing", "holes", "sign_cut", "revision",
    }  # fmt: skip
    assert set(value["placed"]) == {
        "width_mm", "height_mm", "shift_mm", "over_ground_mm", "level_mm", "datum_mm", "beyond_mm",
    }  # fmt: skip
    assert set(value["holes"][0]) == {
        "hole", "x_mm", "y_mm", "ground", "what", "clear_mm", "fastened",
    }  # fmt: skip
    assert set(value["drilling"]) == {
        "fastener", "diameter_mm", "layer", "holds", "drill", "drill_mm", "outer_drill",
        "outer_drill_mm", "depth_mm", "embedment_asked_mm", "embedment_least_mm", "embedment_mm",
        "needed_length_mm", "length", "length_mm", "cut_off_mm", "lever_arm_mm", "sleeve_mm",
        "source", "status", "notes",
    }  # fmt: skip
    assert set(told(wall_report.hardware(layout))[0]) == {
        "name", "size", "count", "spare", "unit", "note", "source", "status",
    }  # fmt: skip


def test_places_are_the_walls(layout):
    """A hole's place is the sign's edge on the wall and its own place on the sign."""
    value = told(wall_report.wall_report(layout))
    left, bottom, _, _ = layout.outline.bounds_mm
    one = value["holes"][0]
    assert one["x_mm"] == pytest.approx(300 + 55 - left)
    assert one["y_mm"] == pytest.approx(2450 - 50 - bottom)
    assert value["placed"]["over_ground_mm"] == pytest.approx(2600.0)
    assert value["revision"] == 2
    assert [hole["fastened"] for hole in value["holes"]] == [True, False]


def test_what_is_met_is_told(layout):
    """A conduit's clear distance is that of the drilled hole's edge."""
    one = told(wall_report.wall_report(layout))["holes"][0]
    x, y = one["x_mm"], one["y_mm"]
    pipe = Zone("blocked", "conduit", "band", ((x + 50, y - 9), (x + 50, y + 9)), 10.0)
    near = replace(layout, plan=replace(layout.plan, wall=replace(WALL, zones=(pipe,))))
    value = told(wall_report.wall_report(near))
    radius = value["drilling"]["outer_drill_mm"] / 2
    assert value["holes"][0]["clear_mm"] == pytest.approx(40 - radius)
    assert value["drilling"]["lever_arm_mm"] == pytest.approx(25.4 + 25.0)
