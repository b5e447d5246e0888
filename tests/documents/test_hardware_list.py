"""Everything a sign is hung with."""

import csv
import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.documents import hardware_list
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan, StandoffChoice
from holeplacer.standoffs import standoff
from holeplacer.wall.fastener import Fastener
from holeplacer.wall.layer import Layer
from holeplacer.wall.wall import Wall

FOAM = (Layer("soft", 19.05, "foam"), Layer("structure", 89.0, "stud"))
TWELVE = Plan(
    ArtworkFile("gull.svg", b""), holes=tuple(Hole(n, 100.0 * n, 0.0) for n in range(1, 13))
)


def listed(plan):
    return {item.name: item for item in hardware_list.hardware_list(plan)}


def test_without_holes_nothing_is_needed():
    """An empty plan has an empty list."""
    assert hardware_list.hardware_list(edit.with_holes(TWELVE, ())) == ()


def test_without_layers_the_length_is_asked_for():
    """Barrels, heads and fasteners are counted; how long is not known."""
    found = listed(TWELVE)
    assert "enter the wall's layers" in found["hanger bolt"].note
    assert (found["hanger bolt"].count, found["hanger bolt"].spare) == (12, 2)
    assert (found["barrel"].count, found["barrel"].spare) == (12, 1)
    assert found["neutral-cure sealant"].unit == "ml"
    assert "drill" not in found


def test_with_layers_all_is_sized():
    """The fastener's length, both drills, a sleeve over the foam."""
    plan = edit.with_wall(TWELVE, Wall(layers=FOAM))
    items = hardware_list.hardware_list(plan)
    found = listed(plan)
    drills = [item for item in items if item.name == "drill"]
    assert [item.size for item in drills] == ["5/32 in", "25/64 in"]
    assert "into stud" in drills[0].note
    assert found["hanger bolt"].size == "1/4 in x 4 1/2 in"
    assert "51 mm held" in found["hanger bolt"].note
    assert "22.2 mm long" in found["sleeve or spacer"].size
    assert found["sleeve or spacer"].count == 12


def test_adhesive_fills_the_room_around_the_studs():
    """Twelve M8 studs 80 mm deep in 10 mm holes: ring times depth, and some more."""
    brick = Wall(layers=(Layer("masonry", 200.0),), fastener=Fastener("adhesive anchor"))
    metric = StandoffChoice.of(standoff.standoff("25 mm, M6 stud"))
    plan = replace(TWELVE, standoff=replace(metric, stud_mm=8.0, hole_mm=9.0), wall=brick)
    found = listed(plan)["anchor adhesive"]
    room = math.pi / 4 * (10**2 - 8**2) * 80 * 12 / 1000
    assert found.count == math.ceil(1.3 * room)
    assert found.unit == "ml"


def test_a_glued_standoff_takes_no_fastener():
    """It has barrel, head and adhesive."""
    plan = edit.with_hole_fastened(edit.with_wall(TWELVE, Wall(layers=FOAM)), 3, False)
    found = listed(plan)
    assert found["hanger bolt"].count == found["sleeve or spacer"].count == 11
    assert found["barrel"].count == 12
    assert "count for nothing" in found["construction adhesive"].note


def test_what_does_not_hold_is_said():
    """A hanger bolt in brick is listed with the warning, not as if all were well."""
    brick = edit.with_wall(TWELVE, Wall(layers=(Layer("masonry", 200.0),)))
    assert "does not hold" in listed(brick)["hanger bolt"].note


@given(st.integers(1, 200), st.booleans())
def test_there_is_enough_of_everything(count, soft):
    """No part is counted below the holes; spares grow with the count; all have a source."""
    holes = tuple(Hole(n, float(n), 0.0) for n in range(1, count + 1))
    layers = FOAM if soft else FOAM[1:]
    plan = replace(TWELVE, holes=holes, wall=Wall(layers=layers))
    for item in hardware_list.hardware_list(plan):
        if item.name != "drill" and item.unit == "pcs":
            assert item.count == count
            assert item.spare >= 1
        assert item.source
        assert item.status


def test_the_table_is_read_back():
    """As CSV: the caution, the columns, the same figures."""
    plan = edit.with_wall(TWELVE, Wall(layers=FOAM))
    text = hardware_list.hardware_csv(plan).decode()
    assert text.startswith("# Estimates")
    rows = list(csv.DictReader(text.splitlines()[1:]))
    items = hardware_list.hardware_list(plan)
    assert [row["item"] for row in rows] == [item.name for item in items]
    assert [int(row["count"]) for row in rows] == [item.count for item in items]
    assert tuple(rows[0]) == hardware_list.COLUMNS


@pytest.mark.parametrize(
    ("mm", "name"), [(6.35, "1/4 in"), (12.7, "1/2 in"), (8.0, "M8"), (13.0, "⌀ 13 mm")]
)
def test_sizes_are_as_they_are_sold(mm, name):
    """Threads by name, other inch sizes in sixteenths, the rest in mm."""
    barrel = replace(TWELVE.standoff, barrel_mm=mm)
    assert name in listed(replace(TWELVE, standoff=barrel))["barrel"].size
