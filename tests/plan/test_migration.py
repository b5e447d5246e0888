"""Plan files of earlier versions."""

import math
from pathlib import Path

import pytest

from holeplacer.plan import migration, plan_file
from holeplacer.plan.hole import Hole

VERSION_1 = Path(__file__).parent.parent / "files" / "plans" / "version-1.holeplan"


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


def test_saved_again_it_is_todays_version(tmp_path):
    """Opening and saving brings a file up to date without changing the plan."""
    plan = plan_file.load_plan(VERSION_1)
    plan_file.save_plan(plan, tmp_path / "new.holeplan")
    assert b'"version": 2' in (tmp_path / "new.holeplan").read_bytes()
    assert plan_file.load_plan(tmp_path / "new.holeplan") == plan


def test_todays_body_is_left_alone():
    """No step runs on the present version."""
    body = {"anything": 1}
    assert migration.migrated(body, migration.VERSION) is body
