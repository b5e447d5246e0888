"""SVG paint: whether an element's fill is metal, and what else of its styling is not read."""

import re
from collections.abc import Mapping

from holeplacer.artwork.drawing import FillRule
from holeplacer.artwork.svg_style import INHERITED, Declared

Style = Mapping[str, str]
"""Computed values of one element: inherited properties and its own."""

INITIAL: Style = {"fill": "black", "stroke": "none", "fill-rule": "nonzero"}

_NOTHING = {"none", "transparent", ""}
_ALPHA = re.compile(r"(?:rgb|hsl)a?\((?:[^()]*[,/]\s*)(0*\.?0*%?)\s*\)$")
_HEX_ALPHA = re.compile(r"#(?:[0-9a-f]{3}0|[0-9a-f]{6}00)$")
_WHITE = {
    "white",
    "#fff",
    "#ffffff",
    "#ffff",
    "#ffffffff",
    "rgb(255,255,255)",
    "rgb(100%,100%,100%)",
}
_NOT_APPLIED = {
    "clip-path": "clip path, not applied",
    "mask": "mask, not applied",
    "filter": "filter, not applied",
    "marker": "marker",
    "marker-start": "marker",
    "marker-mid": "marker",
    "marker-end": "marker",
}


def computed(parent: Style, declared: Declared) -> Style:
    """Values of an element inside a parent."""
    style = {name: value for name, value in parent.items() if name in INHERITED}
    for name, value in declared.items():
        if value in {"inherit", "unset"}:
            if name in parent:
                style[name] = parent[name]
        elif value in {"initial", "revert"}:
            style[name] = INITIAL.get(name, "")
        else:
            style[name] = value
    return style


def is_filled(style: Style) -> bool:
    """Whether the fill paints anything; a gradient or pattern does."""
    return _paints(style.get("fill", "")) and not _is_zero(style.get("fill-opacity", ""))


def is_stroked(style: Style) -> bool:
    """Whether the stroke paints anything."""
    return _paints(style.get("stroke", ""))


def is_white(style: Style) -> bool:
    """Whether the fill is white: on paper that is how an artist draws an opening."""
    return style.get("fill", "").lower().replace(" ", "") in _WHITE


def fill_rule(style: Style) -> FillRule:
    """The element's own rule; anything but `evenodd` is nonzero."""
    even = style.get("fill-rule", "").strip().lower() == "evenodd"
    return FillRule.EVENODD if even else FillRule.NONZERO


def unseen(style: Style) -> str:
    """Why an element and all in it are not painted, "" if they are."""
    if style.get("display", "").strip() == "none":
        return "hidden (display none)"
    return "invisible (opacity 0)" if _is_zero(style.get("opacity", "")) else ""


def not_applied(style: Style, declared: Declared) -> set[str]:
    """What of an element's own styling changes its look but is not read."""
    return {
        what
        for name, what in _NOT_APPLIED.items()
        if declared.get(name, "none").strip() not in {"none", ""}
        and style.get(name, "none") != "none"
    }


def _paints(paint: str) -> bool:
    value = paint.strip().lower()
    if value in _NOTHING or _HEX_ALPHA.match(value):
        return False
    alpha = _ALPHA.match(value) if value.startswith(("rgba", "hsla")) or "/" in value else None
    return not (alpha and _is_zero(alpha[1]))


def _is_zero(value: str) -> bool:
    number = value.strip().removesuffix("%")
    try:
        return float(number) <= 0
    except ValueError:
        return False
