"""Units that a file states."""

import pytest
from dxf_drafts import drafted, line, read, tags

from holeplacer.artwork.dxf_units import INSUNITS
from holeplacer.units import DRAWING_UNITS_MM


@pytest.mark.parametrize(("code", "unit"), INSUNITS.items())
def test_stated_units(code, unit):
    """$INSUNITS names a unit that lengths can be given in."""
    assert read(drafted(line(0, 0, 1, 1), header=tags(9, "$INSUNITS", 70, code))).units == unit
    assert unit in DRAWING_UNITS_MM


@pytest.mark.parametrize(
    "header",
    [
        "",
        tags(9, "$INSUNITS", 70, 0),
        tags(9, "$INSUNITS", 70, 3),
        tags(9, "$INSUNITS", 70, "mm"),
        tags(9, "$INSUNITS", 70, "nan"),
        tags(9, "$INSUNITS", 9, "$OTHER", 70, 4),
        tags(9, "$MEASUREMENT", 70, 1),
    ],
    ids=["none", "unitless", "miles", "text", "nan", "empty", "measurement"],
)
def test_unstated_units_are_never_guessed(header):
    """No unit, a useless one, or only a choice of pattern files: nothing is stated."""
    assert read(drafted(line(0, 0, 1, 1), header=header)).units is None
