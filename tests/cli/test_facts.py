"""Facts about artwork."""

import numpy as np
import pytest

from holeplacer.artwork.account import Entry
from holeplacer.cli import facts
from holeplacer.medial_axis.axis import Axis, Branch


def branch(clearance, start, end):
    clearance = np.array(clearance, float)
    s = np.arange(len(clearance)) * 10.0
    xy = np.column_stack([s, np.zeros(len(s))])
    return Branch(start, end, 0, xy, clearance, s, np.zeros((len(s), 2, 2)))


def axis(*branches, nodes):
    return Axis(branches, np.zeros((nodes, 2)), np.ones(nodes), np.zeros(nodes, np.intp), ())


def test_lengths_in_both_units():
    """Millimetres first, then inches as a tape has them."""
    assert facts.both_units(12.7, 25.4) == "12.7 mm × 25.4 mm (1/2 in × 1 in)"


def test_the_thinnest_place_is_between_the_tapers():
    """The pointed ends of a stroke do not count, the waist between them does."""
    stroke = branch([0.1, 2, 6, 4, 7, 3, 0.1], 0, 1)
    assert facts.thinnest_stroke(axis(stroke, nodes=2)) == (8.0, (30.0, 0.0))


def test_a_stroke_of_even_width_is_as_thin_as_it_is():
    """Without tapers every place counts, the ends too."""
    assert facts.thinnest_stroke(axis(branch([5, 5, 5], 0, 1), nodes=2)) == (10.0, (0.0, 0.0))


def test_at_a_junction_nothing_is_a_taper():
    """A branch that ends in junctions is measured whole."""
    loop = [branch([3, 5, 6], 0, 1), branch([4, 5, 6], 0, 1), branch([3.5, 5, 6], 0, 1)]
    assert facts.thinnest_stroke(axis(*loop, nodes=2)) == (6.0, (0.0, 0.0))


def test_no_stroke_has_no_thinnest_place():
    """A dot has no stroke."""
    assert facts.thinnest_stroke(axis(nodes=1)) is None


def test_like_entries_are_one_line():
    """What says the same is counted; a long account is cut and says so."""
    entries = [Entry("gap joined", "x"), Entry("gap joined", "x", 2), Entry("text", "CUT")]
    assert list(facts._account("Mended", entries)) == [
        "Mended:", "  3 × gap joined, x", "  text, CUT",
    ]  # fmt: skip
    many = list(facts._account("Read", [Entry(str(i), "") for i in range(50)]))
    assert many[-1] == "  and 38 more; --report lists them all"
    assert list(facts._account("Read", [])) == []


def test_the_first_places_of_like_entries_are_told():
    """Three of them, and how many more there are."""
    united = [Entry("shapes united", "", 1, (10.0 * i, 5.0)) for i in range(10)]
    assert list(facts._account("Mended", united))[1:] == [
        "  10 × shapes united, at x 0.0, y 5.0; x 10.0, y 5.0; x 20.0, y 5.0 and 7 more (mm)"
    ]
    assert list(facts._account("Mended", united[1:2]))[1:] == [
        "  shapes united, at x 10.0, y 5.0 (mm)"
    ]


@pytest.mark.parametrize(("count", "text"), [(0, "no tips"), (1, "1 tip"), (2, "2 tips")])
def test_counts_are_words(count, text):
    """None, one and more."""
    assert facts._counted(count, "tip") == text
