"""Lengths and drills that are sold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.wall import stock_size


@pytest.mark.parametrize(
    ("mm", "system"),
    [(6.35, "inch"), (4.826, "inch"), (9.525, "inch"), (7.9375, "inch"), (6.0, "metric"),
     (8.0, "metric"), (5.0, "metric"), (10.0, "metric"), (4.83, "inch")],
)  # fmt: skip
def test_a_stud_is_sold_in_its_system(mm, system):
    """Sixteenths and numbers are inches, the rest is metric; 8 mm is no 5/16."""
    assert stock_size.system_of(mm) == system


@pytest.mark.parametrize(
    ("what", "system", "least", "name"),
    [
        ("lag screw", "inch", 2.6 * 25.4, "3 in"),
        ("lag screw", "inch", 3.0 * 25.4, "3 in"),
        ("lag screw", "inch", 6.1 * 25.4, "7 in"),
        ("wood screw", "inch", 1.3 * 25.4, "1 1/2 in"),
        ("stud", "metric", 81.0, "90 mm"),
        ("bolt", "metric", 72.0, "80 mm"),
    ],
)
def test_the_next_length_up(what, system, least, name):
    """The shortest that is long enough."""
    assert stock_size.next_length(what, system, least).name == name


def test_beyond_the_longest_there_is_none():
    """Nothing is made up."""
    assert stock_size.next_length("lag screw", "inch", 400.0) is None
    assert stock_size.next_drill("masonry", "metric", 60.0) is None


def test_drills():
    """The next one up, or the nearest."""
    assert stock_size.next_drill("masonry", "inch", 7.9).name == "5/16 in"
    assert stock_size.next_drill("masonry", "metric", 7.6).name == "8 mm"
    assert stock_size.nearest_drill("wood", "inch", 0.65 * 6.35).name == "5/32 in"
    assert stock_size.nearest_drill("wood", "metric", 3.9).name == "4 mm"


@pytest.mark.parametrize("system", ["inch", "metric"])
@pytest.mark.parametrize("what", ["lag screw", "wood screw", "stud", "bolt"])
def test_names_say_the_figure(what, system):
    """Every row's name is its figure; rows rise."""
    from holeplacer.units import parse_length

    sizes = stock_size.lengths(what, system)
    assert [size.mm for size in sizes] == sorted({size.mm for size in sizes})
    for size in (*sizes, *stock_size.drills("wood", system), *stock_size.drills("masonry", system)):
        assert parse_length(size.name) == pytest.approx(size.mm, abs=1e-6)


@given(st.floats(1, 400), st.sampled_from(["inch", "metric"]))
def test_no_shorter_one_would_do(least, system):
    """What is found is long enough, and its predecessor is not."""
    found = stock_size.next_length("stud", system, least)
    longer = [size for size in stock_size.lengths("stud", system) if size.mm >= least - 0.02]
    assert found == (longer[0] if longer else None)
