"""The walk through a drawing: what is read, where it lands, what is told."""

import math

import pytest
from svg_drafts import read, svg, told

from holeplacer.artwork import svg_drawing
from holeplacer.artwork.drawing import FillRule
from holeplacer.artwork.svg_drawing import read_svg
from holeplacer.errors import ArtworkError

SQUARE = '<rect width="10" height="10"/>'


@pytest.mark.parametrize(
    ("body", "area", "bounds"),
    [
        (SQUARE, 100, (0, 90, 10, 100)),
        (f'<g transform="translate(5 5) scale(2)">{SQUARE}</g>', 400, (5, 75, 25, 95)),
        (
            f'<g transform="rotate(90 10 10)"><g transform="translate(3)">{SQUARE}</g></g>',
            100,
            (10, 87, 20, 97),
        ),
        (f'<g transform="matrix(-1 0 0 1 50 0)">{SQUARE}</g>', 100, (40, 90, 50, 100)),
        (f'<g transform="skewX(45)">{SQUARE}</g>', 100, (0, 90, 20, 100)),
        (f'<g style="transform: translate(10px, 0)">{SQUARE}</g>', 100, (10, 90, 20, 100)),
        (f'<g id="a">{SQUARE}</g><use href="#a" x="20"/>', 200, (0, 90, 30, 100)),
        (
            f'<defs><g id="a">{SQUARE}</g></defs><use xlink:href="#a" transform="scale(3)" y="1"/>',
            900,
            (0, 67, 30, 97),
        ),
        (
            (
                '<symbol id="s" viewBox="0 0 2 2"><rect width="2" height="1"/></symbol>'
                '<use href="#s" width="20" height="20" x="5"/>'
            ),
            200,
            (5, 90, 25, 100),
        ),
        (
            (
                '<symbol id="s" viewBox="0 0 4 2" preserveAspectRatio="xMinYMax">'
                '<rect width="4" height="2"/></symbol><use href="#s" width="20" height="20"/>'
            ),
            200,
            (0, 80, 20, 90),
        ),
        (f'<svg x="10" y="20">{SQUARE}</svg>', 100, (10, 70, 20, 80)),
        (
            (
                '<svg x="10" width="50" height="50" viewBox="0 0 100 100">'
                '<rect width="50%" height="100%"/></svg>'
            ),
            1250,
            (10, 50, 35, 100),
        ),
        (
            (
                '<switch><g requiredExtensions="x"><rect width="50" height="50"/></g>'
                f'{SQUARE}<circle r="9"/></switch>'
            ),
            100,
            (0, 90, 10, 100),
        ),
        (
            (
                '<switch><g systemLanguage="xx"><circle r="9"/></g>'
                f'<g systemLanguage="xx, en-GB">{SQUARE}</g></switch>'
            ),
            100,
            (0, 90, 10, 100),
        ),
        (f"<a><a>{SQUARE}</a></a>", 100, (0, 90, 10, 100)),
        ('<path d="M0 0H30V30H0ZM10 10H20V20H10Z"/>', 900, (0, 70, 30, 100)),
        ('<path d="M0 0H30V30H0ZM10 10V20H20V10Z"/>', 800, (0, 70, 30, 100)),
        ('<path fill-rule="evenodd" d="M0 0H30V30H0ZM10 10H20V20H10Z"/>', 800, (0, 70, 30, 100)),
        (
            (
                "<style>.e{fill-rule:evenodd}</style>"
                '<path class="e" d="M0 0H30V30H0ZM10 10H20V20H10Z"/>'
            ),
            800,
            (0, 70, 30, 100),
        ),
        ('<path d="M0 0H30V30H0Z"/><path d="M20 0H40V30H20Z"/>', 1200, (0, 70, 40, 100)),
        ('<path d="M0 0H30V30H0Z"/><path d="M20 0V30H40V0Z"/>', 1200, (0, 70, 40, 100)),
        ('<path d="M0 0L30 0 30 30"/>', 450, (0, 70, 30, 100)),
        (f"<style>@media screen{{path{{fill:none}}}}</style>{SQUARE}", 100, (0, 90, 10, 100)),
    ],
)
def test_shapes_land_where_the_standard_puts_them(
    body: str, area: float, bounds: tuple[float, ...]
) -> None:
    """Area and bounds, mm, y up from the lower left corner of the page."""
    outline = read(body).outline
    assert outline.area_mm2 == pytest.approx(area, rel=1e-9)
    assert outline.bounds_mm == pytest.approx(bounds, abs=1e-9)


@pytest.mark.parametrize(
    ("body", "what"),
    [
        ('<path d="M0 0h9v9z" fill="none" stroke="red"/>', "stroke without fill"),
        ('<line x2="5" stroke="red"/>', "stroke without fill"),
        ('<path d="M0 0h9v9z" fill="none"/>', "path without fill or stroke"),
        ('<circle r="9" stroke="red"/>', "stroke around a filled shape"),
        ("<text>Quince</text>", "text"),
        ('<image href="data:,"/>', "picture"),
        ("<foreignObject/>", "foreign object"),
        ('<circle r="9" clip-path="url(#c)"/>', "clip path, not applied"),
        ('<circle r="9" style="mask:url(#c)"/>', "mask, not applied"),
        ('<g filter="url(#c)"><circle r="9"/></g>', "filter, not applied"),
        ('<path d="M0 0h9v9z" marker-mid="url(#m)"/>', "marker"),
        ('<circle r="9" visibility="hidden"/>', "hidden (visibility)"),
        ('<g display="none"><circle r="9"/></g>', "hidden (display none)"),
        ('<g opacity="0"><circle r="9"/></g>', "invisible (opacity 0)"),
        ('<circle r="9" transform="scale(0 1)"/>', "shape flattened by its transform"),
        ('<circle r="9" transform="twist(3)"/>', "broken transform"),
        ('<use href="#nothing"/>', "use of something missing"),
        ('<use href="other.svg#a"/>', "use of another file"),
        ('<g id="a"><use href="#a"/></g>', "use that refers back to itself"),
        (
            '<g id="b"><use href="#c"/></g><g id="c"><use href="#b"/></g>',
            "use that refers back to itself",
        ),
        ("<style>path:hover{fill:red}</style>", "style rule"),
        ('<path d="M0 0h9v9zQ"/>', "path data after an error, at 'a command without numbers'"),
        ('<rect width="-9" height="9"/>', "rect data after an error, at 'a negative size'"),
        ('<rect width="9"/>', "rect without extent"),
    ],
)
def test_what_is_not_read_is_told(body: str, what: str) -> None:
    """Never silently lost."""
    assert what in told(read(SQUARE + body), "ignored")


def test_a_hidden_group_counts_its_shapes() -> None:
    """So that the person knows how much is missing."""
    found = told(read(SQUARE + f'<g display="none">{SQUARE * 3}<g>{SQUARE}</g></g>'), "ignored")
    assert found == {"hidden (display none)": 4}


def test_a_shown_shape_in_a_hidden_group_is_read() -> None:
    """Visibility can be taken back further down; display can't."""
    body = f'<g visibility="hidden"><g visibility="visible">{SQUARE}</g></g>'
    assert read(body).outline.area_mm2 == pytest.approx(100)


def test_what_is_only_defined_is_not_drawn() -> None:
    """Symbols, masks, markers, patterns, clip paths and metadata are no shapes, and no news."""
    kept = "".join(
        f"<{name}>{SQUARE}</{name}>"
        for name in ("defs", "symbol", "mask", "marker", "pattern", "clipPath", "metadata")
    )
    artwork = read(f'{kept}<circle cx="50" cy="50" r="5"/>')
    assert artwork.outline.area_mm2 == pytest.approx(25 * math.pi, rel=1e-2)
    assert artwork.account.ignored == ()


def test_kinds_and_layers_are_counted() -> None:
    """Outermost groups are layers, by label or id."""
    body = (
        f'<g id="letters">{SQUARE * 2}<circle r="3"/></g>{SQUARE}'
        f'<g xmlns:e="urn:editor" id="g1" e:label="Guides" display="none">{SQUARE}</g>'
    )
    drawing = read_svg(svg(body))
    assert drawing.layers == (("letters", 3, True), ("", 1, True), ("Guides", 1, False))
    assert {(e.what, e.where): e.count for e in drawing.account.read} == {
        ("rect", "letters"): 2, ("circle", "letters"): 1, ("rect", ""): 1,
    }  # fmt: skip
    assert [(e.what, e.where, e.count) for e in drawing.account.ignored] == [
        ("hidden (display none)", "Guides", 1)
    ]


def test_layers_can_be_chosen_hidden_ones_too() -> None:
    """A layer asked for by name is read though the file hides it; the others are told."""
    body = f'<g id="a" display="none">{SQUARE}</g><g id="b"><rect x="50" width="5" height="5"/></g>'
    drawing = read_svg(svg(body), layers=("a",))
    assert len(drawing.contours) == 1
    assert [(e.what, e.where) for e in drawing.account.ignored] == [("layer not chosen", "b")]
    assert drawing.layers == (("a", 1, False), ("b", 1, True))


def test_white_shapes_are_metal_with_a_note_and_a_white_page_is_paper() -> None:
    """Nothing is guessed about white letters; a white page behind black ones is no sheet."""
    page = '<rect width="100%" height="100%" fill="#fff"/>'
    artwork = read(page + SQUARE + '<circle cx="5" cy="5" r="2" fill="white"/>')
    assert artwork.outline.area_mm2 == pytest.approx(100)
    assert told(artwork, "read")["shape filled white, read as metal"] == 1
    assert told(artwork, "ignored") == {"white page behind the drawing": 1}
    assert read(page).outline.area_mm2 == pytest.approx(10_000)


def test_open_paths_are_closed_as_their_fill_closes_them() -> None:
    """By a straight step, and told."""
    drawing = read_svg(svg('<path d="M0 0L30 0 30 30" fill-rule="evenodd"/>'))
    assert [len(contour.segments) for contour in drawing.contours] == [2]
    assert drawing.fills == (FillRule.EVENODD,)
    assert drawing.account.mended[0].what == "open path closed as its fill closes it"


def test_circles_stay_circles_through_transforms_that_keep_them_round() -> None:
    """And go out as circles."""
    kinds = [
        type(
            read_svg(svg(f'<circle r="5" transform="{by}"/>')).contours[0].segments[0].curve
        ).__name__
        for by in ("rotate(30) scale(2)", "scale(2 -2)", "scale(2 1)", "skewX(10)")
    ]
    assert kinds == ["CircularArc", "CircularArc", "EllipticArc", "EllipticArc"]


def test_nesting_costs_no_recursion() -> None:
    """Two thousand groups, each with a transform."""
    body = '<g transform="translate(0.01)">' * 2000 + SQUARE + "</g>" * 2000
    assert read(body).outline.bounds_mm == pytest.approx((20, 90, 30, 100))


@pytest.mark.parametrize(
    ("limit", "body", "sentence"),
    [
        ("MOST_SHAPES", SQUARE * 21, "sign.svg: the drawing holds more than 20 shapes"),
        ("MOST_SHAPES", f'<path d="{"M0 0h1v1z" * 21}"/>', "more than 20 shapes"),
        ("MOST_ELEMENTS", "<g/>" * 21, "more than 20 elements, copies counted"),
    ],
)
def test_more_than_any_lettering_has_is_refused(
    monkeypatch: pytest.MonkeyPatch, limit: str, body: str, sentence: str
) -> None:
    """Shapes, subpaths and elements are bounded."""
    monkeypatch.setattr(svg_drawing, limit, 20)
    with pytest.raises(ArtworkError, match=sentence):
        read_svg(svg(body))


def test_copies_of_copies_are_counted_before_they_fill_memory(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Ten levels of ten copies each stop at the limit; a long chain stops at its depth."""
    monkeypatch.setattr(svg_drawing, "MOST_ELEMENTS", 500)
    levels = "".join(f'<g id="u{i + 1}">{f"""<use href="#u{i}"/>""" * 10}</g>' for i in range(10))
    with pytest.raises(ArtworkError, match="copies counted"):
        read_svg(svg(f'<defs><path id="u0" d="M0 0h1v1z"/>{levels}</defs><use href="#u10"/>'))
    chain = "".join(f'<use id="c{i + 1}" href="#c{i}"/>' for i in range(100))
    found = read_svg(svg(f'<defs><path id="c0" d="M0 0h1v1z"/>{chain}</defs><use href="#c100"/>'))
    assert [entry.what for entry in found.account.ignored] == ["use nested too deep"]
