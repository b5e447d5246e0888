"""Lettering for tests: a small script font made on the spot, set as overlapping glyphs."""

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

KAPPA = 0.5522847498
ADVANCE = 520


def ring(pen: object, x: float, y: float, rx: float, ry: float, *, hole: bool = False) -> None:
    """An ellipse of four cubics; counters run the other way."""
    corners = [(x + rx, y), (x, y + ry), (x - rx, y), (x, y - ry)]
    handles = [(0, KAPPA * ry), (-KAPPA * rx, 0), (0, -KAPPA * ry), (KAPPA * rx, 0)]
    if hole:
        corners = [corners[0], *corners[:0:-1]]
        handles = [(-hx, -hy) for hx, hy in (handles[0], *handles[:0:-1])]
    pen.moveTo(corners[0])
    for at in range(4):
        (ax, ay), (bx, by) = corners[at], corners[(at + 1) % 4]
        (hx, hy), (kx, ky) = handles[at], handles[(at + 1) % 4]
        pen.curveTo((ax + hx, ay + hy), (bx - kx, by - ky), (bx, by))
    pen.closePath()


def bowl(pen: object) -> None:
    """`o` with a joining stroke that reaches under the next glyph."""
    ring(pen, 250, 250, 240, 250)
    ring(pen, 250, 250, 140, 150, hole=True)
    joining(pen)


def dotted(pen: object) -> None:
    """`i`: a stem, a joining stroke, a separate dot."""
    pen.moveTo((80, 0))
    pen.lineTo((180, 0))
    pen.lineTo((180, 480))
    pen.lineTo((80, 480))
    pen.closePath()
    joining(pen)
    ring(pen, 130, 640, 60, 60)


def joining(pen: object) -> None:
    pen.moveTo((150, 20))
    pen.curveTo((300, -40), (450, 40), (620, 150))
    pen.lineTo((600, 230))
    pen.curveTo((450, 140), (300, 60), (150, 110))
    pen.closePath()


def script_font() -> TTFont:
    """A font of two glyphs, `o` and `i`, with TrueType (quadratic) outlines."""
    glyphs = {}
    for name, draw in (("o", bowl), ("i", dotted), (".notdef", lambda pen: None)):
        pen = TTGlyphPen(None)
        draw(Cu2QuPen(pen, 0.5, reverse_direction=True))
        glyphs[name] = pen.glyph()
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder([".notdef", "o", "i"])
    builder.setupCharacterMap({ord("o"): "o", ord("i"): "i"})
    builder.setupGlyf(glyphs)
    builder.setupHorizontalMetrics(dict.fromkeys(glyphs, (ADVANCE, 0)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupPost()
    return builder.font


def lettering(word: str, height_mm: float = 200.0) -> str:
    """Path elements of a word, one for each glyph, y down, 1000 font units to the height."""
    glyphs = script_font().getGlyphSet()
    scale = height_mm / 1000
    paths = []
    for number, letter in enumerate(word):
        pen = SVGPathPen(glyphs)
        glyphs[letter].draw(
            TransformPen(pen, (scale, 0, 0, -scale, number * ADVANCE * scale, height_mm))
        )
        paths.append(f'<path d="{pen.getCommands()}"/>')
    return "".join(paths)
