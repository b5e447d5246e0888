"""Read-back of DXF drawings: each way a drawing can be wrong is noticed."""

import io

import ezdxf
import numpy as np
import pytest

from holeplacer.documents import dxf_check, dxf_file
from holeplacer.errors import ExportError

KINDS = ("line", "spline", "arc", "bulges")


@pytest.fixture
def written(letter_page):
    page, outline = letter_page([KINDS, KINDS])
    return page, outline, dxf_file.dxf_bytes(page)


def changed(data, change):
    """The file after something was done to its model space."""
    document = ezdxf.read(io.StringIO(data.decode("cp1252"), newline=None))
    change(document)
    stream = io.StringIO()
    document.write(stream)
    return document.encode(stream.getvalue())


def first(document, query):
    return document.modelspace().query(query).first


def shifted(document, query, by):
    first(document, query).translate(*by, 0)


def test_a_true_drawing_passes(written):
    """A drawing that nothing was done to is accepted."""
    page, outline, data = written
    dxf_check.check_dxf(data, page, outline, version="R2000", units="mm")
    again = changed(data, lambda document: None)
    dxf_check.check_dxf(again, page, outline, version="R2000", units="mm")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda d: shifted(d, "CIRCLE[layer=='HOLES']", (1e-5, 0)), "off by 1e-05 mm"),
        (lambda d: setattr(first(d, "CIRCLE").dxf, "radius", 3.5), "off by 0.14 mm"),
        (lambda d: first(d, "CIRCLE[layer=='HOLES']").destroy(), "holds 1 holes, not 2"),
        (
            lambda d: d.modelspace().add_line((0, 0), (1, 0), {"layer": "HOLES"}),
            "more than circles",
        ),
        (lambda d: first(d, "SPLINE").destroy(), "open at"),
        (lambda d: d.modelspace().query("LINE[layer=='0']").last.destroy(), "open at"),
        (lambda d: shifted(d, "LINE[layer=='0']", (1e-5, 0)), "open at"),
        (
            lambda d: d.modelspace().add_circle((100, -50), 2, {"layer": "0"}),
            "holds 5 closed contours, not 4",
        ),
        (lambda d: d.header.__setitem__("$INSUNITS", 1), "states its unit as in, not mm"),
        (
            lambda d: d.modelspace().add_text("x", dxfattribs={"layer": "0"}),
            "a TEXT among its contours",
        ),
    ],
)
def test_every_fault_is_noticed(written, change, says):
    """Holes, contours, closure, unit: a change to any of them is refused by name."""
    page, outline, data = written
    with pytest.raises(ExportError, match=says):
        dxf_check.check_dxf(changed(data, change), page, outline, version="R2000", units="mm")


def test_a_curve_that_strays_is_noticed(written):
    """A control point moved by a tenth of a millimetre is found, with the place."""
    page, outline, data = written

    def bend(document):
        spline = first(document, "SPLINE")
        points = np.array(spline.control_points)
        points[1] += (0.1, 0.1, 0)
        spline.control_points = points

    with pytest.raises(ExportError, match=r"strays 0\.0\d\d mm from the outline at x "):
        dxf_check.check_dxf(changed(data, bend), page, outline, version="R2000", units="mm")


@pytest.mark.parametrize("data", [b"", b"0\nSECTION\n", b"\xff\xfe", b"no drawing at all"])
def test_what_is_no_drawing_is_refused(written, data):
    """A file that can't be read at all is one sentence, not a traceback."""
    page, outline, _ = written
    with pytest.raises(ExportError, match="when read back"):
        dxf_check.check_dxf(data, page, outline, version="R2000", units="mm")


def test_a_file_cut_short_is_refused(written):
    """Wherever the file ends too early, it is refused."""
    page, outline, data = written
    for length in range(1000, len(data) - 200, len(data) // 12):
        with pytest.raises(ExportError):
            dxf_check.check_dxf(data[:length], page, outline, version="R2000", units="mm")


def test_an_outline_that_lost_a_piece_is_noticed(letter_page):
    """The file is held against the outline, not against the page it was made from."""
    page, _ = letter_page([KINDS])
    _, larger = letter_page([KINDS, KINDS])
    with pytest.raises(ExportError, match="holds 2 closed contours, not 4"):
        dxf_check.check_dxf(dxf_file.dxf_bytes(page), page, larger, version="R2000", units="mm")
