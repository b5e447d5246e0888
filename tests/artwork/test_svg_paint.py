"""Whether a fill is metal."""

import pytest

from holeplacer.artwork.drawing import FillRule
from holeplacer.artwork.svg_paint import (
    INITIAL,
    computed,
    fill_rule,
    is_filled,
    is_stroked,
    is_white,
    not_applied,
    unseen,
)


@pytest.mark.parametrize(
    ("fill", "filled"),
    [
        ("black", True),
        ("#123", True),
        ("url(#g)", True),
        ("currentColor", True),
        ("rgba(0,0,0,0.5)", True),
        ("rgb(0 0 0 / 50%)", True),
        ("#1238", True),
        ("none", False),
        (" None ", False),
        ("transparent", False),
        ("#1230", False),
        ("#12345600", False),
        ("rgba(1,2,3,0)", False),
        ("rgba(1,2,3,0.0)", False),
        ("rgb(0 0 0 / 0%)", False),
        ("hsla(1,2%,3%,.0)", False),
        ("rgb(255,255,0)", True),
    ],
)
def test_a_fill_is_metal_unless_it_is_see_through(fill: str, filled: bool) -> None:
    """Gradients and half-transparent colours are metal; full transparency is not."""
    assert is_filled({"fill": fill}) is filled


def test_opacity_of_the_fill_counts() -> None:
    """Zero is see-through, less than full is metal."""
    assert not is_filled({"fill": "red", "fill-opacity": "0"})
    assert not is_filled({"fill": "red", "fill-opacity": "0%"})
    assert is_filled({"fill": "red", "fill-opacity": "0.2"})


def test_values_are_inherited_as_the_property_has_it() -> None:
    """Fill goes down, opacity does not; `inherit` and `initial` are obeyed."""
    parent = {**INITIAL, "fill": "red", "opacity": "0"}
    assert computed(parent, {}) == {"fill": "red", "stroke": "none", "fill-rule": "nonzero"}
    assert computed(parent, {"fill": "initial", "opacity": "inherit"}) == {
        "fill": "black", "stroke": "none", "fill-rule": "nonzero", "opacity": "0",
    }  # fmt: skip


def test_what_is_not_painted_says_why() -> None:
    """Display and opacity hide an element with all in it."""
    assert unseen({"display": "none"}) == "hidden (display none)"
    assert unseen({"opacity": "0.0"}) == "invisible (opacity 0)"
    assert unseen({"opacity": "nonsense", "display": "inline"}) == ""


def test_what_is_not_applied_is_named_where_it_is_declared() -> None:
    """Once for an element, not again for all it holds."""
    declared = {"clip-path": "url(#c)", "mask": "none", "marker-end": "url(#m)"}
    style = computed(INITIAL, declared)
    assert not_applied(style, declared) == {"clip path, not applied", "marker"}
    assert not_applied(computed(style, {}), {}) == set()


def test_rule_stroke_and_white_are_told() -> None:
    """Small questions of one value each."""
    assert fill_rule({"fill-rule": " evenodd "}) is FillRule.EVENODD
    assert fill_rule({}) is FillRule.NONZERO
    assert is_stroked({"stroke": "#000"})
    assert not is_stroked(INITIAL)
    assert all(is_white({"fill": fill}) for fill in ("white", "#FFF", "rgb(255, 255, 255)"))
    assert not is_white({"fill": "#eee"})
