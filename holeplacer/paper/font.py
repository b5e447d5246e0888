"""Font: the two faces that papers are set in, how wide they run, and which signs they have.

Bitstream Vera Sans, as it comes with the library that writes PDF files. Its licence allows to use,
copy, embed and distribute it with any software, only not to sell it by itself. It is embedded in
every paper, cut down to the signs used, so that a paper looks the same wherever it is printed.
"""

import unicodedata
from functools import cache

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

CAPITAL_SHARE = 0.729
"""Height of capitals as a share of the size: 1493 of 2048 units in both faces."""

_FILES = {False: "Vera.ttf", True: "VeraBd.ttf"}
_NAMES = {False: "PaperRegular", True: "PaperBold"}
_UNKNOWN = "?"
_SPELT = {"″": '"', "′": "'", "⌀": "Ø", "−": "-", "≤": "<=", "≥": ">=", "→": "->"}


def name(bold: bool = False) -> str:
    """What the PDF library knows a face by; the face is loaded when first asked for."""
    _load(bold)
    return _NAMES[bold]


def width_mm(text: str, size_mm: float, bold: bool = False) -> float:
    """How far a line of text runs."""
    return float(pdfmetrics.stringWidth(text, name(bold), size_mm))


def printable(text: str) -> str:
    """The text in signs that both faces have.

    A letter whose accent they lack goes without it; what they lack altogether is a question mark.

    >>> printable("Tábor ő 1/2″ 木")
    'Tábor o 1/2" ?'
    """
    return "".join(_printable_sign(sign) for sign in text)


def wrapped(text: str, size_mm: float, width: float, bold: bool = False) -> list[str]:
    """The text's words in lines no wider than `width`; a longer word stands alone on its line."""
    lines: list[str] = []
    line = ""
    for word in printable(text).split():
        longer = f"{line} {word}" if line else word
        if line and width_mm(longer, size_mm, bold) > width:
            lines.append(line)
            longer = word
        line = longer
    return [*lines, line] if line else lines


def shortened(text: str, size_mm: float, width: float, bold: bool = False) -> str:
    """The text, its end left out for an ellipsis where it is wider than `width`."""
    text = printable(text)
    if width_mm(text, size_mm, bold) <= width:
        return text
    while text and width_mm(f"{text}…", size_mm, bold) > width:
        text = text[:-1].rstrip()
    return f"{text}…"


@cache
def _load(bold: bool) -> TTFont:
    face = TTFont(_NAMES[bold], _FILES[bold])
    pdfmetrics.registerFont(face)
    return face


def _printable_sign(sign: str) -> str:
    known = _load(bold=False).face.charToGlyph
    if ord(sign) in known:
        return sign if sign.isprintable() else " "
    if sign in _SPELT:
        return _SPELT[sign]
    if sign.isspace():
        return " "
    bare = unicodedata.normalize("NFKD", sign)[0]
    return bare if ord(bare) in known and bare.isprintable() else _UNKNOWN
