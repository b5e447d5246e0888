"""Faces that papers are set in."""

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase import pdfmetrics

from holeplacer.paper import font


def face_file(bold):
    return TTFont(pdfmetrics.getFont(font.name(bold)).face.filename)


@pytest.mark.parametrize("bold", [False, True])
def test_the_faces_may_be_embedded_and_have_the_trade_s_signs(bold):
    """Installable embedding by the font's own flag; × ° ½ Ø ± are there."""
    face = face_file(bold)
    assert face["OS/2"].fsType & 0x0F in (0, 4)  # 4: preview and print; the licence allows all
    assert all(ord(sign) in face.getBestCmap() for sign in "×°½¼¾Ø±–—·…²")


@pytest.mark.parametrize("bold", [False, True])
def test_capitals_are_as_high_as_stated(bold):
    """The share is read from the letter H itself."""
    face = face_file(bold)
    high = face["glyf"][face.getBestCmap()[ord("H")]].yMax / face["head"].unitsPerEm
    assert pytest.approx(high, abs=1e-3) == font.CAPITAL_SHARE


@pytest.mark.parametrize("bold", [False, True])
def test_width_is_the_sum_of_advances(bold):
    """What a second font library adds up."""
    face = face_file(bold)
    names = face.getBestCmap()
    want = sum(face["hmtx"][names[ord(sign)]][0] for sign in "Ø 7.14 mm")
    want *= 10.0 / face["head"].unitsPerEm
    assert font.width_mm("Ø 7.14 mm", 10.0, bold) == pytest.approx(want, rel=1e-3)


@given(st.text(max_size=60))
def test_any_text_becomes_printable_and_stays_so(text):
    """Every sign that is left is in the faces; a second time changes nothing."""
    shown = font.printable(text)
    known = face_file(bold=False).getBestCmap()
    assert all(ord(sign) in known for sign in shown)
    assert font.printable(shown) == shown


@given(st.text(max_size=80), st.floats(5.0, 100.0))
def test_wrapped_lines_fit_and_lose_no_word(text, width):
    """A line is wider than allowed only if it is one word."""
    lines = font.wrapped(text, 3.0, width)
    assert " ".join(lines).split() == font.printable(text).split()
    assert all(font.width_mm(line, 3.0) <= width or " " not in line for line in lines)


def test_shortened_text_fits_and_says_that_it_was():
    """An ellipsis stands for what was left out; what fits stays whole."""
    assert font.shortened("Heron", 3.0, 100.0) == "Heron"
    short = font.shortened("The Heron and the Lantern", 3.0, 20.0)
    assert short.endswith("…")
    assert font.width_mm(short, 3.0) <= 20.0
