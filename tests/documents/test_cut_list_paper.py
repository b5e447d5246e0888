"""The cut list on paper, its pages read operator by operator."""

import io
import itertools
import re
from dataclasses import replace

import pypdf
import pytest
from shapely.geometry import Point, box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cutting import sheet_layout
from holeplacer.documents import caution, cut_list, cut_list_paper
from holeplacer.errors import InputError
from holeplacer.outline.outline import Outline
from holeplacer.paper import font
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import sections
from holeplacer.seams.sections import Section
from holeplacer.sheet.stock import Stock
from holeplacer.units import LengthUnit

PLAN = Plan(ArtworkFile("bar.svg", b""))
OUTLINE = Outline.from_geometry(box(0, 0, 250, 150))
CHOICE = SectionsChoice(stock=(Stock(300.0, 200.0, True),), turning="none")


def listed(*polygons, choice=CHOICE):
    made = [Section(n, area, 0, (), (), area.area) for n, area in enumerate(polygons, start=1)]
    return cut_list.cut_list(sheet_layout.sheet_layout(made, choice), PLAN, OUTLINE)


def pages_of(data):
    """Page contents of an uncompressed PDF, as text."""
    streams = re.findall(rb"stream\r?\n(.*?)endstream", data, re.DOTALL)
    return [stream.decode("latin-1") for stream in streams if b"BT" in stream]


def texts_of(page):
    """Strings shown on a page, escapes undone."""
    found = re.findall(r"\(((?:[^()\\]|\\.)*)\) Tj", page)
    return [re.sub(r"\\(.)", r"\1", text) for text in found]


def box_of(data):
    numbers = re.search(rb"/MediaBox \[\s*([\d. ]+)\]", data)[1].split()
    return [float(number) for number in numbers]


def test_paper_names_sheets_sections_and_every_caution():
    """All that the list says stands on it, cautions in full."""
    made = listed(box(0, 0, 250, 150), box(0, 0, 240, 140))
    (page,) = pages_of(cut_list_paper.as_pdf(made, compressed=False))
    text = " ".join(texts_of(page))
    assert "Cut list of bar.svg" in text
    assert "Sheet 1: 300 mm x 200 mm measured" in text
    assert "Sheet 2:" in text
    assert "250 x 150 mm" in text
    assert all(sentence in text for sentence in caution.FULL)
    assert "page 1" in text


@pytest.mark.parametrize(("paper", "size"), [("a4", (595.276, 841.890)), ("letter", (612, 792))])
def test_the_page_is_the_paper(paper, size):
    """ISO A4 and ANSI A in points, to a thousandth."""
    data = cut_list_paper.as_pdf(listed(box(0, 0, 99, 99)), paper=paper, compressed=False)
    assert box_of(data)[2:] == pytest.approx(size, abs=2e-3)


def test_the_picture_shows_each_section_to_scale():
    """Corners drawn on the page are those of the section on the sheet, scaled."""
    made = listed(box(0, 0, 250, 150))
    (page,) = pages_of(cut_list_paper.as_pdf(made, compressed=False))
    sheet = re.search(r"n ([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+) re S", page)
    x, y, wide, high = (float(number) for number in sheet.groups())
    assert wide / high == pytest.approx(300 / 200, abs=1e-3)
    scale = wide / 300
    path = re.search(r"n ([\d.]+ [\d.]+ m (?:[\d.]+ [\d.]+ l )+)h", page)[1]
    corners = {tuple(map(float, p)) for p in re.findall(r"([\d.]+) ([\d.]+) [ml]", path)}
    want = {(x + a * scale, y + b * scale) for a in (10, 260) for b in (10, 160)}
    assert len(corners) == 4
    for corner in want:
        assert min(abs(corner[0] - c[0]) + abs(corner[1] - c[1]) for c in corners) < 0.01


def test_counters_stay_open_in_the_picture():
    """A ring is drawn as one path of two contours, filled even-odd."""
    ring = Point(60, 60).buffer(60).difference(Point(60, 60).buffer(30))
    (page,) = pages_of(cut_list_paper.as_pdf(listed(ring), compressed=False))
    filled = re.search(r"n ((?:[\d.]+ [\d.]+ m (?:[\d.]+ [\d.]+ l )+h\s+)+)B\*", page)[1]
    assert filled.count(" m ") == 2


def test_many_sections_run_on_to_further_pages():
    """No row is lost, and no text lies off the paper."""
    choice = replace(CHOICE, stock=(Stock(700.0, 400.0, True),))
    made = listed(*(box(0, 0, 40, 20 + n / 7) for n in range(110)), choice=choice)
    pages = pages_of(cut_list_paper.as_pdf(made, compressed=False))
    assert len(pages) > 1
    shown = [text for page in pages for text in texts_of(page)]
    assert all(shown.count(str(number)) >= 2 for number in range(1, 111))
    heights = [
        float(y) for page in pages for y in re.findall(r"1 0 0 1 [\d.-]+ ([\d.-]+) Tm", page)
    ]
    assert min(heights) > 0
    assert max(heights) < 842


@pytest.mark.parametrize("unit", list(LengthUnit))
def test_no_column_runs_into_the_next(unit):
    """The widest figures a sign can have stand apart from each other, in both units."""
    tall = box(0, 0, 1183.37, 1197.93)
    plan = replace(
        PLAN,
        holes=tuple(Hole(n, 10.0 * n, 50.0) for n in range(1, 100)),
        seams=(Seam(0.0, 0.0, 0.0, 1163.39),),
    )
    section = Section(12, tall, 0, tuple(range(1, 100)), (0,), tall.area)
    choice = replace(CHOICE, stock=(Stock(1250.0, 1250.0, True),))
    laid = sheet_layout.sheet_layout([section], choice)
    made = cut_list.cut_list(laid, plan, Outline.from_geometry(tall))
    (page,) = pages_of(cut_list_paper.as_pdf(made, unit=unit, compressed=False))
    shown = r"1 0 0 1 ([\d.]+) ([\d.]+) Tm /(F\d)\+0 ([\d.]+) Tf [\d.]+ TL \((.*)\) Tj"
    rows = {}
    for x, y, face, size, text in re.findall(shown, page):
        # The title comes first and is bold, so that the bold face is the first that is named.
        wide = font.width_mm(text, float(size), face == "F1")
        rows.setdefault(y, []).append((float(x), float(x) + wide))
    tables = [sorted(row) for row in rows.values() if len(row) == 7]
    assert len(tables) == 2
    for row in tables:
        assert all(one[1] + 2.0 < two[0] for one, two in itertools.pairwise(row))


def test_the_same_list_gives_the_same_bytes():
    """No date and no chance in the file."""
    made = listed(box(0, 0, 99, 99))
    assert cut_list_paper.as_pdf(made) == cut_list_paper.as_pdf(made)


def test_an_unknown_paper_is_an_error():
    """It says which there are."""
    with pytest.raises(InputError, match="take a4 or letter"):
        cut_list_paper.as_pdf(listed(box(0, 0, 9, 9)), paper="a0")


def test_a_second_reader_finds_the_welding():
    """The order of tacks and welds and the preparation can be read off the paper's own text."""
    bar = Outline.from_geometry(box(0, 0, 400, 60))
    plan = replace(PLAN, seams=(Seam(200.0, 0.0, 200.0, 60.0),))
    laid = sheet_layout.sheet_layout(sections.sections(bar, plan.seams), CHOICE)
    data = cut_list_paper.as_pdf(cut_list.cut_list(laid, plan, bar))
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    assert "Weld 1: seam 1 between sections 1 and 2, 60 mm; tacks 1, 2, 3" in text
    assert "Edges square, as cut" in text


def test_every_font_is_embedded(read_paper):
    """A printer needs none of its own."""
    for page in read_paper(cut_list_paper.as_pdf(listed(box(0, 0, 99, 99)))):
        assert len(page.fonts) == 2
        assert all(page.fonts.values())
