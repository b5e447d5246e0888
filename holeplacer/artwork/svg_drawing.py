"""SVG drawing: a walk through the elements that gathers filled shapes and accounts for the rest.

The walk keeps its own stack: depth costs no recursion, references that turn back on themselves are
cut, and copies are counted. Layers are the outermost groups, by label or id.

Metal is what a fill covers. Strokes, text, pictures, clip paths and masks are named in the account
and not read.
"""

from collections import Counter
from dataclasses import dataclass, field

import numpy as np
from lxml import etree

from holeplacer.artwork.account import Entry, ImportAccount
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.drawing import Drawing, DrawnContour, DrawnSegment, FillRule
from holeplacer.artwork.svg_document import elements_by_id, local_name, reference, svg_root
from holeplacer.artwork.svg_length import Viewport, length, transform, view_box
from holeplacer.artwork.svg_page import Page, read_page
from holeplacer.artwork.svg_paint import (
    INITIAL,
    Style,
    computed,
    fill_rule,
    is_filled,
    is_stroked,
    is_white,
    not_applied,
    unseen,
)
from holeplacer.artwork.svg_path import MOST_CURVES, Path
from holeplacer.artwork.svg_shapes import SHAPES, read_shape
from holeplacer.artwork.svg_style import StyleSheet
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import Polyline
from holeplacer.geometry.evaluate import domain, points_at
from holeplacer.geometry.transform import Matrix, combined, matrix

MOST_ELEMENTS = 20_000
MOST_SHAPES = 3_000
DEEPEST_USE = 64
MOST_PATH_LETTERS = 8_000_000

_CONTAINERS = {"svg", "g", "a", "switch"}
_UNREAD = {
    "text": "text",
    "image": "picture",
    "foreignObject": "foreign object",
    "flowRoot": "text",
    "video": "picture",
    "iframe": "foreign object",
}
_SINGULAR = 1e-12
_LARGEST = 1e30


@dataclass(frozen=True, eq=False, slots=True)
class _Visit:
    """An element to be visited, with what it takes from above.

    Attributes:
        element: The element.
        by: Map from its parent's coordinates to the drawing's.
        style: Its parent's.
        layer: "" outside all layers.
        viewport: What percentages are shares of.
        uses: References followed on the way here, innermost first.
        use: The `use` element that refers to it, if one does.
    """

    element: etree._Element
    by: Matrix
    style: Style
    layer: str
    viewport: Viewport
    uses: tuple[etree._Element, ...] = ()
    use: etree._Element | None = None


@dataclass
class _Gathered:
    """What the walk has found so far."""

    contours: list[DrawnContour] = field(default_factory=list)
    fills: list[FillRule] = field(default_factory=list)
    white: dict[int, str] = field(default_factory=dict)
    paper: set[int] = field(default_factory=set)
    read: Counter[tuple[str, str]] = field(default_factory=Counter)
    mended: Counter[tuple[str, str]] = field(default_factory=Counter)
    ignored: Counter[tuple[str, str]] = field(default_factory=Counter)
    layers: dict[str, tuple[int, bool]] = field(default_factory=dict)


def read_svg(file: ArtworkFile, layers: tuple[str, ...] | None = None) -> Drawing:
    """Filled shapes of an SVG file in the unit its size is stated in (see `svg_page`).

    Args:
        file: The file.
        layers: Outermost groups to read, "" for what lies in none; None reads all visible ones.

    Raises:
        ArtworkError: It can't be read, or is so large that it is no lettering.
    """
    root = svg_root(file)
    try:
        walk = _Walk(root, read_page(root), layers)
        walk.run()
    except ArtworkError as error:
        raise ArtworkError(
            error.what, where=error.where or file.name, remedy=error.remedy
        ) from error
    return walk.drawing()


class _Walk:
    """The stack of elements still to visit, and what was gathered."""

    def __init__(self, root: etree._Element, page: Page, layers: tuple[str, ...] | None) -> None:
        self.root = root
        self.page = page
        self.layers = layers
        self.ids = elements_by_id(root)
        self.sheet = StyleSheet.of(root)
        self.found = _Gathered()
        self.visits = self.shapes = self.subpaths = self.curves = self.letters = 0
        self.stack = [_Visit(root, page.to_drawing, INITIAL, "", page.viewport)]

    def run(self) -> None:
        """Visit everything."""
        for rule in self.sheet.unread:
            self.found.ignored["style rule", rule] += 1
        while self.stack:
            self.visits += 1
            if self.visits > MOST_ELEMENTS:
                raise _too_much(f"{MOST_ELEMENTS} elements, copies counted")
            self._visit(self.stack.pop())

    def drawing(self) -> Drawing:
        """All that was gathered; a white page behind other shapes left out."""
        found = self.found
        all_white = len(found.white) == len(found.fills)
        paper = set() if all_white else found.paper
        for fill, layer in {} if all_white else found.white.items():
            if fill in paper:
                found.ignored["white page behind the drawing", layer] += 1
            else:
                found.read["shape filled white, read as metal", layer] += 1
        return Drawing(
            contours=tuple(part for part in found.contours if part.fill not in paper),
            fills=tuple(found.fills),
            account=ImportAccount(
                *(
                    tuple(Entry(what, where, count) for (what, where), count in counter.items())
                    for counter in (found.read, found.mended, found.ignored)
                )
            ),
            units=self.page.units,
            layers=tuple((name, *state) for name, state in found.layers.items()),
        )

    def _visit(self, visit: _Visit) -> None:
        element, name = visit.element, local_name(visit.element)
        known = name in SHAPES or name in _CONTAINERS or name in _UNREAD or name == "use"
        if not (known or (name == "symbol" and visit.use is not None)) or not _applies(element):
            return
        declared = self.sheet.declared(element)
        style = computed(visit.style, declared)
        layer = self._layer(visit, name, style)
        if layer is None:
            return
        reason = "" if self._is_chosen(layer, visit) else unseen(style)
        if reason:
            self._leave_out(element, reason, layer)
            return
        if name in _UNREAD:
            self.found.ignored[_UNREAD[name], layer] += 1
            return
        for what in not_applied(style, declared):
            self.found.ignored[what, layer] += 1
        by = _inside(visit.by, declared.get("transform"))
        if by is None:
            self._leave_out(element, "broken transform", layer)
            return
        here = _Visit(element, by, style, layer, visit.viewport, visit.uses, visit.use)
        if name in SHAPES:
            self._shape(here, name)
        elif name == "use":
            self._follow(here)
        else:
            self._enter(here, name)

    def _layer(self, visit: _Visit, name: str, style: Style) -> str | None:
        """Layer of an element, None if it begins one that is not to be read."""
        if visit.element.getparent() is not self.root or visit.uses:
            return visit.layer
        layer = _label(visit.element) if name == "g" else ""
        count, visible = self.found.layers.get(layer, (0, False))
        shapes = _count_shapes(visit.element)
        shown = not unseen(style) and style.get("visibility") not in {"hidden", "collapse"}
        self.found.layers[layer] = (count + shapes, visible or shown)
        if self.layers is None or layer in self.layers:
            return layer
        if shapes:
            self.found.ignored["layer not chosen", layer] += shapes
        return None

    def _is_chosen(self, layer: str, visit: _Visit) -> bool:
        """Whether the element is a layer the person asked for, though it may be hidden."""
        outermost = visit.element.getparent() is self.root and not visit.uses
        return outermost and bool(layer) and self.layers is not None

    def _leave_out(self, element: etree._Element, reason: str, layer: str) -> None:
        count = _count_shapes(element)
        self.visits += count
        if count:
            self.found.ignored[reason, layer] += count

    def _enter(self, here: _Visit, name: str) -> None:
        """Push the children of a container, the first on top."""
        by, viewport = here.by, here.viewport
        if name in {"svg", "symbol"} and here.element is not self.root:
            opened = _opened(here)
            if opened is None:
                return
            by, viewport = opened
        children = list(here.element)
        if name == "switch":
            children = [child for child in children if local_name(child) and _applies(child)][:1]
        self.stack += [
            _Visit(child, by, here.style, here.layer, viewport, here.uses)
            for child in reversed(children)
        ]

    def _follow(self, here: _Visit) -> None:
        """Visit what a `use` refers to, moved to its x and y."""
        element, href = here.element, reference(here.element)
        target = self.ids.get(href.removeprefix("#")) if href.startswith("#") else None
        if target is None:
            what = "use of something missing" if href.startswith("#") else "use of another file"
            self.found.ignored[what, href[:60]] += 1
            return
        if any(target is above for above in (element, *element.iterancestors())) or any(
            element is above for above in here.uses
        ):
            self.found.ignored["use that refers back to itself", href[:60]] += 1
            return
        if len(here.uses) >= DEEPEST_USE:
            self.found.ignored["use nested too deep", href[:60]] += 1
            return
        x, y = (length(element.get(name)) for name in ("x", "y"))
        moved = matrix(
            1, 0, 0, 1,
            x.user_units(here.viewport.width) if x else 0.0,
            y.user_units(here.viewport.height) if y else 0.0,
        )  # fmt: skip
        self.stack.append(
            _Visit(
                target, combined(here.by, moved), here.style, here.layer, here.viewport,
                (element, *here.uses), element,
            )
        )  # fmt: skip

    def _shape(self, here: _Visit, name: str) -> None:
        self.shapes += 1
        text = here.element.get("d") or here.element.get("points") or ""
        self.letters += len(text)
        self.subpaths += text.count("M") + text.count("m")
        if self.letters > MOST_PATH_LETTERS:
            raise _too_much(f"{MOST_PATH_LETTERS // 1_000_000} million letters of path data")
        if max(self.shapes, self.subpaths) > MOST_SHAPES:
            raise _too_much(f"{MOST_SHAPES} shapes")
        reason = _not_metal(here, name)
        if reason:
            self.found.ignored[reason, here.layer] += 1
            return
        path = read_shape(here.element, here.viewport, here.by, _css_path(here.style))
        if path.error:
            self.found.ignored[f"{name} data after an error, at {path.error!r}", here.layer] += 1
        if path.subpaths:
            self._metal(here, name, path)
        elif not path.error:
            self.found.ignored[f"{name} without extent", here.layer] += 1

    def _metal(self, here: _Visit, name: str, path: Path) -> None:
        """Take a filled shape's contours, closed as the fill closes them."""
        self.curves += sum(len(subpath.curves) for subpath in path.subpaths)
        if self.curves > MOST_CURVES:
            raise _too_much(f"{MOST_CURVES} curves")
        found, fill = self.found, len(self.found.fills)
        found.fills.append(fill_rule(here.style))
        found.read[name, here.layer] += 1
        for subpath in path.subpaths:
            segments = [DrawnSegment(curve, here.layer, name) for curve in subpath.curves]
            if not subpath.closed:
                closing = _closing(segments)
                if closing is not None:
                    segments.append(closing)
                    found.mended["open path closed as its fill closes it", here.layer] += 1
            found.contours.append(DrawnContour(tuple(segments), fill))
        if is_stroked(here.style):
            found.ignored["stroke around a filled shape", here.layer] += 1
        if is_white(here.style):
            found.white[fill] = here.layer
            if name == "rect" and self._covers_page(found.contours[-1]):
                found.paper.add(fill)

    def _covers_page(self, contour: DrawnContour) -> bool:
        curve = contour.segments[0].curve
        width, height = self.page.size
        if not isinstance(curve, Polyline) or width is None or height is None:
            return False
        slack = 1e-6 * (width + height)
        low, high = curve.xy.min(axis=0), curve.xy.max(axis=0)
        return bool((low <= slack).all() and (high >= np.array([width, height]) - slack).all())


def _too_much(what: str) -> ArtworkError:
    return ArtworkError(f"the drawing holds more than {what}", remedy="keep only the outline")


def _applies(element: etree._Element) -> bool:
    """Conditional attributes: no extension is known, the language is English or not asked for."""
    if (element.get("requiredExtensions") or "").strip():
        return False
    languages = element.get("systemLanguage")
    return languages is None or any(
        part.strip().lower().split("-")[0] == "en" for part in languages.split(",")
    )


def _inside(by: Matrix, written: str | None) -> Matrix | None:
    """Map inside an element with a transform; None where that is broken or beyond all range."""
    if not written:
        return by
    step = transform(written)
    if step is None:
        return None
    with np.errstate(over="ignore", invalid="ignore"):
        inner = combined(by, step)
    return inner if np.abs(inner).max() < _LARGEST else None


def _label(group: etree._Element) -> str:
    """Name of a layer: an editor's label in whatever namespace, else the id."""
    for name, value in group.attrib.items():
        if str(name).endswith("}label"):
            return str(value)
    return str(group.get("id") or "")


def _count_shapes(element: etree._Element) -> int:
    return sum(1 for inner in element.iter(etree.Element) if local_name(inner) in SHAPES)


def _not_metal(here: _Visit, name: str) -> str:
    """Why a shape is no metal, "" if it is."""
    if here.style.get("visibility", "") in {"hidden", "collapse"}:
        return "hidden (visibility)"
    if name == "line" or not is_filled(here.style):
        return "stroke without fill" if is_stroked(here.style) else f"{name} without fill or stroke"
    (a, c, _), (b, d, _) = here.by.tolist()
    if not abs(a * d - b * c) > _SINGULAR * max(abs(a), abs(b), abs(c), abs(d)) ** 2:
        return "shape flattened by its transform"
    return ""


def _css_path(style: Style) -> str | None:
    """Path data from a style sheet: `path("M...")`."""
    value = style.get("d", "")
    if not value.startswith("path("):
        return None
    return value[5:].rstrip(") ").strip(" \"'")


def _closing(segments: list[DrawnSegment]) -> DrawnSegment | None:
    """The straight step from the end of an open subpath to its start, if they differ."""
    first, last = segments[0].curve, segments[-1].curve
    if isinstance(last, Polyline) and last.closed:
        return None
    start = points_at(first, domain(first)[0])
    end = points_at(last, domain(last)[1])
    if np.abs(start - end).max() <= 1e-10 * (1.0 + np.abs(start).max()):
        return None
    return DrawnSegment(Polyline(np.vstack([end, start])), segments[0].layer, segments[0].kind)


def _opened(here: _Visit) -> tuple[Matrix, Viewport] | None:
    """Map and viewport inside a nested `svg` or a `symbol`; None if its size is zero."""
    element, use = here.element, here.use
    sizes = []
    for name, whole in (("width", here.viewport.width), ("height", here.viewport.height)):
        size = length(use.get(name)) if use is not None else None
        size = size or length(element.get(name))
        sizes.append(whole if size is None else size.user_units(whole))
    if min(sizes) <= 0:
        return None
    inner = Viewport(*sizes)
    by = here.by
    if local_name(element) == "svg":
        x, y = length(element.get("x")), length(element.get("y"))
        across = x.user_units(here.viewport.width) if x else 0.0
        down = y.user_units(here.viewport.height) if y else 0.0
        by = combined(by, matrix(1, 0, 0, 1, across, down))
    box = view_box(element.get("viewBox"))
    if box is None:
        return by, inner
    by = combined(by, box.fitted(inner, element.get("preserveAspectRatio")))
    return by, Viewport(box.width, box.height)
