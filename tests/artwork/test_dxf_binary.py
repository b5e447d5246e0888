"""Binary DXF."""

import ezdxf
import numpy as np
import pytest
from dxf_drafts import as_lines, read, saved

from holeplacer.artwork import dxf_binary
from holeplacer.errors import ArtworkError


def drawing(version):
    doc = ezdxf.new(version, units=4)
    space = doc.modelspace()
    space.add_circle((10, 20), 1 / 3, dxfattribs={"layer": "Größe"})
    space.add_line((0.1, 0.2), (3, 4))
    space.add_polyline2d([(0, 0), (5, 0, 0.25), (5, 5)], format="xyb", close=True)
    return doc


@pytest.mark.parametrize("version", ["R12", "R2000", "R2007", "R2018"])
def test_binary_and_text_read_the_same(version):
    """A binary file gives the very numbers, layers and units of its text twin."""
    doc = drawing(version)
    binary, text = read(saved(doc, "bin")), read(saved(doc))
    assert np.array_equal(*(np.array(as_lines(d).wkb) for d in (binary, text)))
    assert binary.layers == text.layers
    assert binary.units == text.units


def test_cut_binary_is_refused():
    """A binary file that breaks off among its entities is an error, wherever it is cut."""
    data = saved(drawing("R2000"), "bin")
    end = data.index(b"CIRCLE")
    for length in range(end, end + 200, 7):
        with pytest.raises(ArtworkError, match=r"breaks off|damaged"):
            read(data[:length])


def test_large_binary_is_refused_before_it_is_read(monkeypatch):
    """Beyond the size that can be read in time the remedy is named."""
    monkeypatch.setattr(dxf_binary, "LARGEST_BINARY_MB", 0.001)
    with pytest.raises(ArtworkError, match=r"text \(ASCII\) DXF"):
        read(saved(drawing("R2000"), "bin"))
