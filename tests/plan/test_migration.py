"""Plan files of earlier versions."""

import math
from pathlib import Path

import pytest

from holeplacer.loads.loading import Loading
from holeplacer.plan import migration, plan_file
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import SheetChoice, StandoffChoice
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import Feeds, SectionsChoice
from holeplacer.sheet.stock import Stock
from holeplacer.standoffs import standoff
from holeplacer.wall.wall import Wall

PLANS = Path(__file__).parent.parent / "files" / "plans"
VERSION_1, VERSION_2 = PLANS / "version-1.holeplan", PLANS / "version-2.holeplan"
VERSION_3, VERSION_4 = PLANS / "version-3.holeplan", PLANS / "version-4.holeplan"


def test_a_version_1_file_is_read_whole():
    """Everything it said is in the plan, in today's terms."""
    plan = plan_file.load_plan(VERSION_1)
    assert plan.artwork.name == "gull.svg"
    assert plan.artwork.data.startswith(b"<svg")
    assert plan.reading.width_mm == 2000.0
    assert plan.reading.rotation_rad == pytest.approx(math.radians(1.5))
    assert (plan.sheet.metal, plan.sheet.gauge, plan.sheet.process) == ("stainless", 14, "laser")
    assert (plan.limits.ligament_mm, plan.limits.spacing_mm, plan.limits.overhang_mm) == (
        4,
        350,
        120,
    )
    assert plan.holes == (Hole(1, 150.0, 148.5, None, True), Hole(2, 480.25, 151.0))


def test_the_stud_follows_a_version_1_hole():
    """A 6.6 mm hole is an M6 stud's."""
    hardware = plan_file.load_plan(VERSION_1).standoff
    assert (hardware.name, hardware.hole_mm, hardware.stud_mm) == ("own", 6.6, 6.0)


def test_a_version_2_file_is_read_whole():
    """Everything it said is in the plan; what it could not say is as it was meant then."""
    plan = plan_file.load_plan(VERSION_2)
    assert (plan.artwork.name, plan.reading.width_mm, plan.offset_mm) == ("heron.svg", 1280.0, 0.5)
    assert plan.sheet == SheetChoice("galvanized", 14, 1.994, "laser", "bare", 0.0, None)
    assert plan.standoff == StandoffChoice.of(standoff.standoff("25 mm, M6 stud"))
    assert (plan.standoff.fit, plan.standoff.stud_material) == ("normal", "steel")
    assert plan.limits == Limits(ligament_mm=3.5, spacing_mm=420.0, overhang_mm=160.0)
    assert plan.bosses == (Boss(900.0, 120.0, 14.0, 9.0),)
    assert plan.holes == (
        Hole(1, 120.0, 120.0),
        Hole(2, 520.5, 120.0, None, True),
        Hole(4, 900.0, 120.0, 9.0),
        Hole(5, 1150.25, 119.0),
    )
    assert plan.loading == Loading(method="none")


def test_a_version_3_file_is_read_whole():
    """Everything it said is in the plan; no seams and no sheets were known then."""
    plan = plan_file.load_plan(VERSION_3)
    assert (plan.artwork.name, plan.reading.width_mm, plan.offset_mm) == ("plover.svg", 2400, 0.25)
    assert plan.sheet == SheetChoice("stainless", 14, 1.984)
    assert plan.standoff == StandoffChoice.of(standoff.standoff("25 mm, M6 stud"))
    assert plan.limits == Limits(spacing_mm=380.0, neighbour_mm=40.0)
    assert plan.holes == (Hole(1, 150.0, 120.0, None, True, True), Hole(2, 500.0, 118.5, 7.0))
    assert plan.bosses == (Boss(500.0, 118.5, 15.0, 9.0),)
    assert plan.loading == Loading("entered", pressure_out_pa=900.0)
    assert (plan.seams, plan.sections) == ((), SectionsChoice())


def test_a_version_4_file_is_read_whole():
    """Everything it said is in the plan; of the wall it said nothing, every hole was fastened."""
    plan = plan_file.load_plan(VERSION_4)
    assert (plan.artwork.name, plan.reading.width_mm) == ("curlew.svg", 2400.0)
    assert plan.holes == (Hole(1, 150.0, 120.0, None, True, True), Hole(2, 500.0, 118.5, 7.0))
    assert all(hole.fastened for hole in plan.holes)
    assert plan.seams == (Seam(1200.0, 0.0, 1200.0, 240.0, True),)
    assert plan.sections == SectionsChoice(
        (Stock(1219.2, 1196.975, True, "48 x 48 in", 2),),
        12.0,
        preparation="bevel",
        feeds=Feeds(3000.0),
    )
    assert plan.wall == Wall()


@pytest.mark.parametrize("old", [VERSION_1, VERSION_2, VERSION_3, VERSION_4])
def test_saved_again_it_is_todays_version(tmp_path, old):
    """Opening and saving brings a file up to date without changing the plan."""
    plan = plan_file.load_plan(old)
    plan_file.save_plan(plan, tmp_path / "new.holeplan")
    assert b'"version": 5' in (tmp_path / "new.holeplan").read_bytes()
    assert plan_file.load_plan(tmp_path / "new.holeplan") == plan


def test_todays_body_is_left_alone():
    """No step runs on the present version."""
    body = {"anything": 1}
    assert migration.migrated(body, migration.VERSION) is body
