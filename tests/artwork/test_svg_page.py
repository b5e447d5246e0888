"""Which unit a drawing is in, and where its corner lies."""

import numpy as np
import pytest
from lxml import etree

from holeplacer.artwork.svg_page import Page, read_page
from holeplacer.errors import ArtworkError


def page(attributes: str) -> Page:
    return read_page(etree.fromstring(f"<svg {attributes}/>"))


@pytest.mark.parametrize(
    ("attributes", "units", "size"),
    [
        ('width="400mm" height="100mm" viewBox="0 0 800 200"', "mm", (400, 100)),
        ('width="400 MM" height="100Mm" viewBox="0 0 800 200"', "mm", (400, 100)),
        ('width="40cm" height="100mm" viewBox="0 0 800 200"', "cm", (40, 10)),
        ('width="12in" viewBox="0 0 800 200"', "in", (12, 3)),
        ('height="3in" viewBox="0 0 800 200"', "in", (12, 3)),
        ('width="72pt" height="6pc"', "pt", (72, 72)),
        ('width="400Q"', "mm", (100, None)),
        ('width="400mm" height="100%" viewBox="0 0 800 200"', "mm", (400, 100)),
        ('width="1in" height="96px"', "in", (1, 1)),
        ('width="400" height="100" viewBox="0 0 800 200"', None, (400, 100)),
        ('width="400px" viewBox="0 0 800 200"', None, (400, 100)),
        ('width="100%" height="100%" viewBox="0 0 800 200"', None, (800, 200)),
        ('viewBox="0 0 800 200"', None, (800, 200)),
        ('width="auto" viewBox="0 0 800 200"', None, (800, 200)),
        ("", None, (None, None)),
    ],
)
def test_only_a_physical_size_states_units(
    attributes: str, units: str | None, size: tuple[float | None, float | None]
) -> None:
    """Bare numbers, px, percentages and view boxes state none; what is missing is completed."""
    found = page(attributes)
    assert found.units == units
    assert found.size == pytest.approx(size)


def test_the_origin_is_the_lower_left_corner_y_up() -> None:
    """The corners of the view box come out at those of the page."""
    found = page('width="400mm" height="100mm" viewBox="-80 20 800 200"')
    np.testing.assert_allclose(found.to_drawing @ [-80, 220, 1], [0, 0], atol=1e-12)
    np.testing.assert_allclose(found.to_drawing @ [720, 20, 1], [400, 100])


def test_other_proportions_leave_a_margin() -> None:
    """The view box is centred in the page, and the origin stays that of the page."""
    found = page('width="400mm" height="400mm" viewBox="0 0 800 200"')
    np.testing.assert_allclose(found.to_drawing @ [0, 200, 1], [0, 150])


def test_without_a_view_box_user_units_are_pixels() -> None:
    """96 of them to the inch where the size is physical, as they are where it is not."""
    np.testing.assert_allclose(page('width="2in" height="1in"').to_drawing @ [96, 96, 1], [1, 0])
    np.testing.assert_allclose(page('width="200" height="100"').to_drawing @ [96, 96, 1], [96, 4])
    np.testing.assert_allclose(page("").to_drawing @ [5, 7, 1], [5, -7])


@pytest.mark.parametrize("size", ["0", "-5mm", "0mm"])
def test_a_page_of_no_size_is_refused(size: str) -> None:
    """Instead of dividing by it."""
    with pytest.raises(ArtworkError, match=f'the page has the width "{size}"'):
        page(f'width="{size}" viewBox="0 0 1 1"')
