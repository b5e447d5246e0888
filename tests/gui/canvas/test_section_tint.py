"""Sections are told apart by tint, neighbours never by the same one."""

import pytest
from PySide6.QtGui import QImage, QPainter
from shapely.geometry import box

from holeplacer.gui.canvas.section_tint import TINTS, SectionTintItem, brush, tints
from holeplacer.gui.theme import DARK, LIGHT
from holeplacer.seams.sections import Section


def section(number, *seams):
    area = box(100 * number, 0, 100 * number + 100, 50)
    return Section(number, area, 0, (), seams, area.area)


CHAIN = (section(1, 0), section(2, 0, 1), section(3, 1, 2), section(4, 2))
STAR = (section(1, 0), section(2, 0, 1, 2, 3), section(3, 1), section(4, 2), section(5, 3))


@pytest.mark.parametrize("sections", [CHAIN, STAR])
def test_neighbours_have_other_tints(sections):
    """Two that share a seam never share a tint."""
    found = tints(sections)
    for one in sections:
        for two in sections:
            if one is not two and set(one.seams) & set(two.seams):
                assert found[one.number] != found[two.number]


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_every_tint_looks_another(colours):
    """Colour or pattern differs."""
    looks = {(brush(t, colours).style(), brush(t, colours).color().name()) for t in range(TINTS)}
    assert len(looks) == TINTS


def test_what_is_painted_is_the_sections(qapp):
    """Inside they are tinted, outside nothing is."""
    item = SectionTintItem(LIGHT)
    item.show_sections(CHAIN)
    assert item.boundingRect().left() == 100.0
    image = QImage(600, 60, QImage.Format.Format_ARGB32)
    image.fill(0)
    painter = QPainter(image)
    item.paint(painter, None)
    painter.end()
    assert image.pixelColor(150, 25).alpha() > 0
    assert image.pixelColor(50, 25).alpha() == 0
    item.show_sections(())
    assert item.boundingRect().isEmpty()
