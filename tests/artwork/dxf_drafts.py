"""DXF files for tests: by hand tag by tag, or written by ezdxf; and a second reader to judge."""

import io
import logging
from pathlib import Path

import numpy as np
import pyogrio
import shapely
from hypothesis import Phase

from holeplacer.artwork.dxf_reader import read_dxf
from holeplacer.artwork.options import ReadOptions
from holeplacer.geometry.flatten import flatten_all

logging.getLogger("ezdxf").setLevel(logging.ERROR)

QUICK = (Phase.explicit, Phase.reuse, Phase.generate)
"""No shrinking where every example is a file written and read by another library."""


def tags(*pairs):
    """Text of tags given as code, value, code, value ..."""
    lines = [str(pair) for pair in pairs]
    return "".join(
        f"{code}\n{value}\n" for code, value in zip(lines[::2], lines[1::2], strict=True)
    )


def section(name, body):
    return tags(0, "SECTION", 2, name) + body + tags(0, "ENDSEC")


def drafted(entities="", *, blocks="", layers="", header="", end="0\nEOF\n"):
    """Bytes of a DXF made of the given parts."""
    table = tags(0, "TABLE", 2, "LAYER") + layers + tags(0, "ENDTAB")
    return (
        (section("HEADER", header) if header else "")
        + (section("TABLES", table) if layers else "")
        + (section("BLOCKS", blocks) if blocks else "")
        + section("ENTITIES", entities)
        + end
    ).encode()


def layer(name, flags=0, colour=7):
    return tags(0, "LAYER", 2, name, 70, flags, 62, colour)


def block(name, body, x=0, y=0, flags=0):
    return tags(0, "BLOCK", 2, name, 70, flags, 10, x, 20, y) + body + tags(0, "ENDBLK")


def insert(name, x=0, y=0, *more, on="0"):
    return tags(0, "INSERT", 8, on, 2, name, 10, x, 20, y, *more)


def line(x0, y0, x1, y1, *more, on="0"):
    return tags(0, "LINE", 8, on, 10, x0, 20, y0, 11, x1, 21, y1, *more)


def circle(x=0, y=0, radius=1, *more, on="0"):
    return tags(0, "CIRCLE", 8, on, 10, x, 20, y, 40, radius, *more)


def saved(doc, form="asc"):
    """Bytes of an ezdxf document, as text or binary."""
    if form == "bin":
        stream = io.BytesIO()
        doc.write(stream, fmt="bin")
        return stream.getvalue()
    text = io.StringIO()
    doc.write(text)
    return text.getvalue().encode(doc.output_encoding, errors="dxfreplace")


def read(data, **options):
    return read_dxf(data, "sign.dxf", ReadOptions(**options))


def curves_of(drawing):
    """All curves but loose lines, in order of contours, then loose ones."""
    closed = [segment.curve for contour in drawing.contours for segment in contour.segments]
    return closed + [segment.curve for segment in drawing.loose]


def only(data, **options):
    """The one curve of a file."""
    (curve,) = curves_of(read(data, **options))
    return curve


def ends_of_lines(drawing):
    """Loose lines as (n, 4) rows."""
    return np.concatenate([lines.xy.reshape(-1, 4) for lines in drawing.lines])


def entries(part):
    """Entries of an account as {(what, where): count}."""
    return {(entry.what, entry.where): entry.count for entry in part}


def as_lines(drawing, tolerance=0.001):
    """Everything that is drawn as one shapely multi line."""
    curves = curves_of(drawing)
    flat = flatten_all(curves, tolerance)
    parts = [flat.xy[flat.first[i] : flat.first[i + 1]] for i in range(len(curves))]
    for lines in drawing.lines:
        parts.extend(lines.xy)
    return shapely.MultiLineString([part for part in parts if len(part) > 1])


def by_gdal(data, path: Path):
    """The same by GDAL's DXF reader, arcs in steps of a quarter degree."""
    path.write_bytes(data)
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": "0.25"})
    geometry = pyogrio.raw.read(path)[2]
    shapes = shapely.get_parts(shapely.force_2d(shapely.from_wkb(geometry)))
    return shapely.MultiLineString([shapely.get_coordinates(shape) for shape in shapes])


def furthest(first, second):
    """Hausdorff distance between two drawings, in both directions, at dense points."""
    one, other = (shapely.segmentize(shape, 0.5) for shape in (first, second))
    return max(
        shapely.distance(shapely.points(shapely.get_coordinates(a)), b).max()
        for a, b in ((one, second), (other, first))
    )
