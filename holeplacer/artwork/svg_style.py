"""SVG styles: what the cascade makes of an element: fill, visibility, what is not read.

Presentation attributes, style sheets and `style` attributes, in the order of the cascade with
`!important`. Selectors by type, class and id, alone, combined, and as descendant or child; rules
with other selectors are named, not guessed at.

Source: CSS Cascading and Inheritance 4, section 6; Selectors 3, sections 5, 6 and 8. Status R.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

import tinycss2
from lxml import etree

from holeplacer.artwork.svg_document import local_name
from holeplacer.errors import ArtworkError

INHERITED = {
    "fill", "fill-rule", "fill-opacity", "stroke", "visibility",
    "marker", "marker-start", "marker-mid", "marker-end",
}  # fmt: skip
OWN = {"opacity", "display", "clip-path", "mask", "filter", "transform", "d"}
PROPERTIES = INHERITED | OWN
"""All that bears on what is read."""

_PLAIN_STYLE = re.compile(r"[^\"'\\{}/@]*$")
_IMPORTANT = re.compile(r"\s*!\s*important\s*$", re.IGNORECASE)
_SCREEN = {"", "all", "screen", "print"}

LONGEST_SHEET = 1_000_000
MOST_MATCHES = 2_000_000

Declared = Mapping[str, str]
"""Value by property, as the cascade leaves it for one element, before inheritance."""


@dataclass(frozen=True)
class _Compound:
    """A selector without combinators."""

    type: str = ""
    id: str = ""
    classes: frozenset[str] = frozenset()

    @property
    def weight(self) -> tuple[int, int, int]:
        return (bool(self.id), len(self.classes), bool(self.type))

    def matches(self, element: etree._Element) -> bool:
        if self.type and self.type != local_name(element):
            return False
        if self.id and self.id != element.get("id"):
            return False
        return not self.classes or self.classes <= set((element.get("class") or "").split())


@dataclass(frozen=True)
class _Selector:
    """Compounds from the outermost to the element itself; `child[i]` joins i and i + 1."""

    compounds: tuple[_Compound, ...]
    child: tuple[bool, ...]

    @property
    def weight(self) -> tuple[int, ...]:
        weights = [compound.weight for compound in self.compounds]
        return tuple(map(sum, zip(*weights, strict=True)))

    def matches(self, element: etree._Element) -> bool:
        """Match the element, then walk its ancestors once, keeping every joint still possible."""
        if not self.compounds[-1].matches(element):
            return False
        open_joints = {len(self.child) - 1} if self.child else set()
        for ancestor in element.iterancestors() if open_joints else ():
            fitting = {joint for joint in open_joints if self.compounds[joint].matches(ancestor)}
            if 0 in fitting:
                return True
            open_joints = {joint for joint in open_joints if not self.child[joint]}
            open_joints |= {joint - 1 for joint in fitting}
            if not open_joints:
                return False
        return not self.child


@dataclass(frozen=True)
class _Rule:
    selector: _Selector
    order: int
    normal: dict[str, str]
    important: dict[str, str]


@dataclass
class StyleSheet:
    """All style rules of a document.

    Attributes:
        unread: Text of rules that were not understood, and of imports that were not fetched.
    """

    unread: list[str] = field(default_factory=list)
    _rules: dict[str, list[_Rule]] = field(default_factory=dict)
    _count: int = 0
    _spent: int = 0

    @staticmethod
    def of(root: etree._Element) -> "StyleSheet":
        """The document's `style` elements, in order."""
        sheet = StyleSheet()
        for element in root.iter(etree.Element):
            if local_name(element) == "style" and _is_css(element):
                sheet.add("".join(element.itertext()))
        return sheet

    def add(self, text: str) -> None:
        """Append the rules of a sheet.

        Raises:
            ArtworkError: It is far longer than any that styles a drawing.
        """
        if len(text) > LONGEST_SHEET:
            raise ArtworkError(
                f"its style sheet is longer than {LONGEST_SHEET // 1000} thousand letters",
                remedy="export the drawing without styles",
            )
        for rule in tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True):
            try:
                self._add_rule(rule)
            except RecursionError:
                self.unread.append("a rule with brackets nested too deep")

    def declared(self, element: etree._Element) -> Declared:
        """What the cascade gives an element."""
        result = {name: value for name in PROPERTIES if (value := element.get(name)) is not None}
        rules = self._matching(element) if self._rules else []
        for rule in rules:
            result |= rule.normal
        style = element.get("style")
        normal, important = _declarations(style) if style else ({}, {})
        result |= normal
        for rule in rules:
            result |= rule.important
        return result | important

    def _matching(self, element: etree._Element) -> list[_Rule]:
        """Rules for an element, the strongest last."""
        names = ("#" + (element.get("id") or ""), local_name(element), "*")
        classes = ["." + name for name in (element.get("class") or "").split()]
        candidates = [
            rule for name in (*names, *dict.fromkeys(classes)) for rule in self._rules.get(name, ())
        ]
        self._spend(element, candidates)
        found = [rule for rule in candidates if rule.selector.matches(element)]
        return sorted(found, key=lambda rule: (rule.selector.weight, rule.order))

    def _spend(self, element: etree._Element, candidates: list[_Rule]) -> None:
        """Bound the work that many rules on many deep elements would make."""
        climbing = sum(1 for rule in candidates if rule.selector.child)
        depth = sum(1 for _ in element.iterancestors()) if climbing else 0
        self._spent += len(candidates) + climbing * depth
        if self._spent > MOST_MATCHES:
            raise ArtworkError(
                "its style sheet holds too many rules for its elements",
                remedy="export the drawing without styles",
            )

    def _add_rule(self, rule: Any) -> None:
        if rule.type == "at-rule":
            self._add_at_rule(rule)
        elif rule.type == "qualified-rule":
            normal, important = _of_block(rule.content)
            if not normal and not important:
                return
            selectors = list(_selectors(rule.prelude))
            for selector in selectors:
                if selector is None:
                    self.unread.append(tinycss2.serialize(rule.prelude).strip()[:60])
                    continue
                self._count += 1
                key = _key(selector.compounds[-1])
                self._rules.setdefault(key, []).append(
                    _Rule(selector, self._count, normal, important)
                )
        elif rule.type == "error":
            self.unread.append(rule.message[:60])

    def _add_at_rule(self, rule: Any) -> None:
        media = tinycss2.serialize(rule.prelude).strip().lower()
        if rule.lower_at_keyword == "media" and media in _SCREEN and rule.content:
            for inner in tinycss2.parse_rule_list(
                rule.content, skip_comments=True, skip_whitespace=True
            ):
                self._add_rule(inner)
        elif rule.lower_at_keyword in {"import", "media"}:
            self.unread.append(f"@{rule.lower_at_keyword} {media}"[:60])


def _is_css(element: etree._Element) -> bool:
    return (element.get("type") or "text/css").strip().lower() == "text/css"


def _key(compound: _Compound) -> str:
    """What a rule is looked up by."""
    if compound.id:
        return "#" + compound.id
    if compound.classes:
        return "." + min(compound.classes)
    return compound.type or "*"


@lru_cache(maxsize=4096)
def _declarations(style: str) -> tuple[dict[str, str], dict[str, str]]:
    """Normal and important declarations of a `style` attribute."""
    if not _PLAIN_STYLE.match(style):
        return _of_block(tinycss2.parse_component_value_list(style))
    normal: dict[str, str] = {}
    important: dict[str, str] = {}
    for part in style.split(";"):
        name, _, value = part.partition(":")
        name = name.strip().lower()
        if name in PROPERTIES and value.strip():
            plain = _IMPORTANT.sub("", value)
            (normal if plain == value else important)[name] = plain.strip()
    return normal, important


def _of_block(content: Any) -> tuple[dict[str, str], dict[str, str]]:
    normal: dict[str, str] = {}
    important: dict[str, str] = {}
    for item in tinycss2.parse_blocks_contents(content, skip_comments=True, skip_whitespace=True):
        if item.type == "declaration" and item.lower_name in PROPERTIES:
            value = tinycss2.serialize(item.value).strip()
            (important if item.important else normal)[item.lower_name] = value
    return normal, important


def _selectors(prelude: Iterable[Any]) -> Iterator[_Selector | None]:
    """Selectors of a comma list, None for each that is not understood."""
    part: list[Any] = []
    for token in (*prelude, None):
        if token is None or (token.type == "literal" and token.value == ","):
            yield _selector(part)
            part = []
        elif token.type != "comment":
            part.append(token)


def _selector(parts: list[Any]) -> _Selector | None:
    compounds, child = [_Compound()], []
    empty, combinator, before = True, "", ""
    for part in parts:
        sign = part.value if part.type == "literal" else ""
        if part.type == "whitespace" or sign == ">":
            combinator = ">" if ">" in (sign, combinator) else " "
            continue
        if combinator and not empty:
            child.append(combinator == ">")
            compounds.append(_Compound())
        elif combinator == ">":
            return None
        grown = _grown(compounds[-1], part, "" if combinator else before)
        if grown is None:
            return None
        compounds[-1] = grown
        empty, combinator, before = False, "", sign
    return None if empty or combinator == ">" else _Selector(tuple(compounds), tuple(child))


def _grown(compound: _Compound, part: Any, before: str) -> _Compound | None:
    """A compound with one more part, None if the part is none of type, class, id and `*`."""
    if before == ".":
        classes = compound.classes | {part.value}
        return _Compound(compound.type, compound.id, classes) if part.type == "ident" else None
    if part.type == "literal" and (
        part.value == "." or (part.value == "*" and compound == _Compound())
    ):
        return compound
    if part.type == "ident" and compound == _Compound():
        return _Compound(part.value)
    if part.type == "hash":
        return _Compound(compound.type, part.value, compound.classes)
    return None
