"""Blocks, insertions and the counting before copying."""

import math

import numpy as np
import pytest
from dxf_drafts import (
    block,
    circle,
    curves_of,
    drafted,
    ends_of_lines,
    entries,
    insert,
    line,
    read,
    tags,
)

from holeplacer.artwork import dxf_blocks
from holeplacer.artwork.dxf_blocks import Count
from holeplacer.errors import ArtworkError
from holeplacer.geometry.evaluate import domain, points_at

UNIT = block("B", line(0, 0, 1, 0))


def nested(depth, copies, content):
    """Blocks B0 ... each of which inserts the one before it a number of times."""
    blocks = block("B0", content)
    for level in range(1, depth + 1):
        blocks += block(f"B{level}", "".join(insert(f"B{level - 1}", k) for k in range(copies)))
    return blocks


@pytest.mark.parametrize(
    ("more", "ends"),
    [
        ((), [10, 20, 11, 20]),
        ((41, 3), [10, 20, 13, 20]),
        ((41, -3), [10, 20, 7, 20]),
        ((50, 90), [10, 20, 10, 21]),
        ((41, 2, 42, 5, 50, 90), [10, 20, 10, 22]),
        ((210, 0, 220, 0, 230, -1), [-10, 20, -11, 20]),
        ((50, 90, 210, 0, 220, 0, 230, -1), [-10, 20, -10, 21]),
    ],
    ids=["plain", "wide", "mirrored", "turned", "both", "below", "turned-below"],
)
def test_one_copy(more, ends):
    """Scale, rotation and side act in that order about the insertion's point."""
    drawing = read(drafted(insert("B", 10, 20, *more), blocks=UNIT))
    assert np.allclose(ends_of_lines(drawing), [ends])


def test_base_point_comes_to_the_place():
    """The block's base point is what lies at the insertion's place, scaled or not."""
    blocks = block("B", line(3, 4, 5, 4), x=3, y=4)
    drawing = read(drafted(insert("b", 1, 1, 41, 2, 42, 2), blocks=blocks))
    assert np.allclose(ends_of_lines(drawing), [[1, 1, 5, 1]])


def test_arrays_turn_but_do_not_scale_their_steps():
    """Columns and rows step along the turned axes by the written distances."""
    more = (41, 5, 42, 5, 50, 90, 70, 3, 71, 2, 44, 10, 45, 100)
    drawing = read(drafted(insert("B", 0, 0, *more), blocks=UNIT))
    starts = sorted(map(tuple, ends_of_lines(drawing)[:, :2].round(9) + 0.0))
    assert starts == sorted((-100.0 * row, 10.0 * col) for row in range(2) for col in range(3))


@pytest.mark.parametrize(
    ("entity", "what"),
    [
        (insert("NONE"), "INSERT of a block that is not in the file"),
        (insert(""), "INSERT of a block that is not in the file"),
        (insert("TEXT"), "INSERT of a block without curves"),
        (insert("XREF"), "INSERT of another file (an external reference), which is not opened"),
        (insert("B", "nan"), "INSERT with a coordinate that is not a number"),
        (insert("B", 0, 0, 41, 0), "INSERT with a scale of zero"),
        (insert("B", 0, 0, 41, 1e300), "INSERT with a coordinate beyond all bounds"),
        (insert("B", 0, 0, 41, 1e-20), "INSERT with a place or a scale beyond all bounds"),
        (insert("FAR"), "INSERT with a place or a scale beyond all bounds"),
        (insert("B", 0, 0, 210, 1, 220, 0, 230, 0), "INSERT in a plane that is tilted"),
    ],
)
def test_unusable_insertions_are_accounted_for(entity, what):
    """An insertion that draws nothing is named with the reason, and reading goes on."""
    blocks = UNIT + block("TEXT", tags(0, "TEXT", 8, "0")) + block("XREF", "", flags=4)
    blocks += block("FAR", line(0, 0, 1, 1), x="inf")
    drawing = read(drafted(entity + circle(), blocks=blocks))
    (entry,) = drawing.account.ignored
    assert entry.what.startswith(what)
    assert len(drawing.contours) == 1


@pytest.mark.parametrize(
    "blocks",
    [
        block("A", line(0, 0, 1, 1) + insert("A")),
        block("A", insert("C")) + block("C", line(0, 0, 1, 1) + insert("a")),
    ],
)
def test_a_block_that_contains_itself_is_refused(blocks):
    """The sentence names the block; a cycle that nothing inserts does no harm."""
    with pytest.raises(ArtworkError, match="block 'A' contains itself"):
        read(drafted(insert("A"), blocks=blocks))
    assert len(ends_of_lines(read(drafted(line(0, 0, 1, 1), blocks=blocks)))) == 1


@pytest.mark.parametrize(
    ("entities", "blocks"),
    [
        (insert("B9"), nested(9, 10, line(0, 0, 1, 1))),
        (insert("B", 0, 0, 70, 1000, 71, 1000, 44, 1, 45, 1), UNIT),
        (insert("B", 0, 0, 70, 2**31 - 1, 71, 2**31 - 1), UNIT),
        (insert("B60"), nested(60, 1000, circle())),
        ("".join(insert("B") for _ in range(dxf_blocks.MOST_COPIES + 1)), UNIT),
    ],
    ids=["nested", "array", "endless", "deep", "many"],
)
def test_bombs_are_counted_not_copied(entities, blocks):
    """However copies are multiplied, they are counted first and refused in one sentence."""
    with pytest.raises(ArtworkError, match=r"block insertions come to .* far more than any sign"):
        read(drafted(entities, blocks=blocks))


def test_a_bomb_without_powder_is_harmless():
    """A thousand million copies of nothing are one line of the account."""
    drawing = read(drafted(insert("B9") + circle(), blocks=nested(9, 10, "")))
    assert entries(drawing.account.ignored) == {("INSERT of a block without curves", "layer 0"): 1}


def test_deep_nesting_is_followed():
    """Blocks a thousand deep are read; each step moves on."""
    blocks = block("B0", circle()) + "".join(
        block(f"B{i}", insert(f"B{i - 1}", 1)) for i in range(1, 1001)
    )
    (curve,) = curves_of(read(drafted(insert("B1000"), blocks=blocks)))
    assert curve.centre == (1000, 0)


def test_stretched_copies_of_arcs_and_bulges_stay_exact():
    """Under a scale that is not even, a circle becomes an ellipse and a bulge a rational arc."""
    bulged = tags(0, "LWPOLYLINE", 8, "0", 70, 1, 10, -1, 20, 0, 42, 1, 10, 1, 20, 0, 42, 1)
    blocks = block("B", circle() + bulged)
    for curve in curves_of(read(drafted(insert("B", 0, 0, 41, 3), blocks=blocks))):
        x, y = points_at(curve, np.linspace(*domain(curve), 99)).T
        assert np.allclose((x / 3) ** 2 + y**2, 1)


def test_counts_multiply():
    """A block's count is its own curves and those of all copies, up to a bound."""
    count = Count(1, 10, 0).plus(3, Count(2, 20, 1))
    assert (count.curves, count.points, count.insertions) == (7, 70, 6)
    endless = Count().plus(10**30, count)
    assert endless.curves < 10**16
    assert math.isfinite(endless.points)
