"""From a file to an outline: size, level, account, bounds, and what is refused."""

import gzip
import math
from pathlib import Path

import ezdxf
import numpy as np
import pytest
import shapely
from lettering_drafts import lettering
from PIL import Image, ImageChops, ImageDraw
from svg_drafts import NAMESPACES, PAGE, read, svg, told

from holeplacer.artwork import svg_drawing
from holeplacer.artwork.artwork import Artwork, ArtworkFile
from holeplacer.artwork.options import KnownDistance, ReadOptions
from holeplacer.artwork.read import read_artwork
from holeplacer.artwork.source import load_file
from holeplacer.errors import ArtworkError, UnitsMissing
from holeplacer.outline.trace import Run, trace

WORD = lettering("oioio")
SHEET = 'width="800mm" height="300mm" viewBox="0 0 800 300"'
SQUARE = '<rect x="10" y="20" width="30" height="40"/>'


def dxf(unit: int = 4) -> ArtworkFile:
    """A plate of 30 x 40 with a round counter, lines loose, one of them 0.05 short."""
    document = ezdxf.new("R2000", units=unit)
    space = document.modelspace()
    space.add_line((0, 0), (30, 0))
    space.add_line((30, 40), (30, 0.05))
    space.add_line((30, 40), (0, 40))
    space.add_line((0, 40), (0, 0))
    space.add_circle((15, 20), 5)
    text = document.encode(document_text(document))
    return ArtworkFile("plate.dxf", text)


def document_text(document: ezdxf.document.Drawing) -> str:
    from io import StringIO

    stream = StringIO()
    document.write(stream)
    return stream.getvalue()


def test_lettering_set_from_a_font_is_united_with_its_counters() -> None:
    """Five joined glyphs: one piece with a counter for each bowl, and two dots."""
    artwork = read(WORD, SHEET)
    assert sorted(piece.counters for piece in artwork.outline.pieces) == [0, 0, 3]
    assert told(artwork, "read") == {"path": 5}
    assert told(artwork, "mended")["overlapping shapes united"] == 4
    assert artwork.account.ignored == ()


def test_lettering_covers_what_a_raster_of_its_glyphs_covers() -> None:
    """Each glyph painted even-odd by itself, then laid over each other: the other way to unite."""
    artwork = read(WORD, SHEET)
    per_mm = 4
    size = (800 * per_mm, 300 * per_mm)
    painted = Image.new("1", size)
    for part in WORD.split("/>")[:-1]:
        glyph = read(part + "/>", SHEET).outline
        for piece in glyph.pieces:
            layer = Image.new("1", size)
            draw = ImageDraw.Draw(layer)
            rings = [piece.polygon.exterior, *piece.polygon.interiors]
            for number, ring in enumerate(rings):
                xy = np.array(ring.coords) * per_mm
                xy[:, 1] = size[1] - xy[:, 1]
                draw.polygon([tuple(point) for point in xy], fill=int(number == 0))
            painted = ImageChops.logical_or(painted, layer)
    area = np.array(painted).sum() / per_mm**2
    assert artwork.outline.area_mm2 == pytest.approx(area, rel=0.01)


def test_the_outline_traces_back_to_the_drawn_curves() -> None:
    """All but the steps at crossings is still what the artist drew, also after scaling."""
    for options in ({}, {"width_mm": 1234.5}, {"rotation_rad": 0.1, "scale": 1.7}):
        artwork = read(lettering("ooo"), SHEET, **options)
        length = chords = 0.0
        for piece in artwork.outline.pieces:
            for ring in (piece.polygon.exterior, *piece.polygon.interiors):
                length += ring.length
                for stretch in trace(np.array(ring.coords), artwork.drawn):
                    if not isinstance(stretch, Run):
                        chords += float(np.hypot(*np.diff(stretch.xy, axis=0).T).sum())
        assert chords < 0.06 * length


def test_svg_comes_out_in_millimetres_from_the_lower_left_corner() -> None:
    """Inches, and y up."""
    artwork = read(SQUARE, 'width="10in" height="10in" viewBox="0 0 100 100"')
    assert artwork.outline.bounds_mm == pytest.approx((25.4, 101.6, 101.6, 203.2))
    assert (artwork.units, artwork.units_stated, artwork.scale) == ("in", True, 1)


def test_units_are_demanded_where_none_are_stated() -> None:
    """And applied to the numbers of the page; entered ones replace stated ones, and it is told."""
    bare = 'width="400" height="100" viewBox="0 0 800 200"'
    with pytest.raises(UnitsMissing, match=r"sign\.svg: the drawing states no units"):
        read(SQUARE, bare)
    artwork = read(SQUARE, bare, units="cm")
    assert artwork.outline.area_mm2 == pytest.approx(15 * 20 * 100)
    assert not artwork.units_stated
    assert read(SQUARE, 'viewBox="0 0 9 9"', units="in").outline.area_mm2 == pytest.approx(
        1200 * 25.4**2
    )
    replaced = read(SQUARE, PAGE, units="in")
    assert replaced.outline.area_mm2 == pytest.approx(1200 * 25.4**2)
    assert told(replaced, "mended") == {"units in as entered, instead of mm as the file states": 1}


@pytest.mark.parametrize("unit", [0, 1, 4])
def test_dxf_takes_the_same_way(unit: int) -> None:
    """Chained, its gap told, its counter found; missing units demanded."""
    if unit == 0:
        with pytest.raises(UnitsMissing, match=r"plate\.dxf: the drawing states no units"):
            read_artwork(dxf(0), ReadOptions())
    artwork = read_artwork(dxf(unit), ReadOptions(units="mm" if unit == 0 else None, chain_mm=2.0))
    (piece,) = artwork.outline.pieces
    per_unit = 25.4 if unit == 1 else 1.0
    assert piece.counters == 1
    assert piece.polygon.area == pytest.approx((1200 - 25 * math.pi) * per_unit**2, rel=2e-3)
    assert any("joined" in what for what in told(artwork, "mended"))


def test_overall_size_is_met_exactly_after_rotation() -> None:
    """Width or height, to the last digits, with the tolerance kept."""
    for options in (
        {"width_mm": 1000.0},
        {"height_mm": 333.0, "rotation_rad": 0.3},
        {"width_mm": 50.0, "mirror": True},
    ):
        artwork = read(WORD, SHEET, **options)
        left, bottom, right, top = artwork.outline.bounds_mm
        if "width_mm" in options:
            assert right - left == pytest.approx(options["width_mm"], rel=1e-12)
        else:
            assert top - bottom == pytest.approx(options["height_mm"], rel=1e-12)


def test_a_stray_line_far_away_does_not_count_in_the_width() -> None:
    """It is open, so it is no part of the sign."""
    document = ezdxf.new("R2000", units=4)
    document.modelspace().add_circle((0, 0), 10)
    document.modelspace().add_line((5000, 0), (6000, 0))
    file = ArtworkFile("a.dxf", document.encode(document_text(document)))
    artwork = read_artwork(file, ReadOptions(width_mm=500.0))
    left, _, right, _ = artwork.outline.bounds_mm
    assert right - left == pytest.approx(500)
    assert artwork.scale == pytest.approx(25, rel=1e-3)
    (entry,) = artwork.account.ignored
    assert entry.what.startswith("open contour (LINE)")


def test_places_in_the_account_are_on_the_sign() -> None:
    """A crossing of two squares, mirrored, turned, scaled."""
    body = '<rect width="10" height="10"/><rect x="8" width="10" height="10"/>'
    options = {"mirror": True, "rotation_rad": math.pi / 2, "scale": 3.0}
    artwork = read(body, PAGE, **options)
    places = [entry.xy_mm for entry in artwork.account.mended if entry.xy_mm]
    assert places == [pytest.approx((-285, -27))]
    wide = read(body, PAGE, mirror=True, rotation_rad=math.pi / 2, height_mm=54.0)
    assert [entry.xy_mm for entry in wide.account.mended if entry.xy_mm] == [
        pytest.approx((-285, -27))
    ]


def test_a_known_distance_scales() -> None:
    """Between two corners of the square as drawn."""
    artwork = read(SQUARE, PAGE, known=KnownDistance(10, 40, 40, 80, 500.0))
    assert artwork.scale == pytest.approx(10)
    assert artwork.outline.area_mm2 == pytest.approx(120_000)


def test_layers_of_the_drawing_are_listed_and_chosen() -> None:
    """Nothing but the layer asked for is read."""
    body = f'<g id="a">{SQUARE}</g><g id="b"><rect width="5" height="5"/></g>'
    artwork = read(body, PAGE, layers=("b",))
    assert artwork.outline.area_mm2 == pytest.approx(25)
    assert artwork.layers == (("a", 1, True), ("b", 1, True))


def test_compressed_svg_is_read() -> None:
    """By content, whatever its name."""
    packed = ArtworkFile("sign.svgz", gzip.compress(svg(SQUARE).data))
    assert read_artwork(packed, ReadOptions()).outline.area_mm2 == pytest.approx(1200)


def test_the_arrays_that_are_kept_are_read_only() -> None:
    """Values are shared between plans."""
    drawn = read(WORD, SHEET).drawn
    for array in (drawn.xy, drawn.curve, drawn.t):
        with pytest.raises(ValueError, match="read-only"):
            array[0] = 0


def test_reading_twice_gives_the_same_outline() -> None:
    """To the last bit, so that plans can be recomputed anywhere."""
    one, other = (read(WORD, SHEET, width_mm=900.0).outline.region for _ in range(2))
    assert shapely.to_wkb(one) == shapely.to_wkb(other)


def star(points: int) -> str:
    turn = np.arange(points) * math.tau * (points // 2) / points
    corners = " ".join(f"{50 + 50 * math.cos(t):.4f},{50 + 50 * math.sin(t):.4f}" for t in turn)
    return f'<path d="M{corners}z"/>'


HOSTILE = {
    "empty.svg": (b"", "empty.svg: the file is empty"),
    "picture.svg": (b"\x89PNG\r\n\x1a\n" + bytes(99), "the file is a PNG picture"),
    "cut.svg": (svg(SQUARE).data[:-30], "cut.svg, line 1: the XML is broken or cut short"),
    "cut.svgz": (gzip.compress(svg(SQUARE).data)[:-20], "the compressed file is cut short"),
    "bomb.svgz": (
        gzip.compress(gzip.compress(b"<svg>")[:2].ljust(5) + bytes(140_000_000), 1),
        "neither DXF nor SVG",
    ),
    "blanks.svgz": (gzip.compress(b"<svg>" + b" " * 140_000_000, 1), "unpacked it is larger than"),
    "deep.svg": (b"<svg>" + b"<g>" * 10_000 + b"</g>" * 10_000 + b"</svg>", "nested too deep"),
    "many.svg": (svg("<g/>" * 400_001).data, "more than 400000 tags"),
    "shapes.svg": (svg('<path d="M0 0h1v1z"/>' * 10_001).data, "more than 3000 shapes"),
    "subpaths.svg": (svg(f'<path d="{"M0 0h1v1z" * 10_001}"/>').data, "more than 3000 shapes"),
    "star.svg": (svg(star(20_001)).data, "cross each other more than 4000 times"),
    "bars.svg": (
        svg("".join(
            f'<rect x="{i}" width=".5" height="999"/><rect y="{i}" width="999" height=".5"/>'
            for i in range(500)
        )).data,
        "more than 50000 of its shapes overlap",
    ),
    "nest.svg": (
        svg('<path d="' + "".join(
            f"M{-i} {-i}h{2 * i}v{2 * i}h{-2 * i}z" for i in range(1, 2000)
        ) + '"/>').data,
        "nested in each other too deep",
    ),
    "giant.svg": (
        svg('<path d="M0 0C1e8 1e8 -1e8 1e8 10 0z"/>' * 50).data,
        "50 × path with coordinates out of range",
    ),
    "far.svg": (svg('<path d="M0 0h1e20v1e20z"/>').data, "1 × path with coordinates out of range"),
    "infinite.svg": (svg('<path d="M0 0h1e999v1z"/>').data, "path data after an error"),
    "nan.svg": (svg('<path d="M0 0LNaN 5 5 5z"/>').data, "path data after an error"),
    "grown.svg": (
        svg('<g transform="scale(1e200)"><g transform="scale(1e200)"><path d="M0 0h1v1z"/></g></g>'
            ).data,
        "1 × broken transform",
    ),
    "flat.svg": (svg(f'<g transform="scale(0)">{SQUARE}</g>').data, "1 × shape flattened by its"),
    "huge.svg": (
        svg(SQUARE, 'width="1e6cm" viewBox="0 0 100 100"').data, "m large; check the units",
    ),
    "none.svg": (
        svg('<text>Quince</text><path d="M0 0h9v9z" fill="none" stroke="red"/>').data,
        "it encloses no area of metal (not read: 1 × text, 1 × stroke without fill); draw",
    ),
    "nothing.svg": (svg("").data, "it encloses no area of metal; draw"),
    "other.xml": (b"<?xml version='1.0'?><kml/>", "its root is <kml>, not <svg>"),
    "page.svg": (svg(SQUARE, 'width="0" viewBox="0 0 9 9"').data, "which is no size"),
    "lines.dxf": (
        (b"0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n"
        b"0\nLINE\n8\n0\n10\n0\n20\n0\n11\n9\n21\n0\n0\nENDSEC\n0\nEOF\n"),
        "it encloses no area of metal (not read: 1 × open contour (LINE)",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_what_can_not_be_used_is_refused_in_one_sentence(name: str, tmp_path: Path) -> None:
    """Broken, hostile, or merely empty: what, where, what to do, and never a traceback."""
    data, sentence = HOSTILE[name]
    (tmp_path / name).write_bytes(data)
    with pytest.raises(ArtworkError) as refusal:
        read_artwork(load_file(tmp_path / name), ReadOptions())
    text = str(refusal.value)
    assert sentence in text
    assert text.startswith(name)
    assert text.endswith(".")
    assert "\n" not in text


def test_a_use_bomb_is_refused_before_it_goes_off(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ten levels of ten copies each would be ten thousand million shapes."""
    levels = "".join(f'<g id="u{i + 1}">{f"""<use href="#u{i}"/>""" * 10}</g>' for i in range(10))
    body = f'<defs><path id="u0" d="M0 0h1v1z"/>{levels}</defs><use href="#u10"/>'
    monkeypatch.setattr(svg_drawing, "MOST_SHAPES", 1000)
    with pytest.raises(ArtworkError, match="the drawing holds more than 1000 shapes"):
        read(body)


def test_awkward_but_harmless_drawings_are_read() -> None:
    """Cycles are cut, outside references left, a self-crossing star mended, metal kept.

    Area of the star {n / m}: n r^2 sin(pi/n) cos(pi m/n) / cos(pi (m - 1)/n).
    """
    entities = f'<!DOCTYPE svg [<!ENTITY s "{star(41)[9:-3]}">]>'
    file = ArtworkFile(
        "a.svg",
        f'{entities}<svg {NAMESPACES} {PAGE}><g id="a"><use href="#a"/></g>'
        '<use href="http://nowhere.invalid/x.svg#b"/><path d="&s;"/></svg>'.encode(),
    )
    artwork: Artwork = read_artwork(file, ReadOptions())
    points, steps = math.pi / 41, 20
    area = 41 * 2500 * math.sin(points) * math.cos(steps * points) / math.cos((steps - 1) * points)
    assert artwork.outline.area_mm2 == pytest.approx(area, rel=1e-4)
    assert "contour crosses itself, overlap united" in told(artwork, "mended")
