"""How a plan's standoffs are held in its wall."""

from dataclasses import replace

import pytest

from holeplacer.loads.loading import Loading, WallFixing, WoodScrew
from holeplacer.resistance import wood_withdrawal
from holeplacer.rules import wall_fixing
from holeplacer.wall.fastener import Fastener
from holeplacer.wall.layer import Layer
from holeplacer.wall.wall import Wall

STUD = Layer("structure", 89.0, "stud")
FOAM = Layer("soft", 19.05, "foam")
SCREWED = Loading(fixing=WallFixing(None, 300.0, WoodScrew(thread_mm=100.0)))


def fixing(plan, layers, fastener=Fastener(), loading=SCREWED):  # noqa: B008 (a frozen value)
    return wall_fixing.fixing_of(
        replace(plan, loading=loading, wall=Wall(layers=layers, fastener=fastener))
    )


def test_without_layers_what_was_entered_holds(plan):
    """And so with an anchor, whose maker's values are entered."""
    assert fixing(plan, ()) is SCREWED.fixing
    anchor = Fastener("adhesive anchor")
    assert fixing(plan, (Layer("masonry", 200.0),), anchor) is SCREWED.fixing
    plain = Loading(fixing=WallFixing(500.0, 300.0))
    assert fixing(plan, (STUD,), loading=plain) is plain.fixing
    assert wall_fixing.drilling_of(plan) is None


def test_the_thread_in_the_structure_counts(plan):
    """8 diameters of a 1/4 in stud are 2 in, whatever length was entered."""
    found = fixing(plan, (FOAM, STUD))
    assert found.screw.thread_mm == pytest.approx(50.8)
    assert (found.screw.kind, found.shear_n) == ("lag", 300.0)
    # 1800 x 0.42^1.5 x 0.25^0.75 lb per inch, 1.6 for wind, 2 in: 173.2 x 1.6 x 2 lb (NDS 12.2.1)
    assert wood_withdrawal.withdrawal_n(found.screw) == pytest.approx(
        173.2 * 1.6 * 2 * 4.4482, rel=1e-3
    )


def test_thin_structure_holds_less(plan):
    """A 3/4 in board lets a screw be held no deeper than it is, less the point."""
    found = fixing(plan, (Layer("structure", 19.05),))
    assert found.screw.thread_mm == pytest.approx(19.05 - 0.6 * 6.35)


def test_a_screw_with_a_head_counts_its_thread_only(plan):
    """Half the length of a lag screw and 1/2 in; two thirds of a wood screw."""
    thick = (Layer("cladding", 5.0), Layer("structure", 200.0))
    long = Fastener("lag screw", "barrel", embedment_mm=120.0)
    drilled = wall_fixing.drilling_of(replace(plan, wall=Wall(layers=thick, fastener=long)))
    assert fixing(plan, thick, long).screw.thread_mm == pytest.approx(drilled.length.mm / 2 + 12.7)
    wood = Fastener("wood screw", "barrel", 4.826, embedment_mm=60.0)
    drilled = wall_fixing.drilling_of(replace(plan, wall=Wall(layers=thick, fastener=wood)))
    found = fixing(plan, thick, wood).screw
    assert (found.kind, found.diameter_mm) == ("wood", 4.826)
    assert found.thread_mm == pytest.approx(min(drilled.reached_mm, drilled.length.mm * 2 / 3))


@pytest.mark.parametrize("layers", [(FOAM,), (Layer("masonry", 200.0),)])
def test_held_by_no_structure_nothing_is_known(plan, layers):
    """Neither foam nor brick holds a wood screw: its tension is open."""
    found = fixing(plan, layers)
    assert (found.screw, found.tension_n) == (None, None)


def test_finish_lengthens_the_fastener(plan):
    """Sheet and finish on both sides lie between barrel and cap."""
    wall = Wall(layers=(STUD,))
    bare = wall_fixing.drilling_of(replace(plan, wall=wall))
    sheet = replace(plan.sheet, finish="entered", finish_mm=0.5)
    coated = wall_fixing.drilling_of(replace(plan, wall=wall, sheet=sheet))
    assert coated.needed_mm - bare.needed_mm == pytest.approx(1.0)
