"""How the graphs look: the design key by letter, the colours of each theme, the sizes of each drawing."""

from collections.abc import Sequence
from dataclasses import dataclass

SANS = '-apple-system, "Segoe UI", Roboto, "Helvetica Neue", Arial, "Liberation Sans", system-ui, sans-serif'
LETTERS = "ABCDEF"
BOLD = 700
PLAIN = 400
AFTER_SLIP = 0.55
"""Weight of a line after its curve was interrupted, as a share of the full one."""


@dataclass(frozen=True, kw_only=True)
class Theme:
    """The colours of one theme; `lines` and `tags` in the order of the letters A to F."""

    sheet: str
    ink: str
    edge: str
    hair: str
    tag_letter: str
    lines: tuple[str, ...]
    tags: tuple[str, ...]


THEMES = {
    "light": Theme(
        sheet="#FFFFFF",
        ink="#15181B",
        edge="#6F777D",
        hair="#D4D7D5",
        tag_letter="#FFFFFF",
        lines=("#000000", "#0072B2", "#009E73", "#D55E00", "#CC79A7", "#B57A00"),
        tags=("#000000", "#0072B2", "#00785A", "#B34A00", "#A34A7D", "#875B00"),
    ),
    "dark": Theme(
        sheet="#1B1F22",
        ink="#ECEEEC",
        edge="#8B949A",
        hair="#353B40",
        tag_letter="#14171A",
        lines=("#FFFFFF", "#56B4E9", "#009E73", "#D55E00", "#CC79A7", "#E69F00"),
        tags=("#FFFFFF", "#56B4E9", "#12B386", "#F07A24", "#D892B9", "#E69F00"),
    ),
    "projector": Theme(
        sheet="#FFFFFF",
        ink="#000000",
        edge="#4A5157",
        hair="#C9CDCB",
        tag_letter="#FFFFFF",
        lines=("#000000", "#0065A6", "#007A5A", "#B84C00", "#A8427E", "#8A5E00"),
        tags=("#000000", "#0065A6", "#007A5A", "#B84C00", "#A8427E", "#8A5E00"),
    ),
}

MARKERS = ("circle", "square", "hourglass", "star", "triangle-down", "line-ew-open")
MARKER_SIZES = (9.5, 8.7, 11.5, 9.8, 11.0, 10.0)
"""Of each marker, in px on the squarish drawing: chosen so that all six weigh the same to the eye."""

DASHES: tuple[tuple[float, ...], ...] = ((), (15, 6), (16, 5, 3, 5), (0.1, 7), (8, 5), (16, 5, 3, 5, 3, 5))
DASHES_LIFTED: tuple[tuple[float, ...], ...] = ((), (26, 11), (28, 9, 5, 9), (0.1, 13), (15, 9), (28, 9, 5, 9, 5, 9))
"""In px on the squarish drawing. D's are dots: the sheet of the graph gives its lines round ends."""


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """One drawing of the class graph, in px: everything but the text's width follows from it."""

    width: float
    height: float
    scale: float
    text: float
    left: float
    right: float
    top: float
    headroom: float
    bottom: float


DRAWINGS = {
    "squarish": Drawing(width=1024, height=708, scale=1, text=24, left=58, right=26, top=10, headroom=17.3, bottom=74),
    "wide": Drawing(width=1920, height=998, scale=1.5, text=34, left=92, right=44, top=14, headroom=24.4, bottom=106),
}

CURVE = 3.2
LIFTED = 7.0
CASING = 6.0
BAR = 4.5
BAR_LIFTED = 6.5
HAIR = 1.2
"""Stroke widths in px on the squarish drawing; a casing adds its own to the line's."""


@dataclass(frozen=True, kw_only=True)
class DesignLook:
    """How one design is drawn: colour, marker, dash and letter, always all four."""

    letter: str
    line: str
    tag: str
    marker: str
    marker_size: float
    dash: tuple[float, ...]
    dash_lifted: tuple[float, ...]

    def dash_text(self, scale: float, *, lifted: bool = False) -> str:
        """The dash as plotly takes it: px with commas, or "solid"."""
        dash = self.dash_lifted if lifted else self.dash
        return ",".join(f"{length * scale:g}px" for length in dash) or "solid"


def design_look(letter: str, theme: Theme) -> DesignLook:
    """How the design of that letter is drawn; after F the six come round again: G looks like A but for its letter."""
    place = (ord(letter[:1].upper() or "A") - ord("A")) % len(LETTERS)
    return DesignLook(
        letter=letter,
        line=theme.lines[place],
        tag=theme.tags[place],
        marker=MARKERS[place],
        marker_size=MARKER_SIZES[place],
        dash=DASHES[place],
        dash_lifted=DASHES_LIFTED[place],
    )


def design_key(letters: Sequence[str], theme: Theme) -> dict[str, DesignLook]:
    """The look of each design, by letter."""
    return {letter: design_look(letter, theme) for letter in letters}
