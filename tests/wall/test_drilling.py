"""Hole depth, drill, fastener length and embedment, by cases worked by hand."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.wall import drilling, layers
from holeplacer.wall.fastener import FASTENER_KINDS, REACHES, Fastener
from holeplacer.wall.layer import LAYER_KINDS, Layer
from holeplacer.wall.wall import Wall

IN = 25.4
STUCCO = Wall(
    layers=(
        Layer("cladding", 6.35, "stucco"),
        Layer("soft", 0.75 * IN, "foam"),
        Layer("sheathing", 0.5 * IN, "boards"),
        Layer("structure", 3.5 * IN, "stud"),
    )
)
BRICK = Wall(layers=(Layer("masonry", 200.0, "brick"),), fastener=Fastener("adhesive anchor"))


def drilled(wall, stud=0.25 * IN, projection=IN, sheet=1.519):
    return drilling.drilling(wall, stud_mm=stud, projection_mm=projection, sheet_mm=sheet)


def test_stucco_on_foam_over_boards_over_a_stud():
    """1/4 + 3/4 + 1/2 in to the stud, 2 in held, 1 in gap: 5.08 in, a stud of 5 1/2 in."""
    found = drilled(STUCCO)
    assert found.bearing.name == "stud"
    assert found.asked_mm == found.reached_mm == pytest.approx(2 * IN)
    assert found.free_mm == pytest.approx(IN)
    assert found.lever_arm_mm == pytest.approx(2 * IN)
    assert found.sleeve_mm == pytest.approx(1.125 * IN)
    by_hand = (1 + 0.0598 + 0.25 + 0.125) + (0.25 + 0.75 + 0.5) + 2 + 0.15
    assert found.needed_mm / IN == pytest.approx(by_hand, abs=2e-4)
    assert found.length.name == "5 1/2 in"
    assert found.cut_off_mm / IN == pytest.approx(5.5 - by_hand, abs=2e-4)
    assert found.depth_mm == pytest.approx(1.5 * IN + 2 * IN + 0.15 * IN + 6)
    assert (found.drill.name, found.outer_drill.name) == ("5/32 in", "25/64 in")
    assert found.holds
    assert any("turn, not by force" in note and "foam" in note for note in found.notes)
    assert any("sealant behind every barrel" in note for note in found.notes)


def test_two_inches_of_foam_and_an_inch_of_gap_are_three_times_the_lever():
    """Lever arm 3 in: the same weight bends the stud three times as much as on a solid wall."""
    soft = replace(STUCCO, layers=(Layer("soft", 2 * IN), STUCCO.layers[-1]))
    solid = replace(STUCCO, layers=(STUCCO.layers[-1],))
    assert drilled(soft).lever_arm_mm == pytest.approx(3 * IN)
    assert drilled(soft).lever_arm_mm / drilled(solid).lever_arm_mm == pytest.approx(3.0)
    assert drilled(solid).sleeve_mm is None


def test_solid_masonry():
    """An M8 stud in 10 mm of adhesive hole, 80 mm held, 83 mm deep, no sleeve."""
    found = drilled(BRICK, stud=8.0, projection=25.0, sheet=2.0)
    assert (found.reached_mm, found.depth_mm, found.sleeve_mm) == (80.0, 83.0, None)
    assert found.drill.name == "10 mm"
    assert found.needed_mm == pytest.approx(80 + 25 + 2 + 8)
    assert (found.length.name, found.cut_off_mm) == ("120 mm", pytest.approx(5.0))
    assert found.holds
    assert any("never into a joint" in note for note in found.notes)


def test_thin_masonry_keeps_something_behind_the_hole():
    """Two drill diameters are left; what is held then is told."""
    thin = replace(BRICK, layers=(Layer("masonry", 90.0, "block"),))
    found = drilled(thin, stud=8.0)
    assert found.reached_mm == pytest.approx(90 - 2 * 10)
    assert found.holds
    assert "90.0 mm of block lets the fastener be held 70.0 mm deep, not 80.0 mm." in found.notes


def test_sheet_metal_with_an_air_gap():
    """The barrel would dent the skin into the gap: a spacer down to the boards."""
    wall = Wall(
        layers=(
            Layer("cladding", 0.8, "ribbed sheet"),
            Layer("air", 25.0, "gap"),
            Layer("sheathing", 12.0),
            Layer("structure", 140.0),
        ),
        fastener=Fastener("wood screw", "barrel", 5.0),
    )
    found = drilled(wall, stud=6.0, projection=25.0, sheet=1.5)
    assert found.sleeve_mm == pytest.approx(25.8 + drilling.PROUD_MM)
    assert found.lever_arm_mm == pytest.approx(50.8)
    by_hand = 5 + drilling.PROUD_MM + 37.8 + 50 + 5
    assert found.needed_mm == pytest.approx(by_hand)
    assert found.length.name == "120 mm"
    assert found.reached_mm == pytest.approx(50 + 120 - by_hand)
    assert any("Nothing bears on gap" in note for note in found.notes)


def test_a_screw_that_comes_out_behind_is_told():
    """38 mm of wood: the screw holds as deep as it can, and its point is warned of."""
    wall = Wall(
        layers=(Layer("sheathing", 12.0), Layer("structure", 38.0, "ledger")),
        fastener=Fastener("lag screw", "barrel"),
    )
    found = drilled(wall)
    assert found.reached_mm == pytest.approx(38 - 0.6 * 6.35)
    assert found.holds
    assert any("38.0 mm of ledger lets" in note for note in found.notes)
    beyond = found.length.mm - found.needed_mm
    assert beyond > 1
    assert any(f"comes out {beyond:.1f} mm behind" in note for note in found.notes)


def test_a_bolt_goes_through_everything():
    """No depth: hole right through, washer and nut behind."""
    wall = replace(STUCCO, fastener=Fastener("through bolt"))
    found = drilled(wall)
    assert found.depth_mm is None
    assert found.reached_mm == pytest.approx(3.5 * IN)
    by_hand = 1 + 0.0598 + 0.25 + 0.125 + 1.5 + 3.5 + 0.375
    assert found.needed_mm / IN == pytest.approx(by_hand, abs=2e-4)
    assert found.length.name == "7 in"
    assert found.holds


@pytest.mark.parametrize(
    ("wall", "said"),
    [
        (replace(STUCCO, layers=STUCCO.layers[:3]), "No layer holds"),
        (replace(BRICK, fastener=Fastener("lag screw")), "not made for masonry"),
        (replace(STUCCO, fastener=Fastener("adhesive anchor")), "not made for structure"),
        (replace(STUCCO, layers=(Layer("structure", 18.0, "panel"),)), "held 14.2 mm deep only"),
        (replace(STUCCO, fastener=Fastener(embedment_mm=100.0)), "at least 100.0 mm needed"),
    ],
)
def test_what_does_not_hold_says_so(wall, said):
    """One sentence with its figures; nothing is taken for held that is not."""
    found = drilled(wall)
    assert not found.holds
    assert any(said in note for note in found.notes)


def test_entered_figures_go_before_the_table():
    """Embedment, drill, diameter and engagement as the anchor's maker has them."""
    wish = Fastener("adhesive anchor", "sheet", 10.0, 90.0, 12.0, 20.0)
    found = drilled(replace(BRICK, fastener=wish), stud=6.0, projection=25.0, sheet=2.0)
    assert (found.diameter_mm, found.reached_mm, found.drill.mm) == (10.0, 90.0, 12.0)
    assert found.needed_mm == pytest.approx(90 + 25 + 2 + 20)
    assert (found.source, found.status) == ("entered", "E")


def test_without_layers_nothing_is_said():
    """But the widest drill still is: a place near a conduit needs it."""
    assert drilled(Wall()) is None
    assert drilling.widest_mm(Wall(), 6.35) == pytest.approx(5 / 16 * IN)
    assert drilling.widest_mm(STUCCO, 6.35) == pytest.approx(25 / 64 * IN)


def test_too_long_for_any_that_is_sold():
    """Half a metre of foam: threaded rod is cut."""
    found = drilled(replace(STUCCO, layers=(Layer("soft", 500.0), STUCCO.layers[-1])))
    assert found.length is None
    assert found.needed_mm > 500


stacks = st.lists(
    st.builds(Layer, st.sampled_from(LAYER_KINDS), st.floats(0.1, 300)), min_size=1, max_size=6
).map(tuple)
wishes = st.builds(
    Fastener,
    st.sampled_from(FASTENER_KINDS),
    st.sampled_from(REACHES),
    st.none() | st.floats(3, 16),
    st.none() | st.floats(5, 200),
)


@settings(max_examples=150, deadline=None)
@given(stacks, wishes, st.floats(3, 16), st.floats(0, 100))
def test_lengths_add_up(stack, wish, stud, projection):
    """A length that is sold is long enough and holds no deeper than the layer is."""
    wall = Wall(layers=stack, fastener=wish)
    found = drilled(wall, stud=stud, projection=projection)
    thick = found.bearing.thickness_mm if found.bearing else 0.0
    assert 0 <= found.reached_mm <= thick + 1e-9
    if found.length is not None:
        assert found.length.mm >= found.needed_mm - 0.03
    outside = layers.outside_mm(stack)
    if found.depth_mm is not None:
        assert found.depth_mm >= outside + found.reached_mm
    assert found.outer_drill.mm >= found.drill.mm
    assert found.lever_arm_mm == pytest.approx(projection + found.free_mm)
    assert (found.sleeve_mm is not None) == (found.free_mm > 0)
    if found.bearing is None:
        assert not found.holds
