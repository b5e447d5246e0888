"""The tiled template, read back and laid together by its printed marks."""

import re

import numpy as np
import pytest

from holeplacer.documents import template as templates
from holeplacer.documents import template_files, template_tiles
from holeplacer.documents.template import TemplateWish
from holeplacer.paper import pdf_file
from holeplacer.plan.hole import Hole

NEAR_MM = 0.02
"""How near everything must be to where the plan has it, over three metres."""

CORNER = re.compile(r"x (-?[\d.]+)\s+y (-?[\d.]+)")


def holes_along(long_mm, number):
    return [
        Hole(index + 1, 20.0 + index * (long_mm - 40.0) / (number - 1), 150.0, 7.144)
        for index in range(number)
    ]


def crosses_of(page):
    """Places on the page where a level and an upright line of 10 mm cross, as marks have them."""
    lines = [line.xy for line in page.lines if len(line.xy) == 2]
    size = [np.abs(xy[1] - xy[0]) for xy in lines]
    flat = [xy.mean(axis=0) for xy, by in zip(lines, size, strict=True) if is_arm(by)]
    tall = [xy.mean(axis=0) for xy, by in zip(lines, size, strict=True) if is_arm(by[::-1])]
    return [one for one in flat if any(np.allclose(one, other, atol=1e-3) for other in tall)]


def is_arm(by):
    return by[1] < 1e-6 and by[0] == pytest.approx(10.0, abs=1e-3)


def shift_of(page):
    """From the page to the sign, by the figures beside its crosses alone."""
    crosses, found = np.array(crosses_of(page)), []
    for text, x, y in page.texts:
        for match in CORNER.finditer(text):
            nearest = crosses[np.abs(crosses - (x, y)).sum(axis=1).argmin()]
            found.append(np.array([float(match[1]), float(match[2])]) - nearest)
    return np.array(found)


@pytest.mark.parametrize("paper", ["letter", "A3"])
def test_every_hole_and_bar_is_right_after_laying_the_tiles_by_their_marks(
    sign_of, wave, read_paper, paper
):
    """Three metres, within two hundredths of a millimetre; each hole is on a page at least once."""
    layout = sign_of(wave(3000.0), *holes_along(3000.0, 27))
    wish = TemplateWish(paper=paper)
    shown = templates.template(layout, wish)
    pages = read_paper(pdf_file.pdf_bytes(template_files.tiled_papers(shown, wish)))
    seen = set()
    datum = np.array(shown.datum_mm)
    for page in [page for page in pages if CORNER.search(page.text)]:
        shifts = shift_of(page)
        assert len(shifts) >= 4
        assert np.ptp(shifts, axis=0).max() < NEAR_MM
        for x, y, radius in page.circles:
            place = np.array([x, y]) + shifts.mean(axis=0) + datum
            off = [np.hypot(*(place - (h.x_mm, h.y_mm))) for h in shown.holes]
            if radius == pytest.approx(7.144 / 2, abs=1e-3):
                assert min(off) < NEAR_MM
                seen.add(int(np.argmin(off)))
        for long in (100.0, 101.6):
            spans = [np.ptp(line.xy, axis=0) for line in page.lines if len(line.xy) == 2]
            for axis in (0, 1):
                assert min(abs(span[axis] - long) for span in spans) < NEAR_MM
    assert seen == set(range(27))


def test_pages_are_the_paper_and_all_fonts_are_embedded(sign_of, wave, read_paper):
    """Letter, standing or lying, to a hundredth of a millimetre."""
    layout = sign_of(wave(900.0), *holes_along(900.0, 5))
    wish = TemplateWish()
    papers = template_files.tiled_papers(templates.template(layout, wish), wish)
    for page in read_paper(pdf_file.pdf_bytes(papers)):
        assert sorted((page.width_mm, page.height_mm)) == pytest.approx([215.9, 279.4], abs=0.01)
        assert page.fonts
        assert all(page.fonts.values())


def test_three_metres_make_a_small_file(sign_of, wave):
    """Below five megabytes with an outline of thousands of vertices; the same again, to a byte."""
    layout = sign_of(wave(3000.0, vertices=8000), *holes_along(3000.0, 27))
    wish = TemplateWish()
    papers = template_files.tiled_papers(templates.template(layout, wish), wish)
    data = pdf_file.pdf_bytes(papers)
    assert len(data) < 5_000_000
    assert data == pdf_file.pdf_bytes(papers)


def test_sheets_lie_where_that_takes_fewer(sign_of, wave):
    """Of both ways the one with fewer pages."""
    shown = templates.template(sign_of(wave(900.0)), TemplateWish())
    paper, pages = template_tiles.best_cells(shown, TemplateWish())
    other = template_tiles.room(paper.landscape, shown.reach_mm)
    turned = template_tiles.template_cells.cells(shown, other, TemplateWish().overlap_mm)
    assert len(pages.printed) <= len(turned.printed)
    leaves = template_tiles.tiles(shown, TemplateWish())
    assert [leaf.name for leaf in leaves][-len(pages.printed) :] == [c.name for c in pages.printed]
