"""The cascade: which declaration wins, and which rules are not read."""

import pytest
from lxml import etree

from holeplacer.artwork.svg_style import StyleSheet
from holeplacer.errors import ArtworkError


def fill_of(css: str, inside: str = "<path/>") -> str | None:
    """Fill that the cascade gives the last path of a document."""
    root = etree.fromstring(f"<svg><style>{css.replace('<', '&lt;')}</style>{inside}</svg>")
    return StyleSheet.of(root).declared(list(root.iter("path"))[-1]).get("fill")


@pytest.mark.parametrize(
    ("css", "inside", "fill"),
    [
        ("", '<path fill="red"/>', "red"),
        ("path{fill:blue}", '<path fill="red"/>', "blue"),
        ("path{fill:blue}", '<path style="fill:red"/>', "red"),
        ("path{fill:blue !important}", '<path style="fill:red"/>', "blue"),
        ("path{fill:blue!important}", '<path style="fill:red ! important"/>', "red"),
        ("path{fill:blue} path{fill:green}", "<path/>", "green"),
        (".a{fill:blue} path{fill:green}", '<path class="a"/>', "blue"),
        ("#p{fill:blue} .a{fill:green}", '<path id="p" class="a"/>', "blue"),
        (".a.b{fill:blue} .a{fill:green}", '<path class="b a"/>', "blue"),
        ("*{fill:blue}", "<path/>", "blue"),
        ("path.a,path.b{fill:blue}", '<path class="b"/>', "blue"),
        ("g path{fill:blue}", "<g><a><path/></a></g>", "blue"),
        ("g>path{fill:blue}", "<g><a><path/></a></g>", None),
        ("g > a > path{fill:blue}", "<g><a><path/></a></g>", "blue"),
        (".x g > path{fill:blue}", '<g class="x"><g><g><path/></g></g></g>', "blue"),
        (".x > g path{fill:blue}", '<g class="x"><a><g><path/></g></a></g>', None),
        ("g{fill:blue}", "<g><path/></g>", None),
        ("@media print{path{fill:blue}}", "<path/>", "blue"),
        ("@media (min-width:1px){path{fill:blue}}", "<path/>", None),
        ("/* path{fill:red} */ path{fill:blue}", "<path/>", "blue"),
        ("path{fill:blue; nonsense; stroke:}", "<path/>", "blue"),
        ("path{FILL:blue}", "<path/>", "blue"),
        ("", "<path style=\"fill:url('#a;b')\"/>", 'url("#a;b")'),
        ("", '<path style="/* no */ fill : red ; "/>', "red"),
        ("", '<path style="fill:red;fill:"/>', "red"),
    ],
)
def test_the_strongest_declaration_wins(css: str, inside: str, fill: str | None) -> None:
    """By importance, then place, then specificity, then order."""
    assert fill_of(css, inside) == fill


@pytest.mark.parametrize(
    ("css", "unread"),
    [
        ("path:hover{fill:red}", ["path:hover"]),
        ("[id]{fill:red} path{fill:blue}", ["[id]"]),
        ("a + path{fill:red}", ["a + path"]),
        ("> path{fill:red}", ["> path"]),
        ("path >{fill:red}", ["path >"]),
        ("path:hover{cursor:pointer}", []),
        ('@import "other.css";', ['@import "other.css"']),
        ("path{fill:" + "(" * 5000 + "}", ["a rule with brackets nested too deep"]),
    ],
)
def test_rules_that_are_not_read_are_named(css: str, unread: list[str]) -> None:
    """Only those that would bear on what is read."""
    sheet = StyleSheet()
    sheet.add(css)
    assert sheet.unread == unread


def test_a_sheet_of_another_language_is_left_alone() -> None:
    """Only CSS is read."""
    root = etree.fromstring('<svg><style type="text/x">path{fill:red}</style><path/></svg>')
    assert "fill" not in StyleSheet.of(root).declared(root[1])


def test_sheets_that_would_take_for_ever_are_refused() -> None:
    """Too long, or too many rules on too many deep elements."""
    with pytest.raises(ArtworkError, match="style sheet is longer than 1000 thousand letters"):
        StyleSheet().add(" " * 1_000_001)
    root = etree.fromstring("<svg>" + "<g>" * 200 + "<path/>" * 10 + "</g>" * 200 + "</svg>")
    sheet = StyleSheet()
    sheet.add("g g g .z path{fill:red}" * 1000)
    with pytest.raises(ArtworkError, match="too many rules"):
        [sheet.declared(element) for element in root.iter("path")]
