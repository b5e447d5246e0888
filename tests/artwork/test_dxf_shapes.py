"""Plain bounds that the numbers of entities keep."""

import numpy as np
import pytest
from dxf_drafts import circle, curves_of, drafted, entries, line, read, tags

from holeplacer.artwork.dxf_shapes import NOT_A_NUMBER, TOO_LARGE, bounds_fault, spans


def test_faults_of_numbers():
    """A NaN is no number; an infinity and a thousand digits are beyond all bounds."""
    rows = np.array([[0.0, 1], [np.nan, 1], [np.inf, 1], [1e308, 1], [np.nan, 1e308]])
    assert bounds_fault(rows).tolist() == ["", NOT_A_NUMBER, TOO_LARGE, TOO_LARGE, NOT_A_NUMBER]


def test_spans_of_runs():
    """Largest less smallest of each run; empty and endless runs have none."""
    values = np.array([1.0, 4, -2, np.inf, 0])
    assert spans(values, np.array([0, 3, 3, 5])).tolist() == [6, 0, 0]


@pytest.mark.parametrize(
    ("extrusion", "x"),
    [((0, 0, 1), 3), ((0, 0, -1), -3), ((0, 0, 0), 3), ((1e-9, 0, -5), -3), ((0, 1e-300, 0), None)],
)
def test_planes_seen_from_below_are_mirrored(extrusion, x):
    """An extrusion along -z runs x to the left; a tilted plane is left out and said so."""
    more = [pair for code, v in zip((210, 220, 230), extrusion, strict=True) for pair in (code, v)]
    drawing = read(drafted(circle(3, 4, 1, *more) + line(0, 0, 1, 1)))
    if x is None:
        assert ("CIRCLE in a plane that is tilted against the drawing", "layer 0") in entries(
            drawing.account.ignored
        )
    else:
        assert curves_of(drawing)[0].centre == (x, 4)


@pytest.mark.parametrize("value", ["nan", "inf", "-1e308", "1e11", "word", ""])
@pytest.mark.parametrize("kind", ["LINE", "CIRCLE", "LWPOLYLINE", "SPLINE", "INSERT"])
def test_one_spoiled_entity_costs_no_other(kind, value):
    """An entity with an impossible coordinate is accounted for; reading goes on."""
    spoiled = tags(0, kind, 8, "A", 2, "B", 10, value, 20, 0, 40, 1, 11, 5, 21, 5)
    drawing = read(drafted(spoiled + circle(1, 2, 3)))
    assert len(curves_of(drawing)) == 1
    (entry,) = drawing.account.ignored
    assert entry.what.startswith(kind)
    assert (entry.where, entry.count) == ("layer A", 1)
