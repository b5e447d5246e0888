"""Theme: the light and the dark colour set, and which of them the window wears.

One accent, for what is selected and for the primary act. State is told by shape and word first;
where colour joins in, it is blue against vermilion, a pair that stays apart in the common kinds
of colour blindness (Okabe and Ito, Color Universal Design, 2008; values from memory, status M,
darkened and lightened here until their contrast passed). Contrast is checked by a test: text
4.5 : 1, marks 3 : 1 (W3C, WCAG 2.1, success criteria 1.4.3 and 1.4.11).
"""

from dataclasses import dataclass, fields
from enum import Enum

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QPalette
from PySide6.QtWidgets import QApplication


@dataclass(frozen=True)
class Colours:
    """Every colour of the window by what it means. `#rrggbb`, or `#aarrggbb` where translucent.

    Attributes:
        window: Ground of rail, forms and bars.
        base: Ground of entry fields and lists.
        raised: Ground of buttons.
        text: Words and figures.
        quiet_text: Words that explain; limits and sources.
        line: Hairlines between parts of the window.
        border: Edges of fields, buttons and ticks.
        accent: What is selected; the primary act.
        on_accent: Words on the accent.
        alert: Breaks a rule; always beside a shape and a word.
        ground: The canvas and ribbon behind everything.
        grid: Fine grid lines.
        grid_strong: Every fifth or twelfth grid line, the datum.
        metal: The sheet.
        cut_edge: Its outline.
        axis: The medial axis.
        ring: A hole within the rules; figures and leaders on the canvas.
        hole: What is seen through a hole.
        cap: The visible cap at true size.
        reach: The disc of the edge distance, a halo: accent, translucent.
        limit: Limit lines of the ribbon and their figures.
        clear_width: Fill of the ribbon's strokes.
        ruler: Ground of the rulers.
        ruler_text: Marks and figures of the rulers.
    """

    window: str
    base: str
    raised: str
    text: str
    quiet_text: str
    line: str
    border: str
    accent: str
    on_accent: str
    alert: str
    ground: str
    grid: str
    grid_strong: str
    metal: str
    cut_edge: str
    axis: str
    ring: str
    hole: str
    cap: str
    reach: str
    limit: str
    clear_width: str
    ruler: str
    ruler_text: str

    def colour(self, name: str) -> QColor:
        """One of them as Qt's value."""
        return QColor(getattr(self, name))


LIGHT = Colours(
    window="#f2f3f5",
    base="#ffffff",
    raised="#e6e8ec",
    text="#1a1e24",
    quiet_text="#525a64",
    line="#c6cad1",
    border="#7f8791",
    accent="#0a5f9e",
    on_accent="#ffffff",
    alert="#a83c00",
    ground="#fbfbf9",
    grid="#ecedef",
    grid_strong="#dadde1",
    metal="#d3d8de",
    cut_edge="#272c33",
    axis="#66707c",
    ring="#1a1e24",
    hole="#fbfbf9",
    cap="#5a8a94a0",
    reach="#380a5f9e",
    limit="#5f4b8b",
    clear_width="#c3cad3",
    ruler="#f2f3f5",
    ruler_text="#525a64",
)

DARK = Colours(
    window="#24272c",
    base="#1b1d21",
    raised="#343940",
    text="#eceef1",
    quiet_text="#aab1ba",
    line="#454a52",
    border="#7d8691",
    accent="#5fb2ec",
    on_accent="#0b1620",
    alert="#ff9457",
    ground="#17191c",
    grid="#1f2226",
    grid_strong="#2c3036",
    metal="#454c55",
    cut_edge="#cfd5dc",
    axis="#9aa4af",
    ring="#f4f6f8",
    hole="#17191c",
    cap="#5ab4bfcc",
    reach="#405fb2ec",
    limit="#c3b1f0",
    clear_width="#525b66",
    ruler="#24272c",
    ruler_text="#aab1ba",
)


_FUSION_DARKER = 140
"""Per cent by which Fusion darkens the window colour for edges."""


class Choice(Enum):
    """What the person asked for."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


class Theme(QObject):
    """The colour set in use; one of it is made at start and handed to whatever paints.

    Attributes:
        changed: Another colour set is in use; repaint.
    """

    changed = Signal()

    def __init__(self, app: QApplication, choice: Choice = Choice.SYSTEM) -> None:
        super().__init__(app)
        self._app = app
        self._choice = choice
        app.setStyle("Fusion")
        app.styleHints().colorSchemeChanged.connect(self._system_changed)
        self._wear()

    @property
    def choice(self) -> Choice:
        """What the person asked for."""
        return self._choice

    @property
    def dark(self) -> bool:
        """Whether the dark set is in use."""
        if self._choice is Choice.SYSTEM:
            return self._app.styleHints().colorScheme() is Qt.ColorScheme.Dark
        return self._choice is Choice.DARK

    @property
    def colours(self) -> Colours:
        """The set in use."""
        return DARK if self.dark else LIGHT

    def choose(self, choice: Choice) -> None:
        """Follow the system, or stay light or dark."""
        self._choice = choice
        schemes = {Choice.LIGHT: Qt.ColorScheme.Light, Choice.DARK: Qt.ColorScheme.Dark}
        self._app.styleHints().setColorScheme(schemes.get(choice, Qt.ColorScheme.Unknown))
        self._wear()

    def _system_changed(self) -> None:
        self._wear()

    def _wear(self) -> None:
        self._app.setPalette(palette(self.colours))
        self.changed.emit()


def palette(colours: Colours) -> QPalette:
    """Qt's palette of a colour set: shipped, since a bare X server offers no dark one."""
    made = QPalette()
    role = QPalette.ColorRole
    for target, name in (
        (role.Window, "window"),
        (role.WindowText, "text"),
        (role.Base, "base"),
        (role.AlternateBase, "window"),
        (role.Text, "text"),
        (role.PlaceholderText, "quiet_text"),
        (role.Button, "raised"),
        (role.ButtonText, "text"),
        (role.BrightText, "alert"),
        (role.Highlight, "accent"),
        (role.HighlightedText, "on_accent"),
        (role.Accent, "accent"),
        (role.Link, "accent"),
        (role.LinkVisited, "accent"),
        (role.ToolTipBase, "base"),
        (role.ToolTipText, "text"),
        (role.Mid, "line"),
        (role.Dark, "border"),
    ):
        made.setColor(target, colours.colour(name))
    for target in (role.WindowText, role.Text, role.ButtonText):
        faded = colours.colour("quiet_text")
        faded.setAlphaF(0.6)
        made.setColor(QPalette.ColorGroup.Disabled, target, faded)
    return made


def contrast(first: str, second: str) -> float:
    """Contrast ratio of two opaque colours, 1 to 21 (WCAG 2.1, definition of contrast ratio)."""
    lighter, darker = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def with_seen_edges(common: QPalette) -> QPalette:
    """A palette for the ground of a form, by which its fields get edges that can be seen.

    Fusion draws every edge in a darkened window colour, which a dark window swallows. Inside a
    form nothing else is painted in the window colour, so there it is set to what darkens to the
    border, which the common palette holds as `Dark`.
    """
    made = QPalette()
    border = common.color(QPalette.ColorRole.Dark)
    made.setColor(QPalette.ColorRole.Window, border.lighter(_FUSION_DARKER))
    return made


def names() -> tuple[str, ...]:
    """Names of all colours."""
    return tuple(field.name for field in fields(Colours))


def with_even_figures(font: QFont) -> QFont:
    """The font with figures of one width, so that a live number does not dance."""
    even = QFont(font)
    even.setFeature(QFont.Tag("tnum"), 1)
    return even


def _luminance(colour: str) -> float:
    value = QColor(colour)
    parts = (value.redF(), value.greenF(), value.blueF())
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
