"""The template on a roll."""

import numpy as np
import pytest

from holeplacer.documents import template as templates
from holeplacer.documents import template_files, template_roll
from holeplacer.documents.template import TemplateWish
from holeplacer.paper import pdf_file, size
from holeplacer.plan.hole import Hole


def holes(long_mm):
    return [Hole(index + 1, x, 150.0, 7.144) for index, x in enumerate((20.0, 900.0, long_mm - 20))]


def test_three_metres_are_one_length_true_to_a_fiftieth_of_a_millimetre(sign_of, wave, read_paper):
    """One joint fewer goes before a little less paper; holes stand as the plan has them."""
    wish = TemplateWish()
    shown = templates.template(sign_of(wave(3000.0, 490.0), *holes(3000.0)), wish)
    (page,) = read_paper(pdf_file.pdf_bytes(template_files.roll_papers(shown, wish)))
    assert page.height_mm == pytest.approx(wish.roll_mm, abs=0.001)
    assert 3000.0 < page.width_mm < size.LONGEST_MM
    drilled = page.circles[np.abs(page.circles[:, 2] - 3.572) < 1e-3]
    apart = np.diff(drilled[np.argsort(drilled[:, 0])][:, 0])
    assert apart == pytest.approx([880.0, 2080.0], abs=0.02)
    assert all(page.fonts.values())


def test_what_is_longer_than_a_page_may_be_is_divided_never_scaled(sign_of, wave, read_paper):
    """Beyond 200 in; every length is as wide as the roll, and names what it is laid on."""
    wish = TemplateWish()
    shown = templates.template(sign_of(wave(7000.0), *holes(7000.0)), wish)
    pages = read_paper(pdf_file.pdf_bytes(template_files.roll_papers(shown, wish)))
    assert len(pages) > 1
    for page in pages:
        assert min(page.width_mm, page.height_mm) == pytest.approx(wish.roll_mm, abs=0.001)
        assert max(page.width_mm, page.height_mm) <= size.LONGEST_MM + 1e-6
        assert "lay on" in page.text or "begins here" in page.text


def test_a_sign_wider_than_the_roll_takes_lengths_side_by_side(sign_of, wave):
    """1.2 m high on 610 mm paper, 2.4 m long: some lengths, all on the roll."""
    wish = TemplateWish(roll_mm=610.0)
    shown = templates.template(sign_of(wave(2400.0, 1200.0)), wish)
    leaves = template_roll.lengths(shown, wish)
    assert len(leaves) >= 3
    assert all(leaf.width_mm == 610.0 or leaf.height_mm == 610.0 for leaf in leaves)


def test_in_one_piece_it_holds_everything(sign_of, wave):
    """For files that know no page, however large."""
    shown = templates.template(sign_of(wave(7000.0, 1500.0)), TemplateWish())
    leaf = template_roll.whole(shown, TemplateWish())
    assert leaf.width_mm > 7000.0
    assert leaf.height_mm > 1500.0
