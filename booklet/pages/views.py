"""What templates are given: texts and tables ready to print, in the order of the booklet.

Nothing in here is computed further; every number was formatted when the view was made. Strings are
plain text and escaped by the template; Markup is HTML that was made safe.
"""

from dataclasses import dataclass

from markupsafe import Markup

from booklet.model.style import PLAIN, Style


@dataclass(frozen=True, slots=True)
class Fact:
    """A label with its value, such as `Level: easy`."""

    label: str
    value: str | Markup
    only: str = ""  # classes of a fact that some sizes do not need, see `size_marks`


@dataclass(frozen=True, slots=True)
class Cell:
    """A table cell of one or more lines; the first is the figure, the others explain it."""

    lines: tuple[str | Markup, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """A row of a table. `letter` is the letter of the colour, or of the drawing's dimension, that it is about."""

    head: str | Markup
    cells: tuple[Cell, ...]
    letter: str = ""
    is_colour: bool = False
    only: str = ""  # classes of a line that is about one size, see `size_marks`


@dataclass(frozen=True, slots=True)
class Table:
    """A table whose first column holds row headings. Every line has as many cells as `columns`."""

    caption: str | Markup
    corner: str
    columns: tuple[str, ...]
    lines: tuple[Line, ...]
    form: str = "figures"  # "figures" (many short numbers), "words", or "list": each line a paragraph
    sizes_in: str = ""  # "columns" or "lines" where each stands for one size, in order, and one can be asked for
    may_close: bool = False  # on a screen it is opened by those who want it


@dataclass(frozen=True, slots=True)
class Showing:
    """Which sizes a picture is for, as the classes of `size_marks`; all empty where it is for every size.

    A picture that stays although it is of one size alone has a remark for the others, and its table goes.
    """

    picture: str = ""
    table: str = ""
    remark: str = ""
    size: str = ""  # that the remark names


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture with its caption, and the same facts as a table. `src` is an address in the booklet."""

    src: str
    alt: str
    caption: str
    width_mm: float
    height_mm: float
    table: Table | None = None
    form: str = ""  # "beside" where picture and table stand side by side on paper
    told_at: str = ""  # anchor of the section whose table says the same
    is_told_once: bool = False  # where that is too long to print twice
    narrow: "Figure | None" = None  # what a narrow screen shows in its place
    showing: Showing = Showing()
    number: int = 0  # among the figures of its section that are shown together

    @property
    def width_px(self) -> int:
        """Width in CSS pixels, 96 to the inch."""
        return max(1, round(self.width_mm / 25.4 * 96))

    @property
    def height_px(self) -> int:
        """Height in CSS pixels."""
        return max(1, round(self.height_mm / 25.4 * 96))


@dataclass(frozen=True, slots=True)
class Entry:
    """A term or subject with what is said of it, and pictures of it side by side."""

    heading: str | Markup
    text: str | Markup
    source: str = ""
    form: str = ""
    figures: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True)
class Swatch:
    """A line of the colour legend: letter, name and a drawn patch that differs in greyscale too."""

    letter: str
    name: str
    patch: Figure | None
    only: str = ""  # classes of a symbol that some sizes do not need, see `size_marks`


@dataclass(frozen=True, slots=True)
class TickGroup:
    """Boxes to tick, a name each. `sizes` are the sizes that end with this group; "" where all do.

    `only` are the classes of boxes that not every size needs, see `size_marks`.
    """

    names: tuple[str, ...]
    sizes: str = ""
    only: str = ""


@dataclass(frozen=True, slots=True)
class RowView:
    """One row as printed. `groups` hold a box for each row that the line stands for.

    `after` is what is done when the row is complete, such as `Fasten off.` `only` are the classes of a
    row that not every size works, see `size_marks`. `repeats` holds for each repeat of the row how often
    it is worked, one number or one a size; "" where it is worked as often as it fits.
    """

    anchor: str
    label: str | Markup
    body: Markup
    count: str | Markup
    groups: tuple[TickGroup, ...] = ()
    after: Markup = Markup()
    start: int = -1  # of its words in the source
    line: int = 0  # of the source
    only: str = ""
    repeats: tuple[str, ...] = ()
    name: str = ""
    on_own_line: bool = False  # the count

    @property
    def ticks(self) -> tuple[str, ...]:
        """The names of all boxes, whatever the size."""
        return tuple(name for group in self.groups for name in group.names)

    @property
    def text(self) -> str:
        """The row as one line of plain text."""
        label, body, count, after = (_strip(part) for part in (self.label, self.body, self.count, self.after))
        words = " ".join(filter(None, (body, count, after)))
        return f"{label}: {words}" if label else words


def _strip(words: str | Markup) -> str:
    return words.striptags() if isinstance(words, Markup) else words


@dataclass(frozen=True, slots=True)
class Passage:
    """A row, a stretch of prose between rows, or pictures side by side; the others are empty."""

    row: RowView | None
    prose: Markup | None
    figures: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece under its heading. `level` is the HTML heading level."""

    title: str
    anchor: str
    level: int
    make: str
    passages: tuple[Passage, ...]
    sizes: str = ""  # names of the sizes as a list, where the rows hold lists of numbers
    is_of_parts: bool = False  # where those rows stand under smaller headings alone


@dataclass(frozen=True, slots=True)
class Section:
    """A section of the booklet; `key` names the template that lays it out.

    `lead` are the words that it begins with. Where pictures stand among them, `passages` are the same words
    with the pictures in their places.
    """

    key: str
    title: str
    anchor: str
    lead: Markup = Markup()
    passages: tuple[Passage, ...] = ()
    facts: tuple[Fact, ...] = ()
    tables: tuple[Table, ...] = ()
    entries: tuple[Entry, ...] = ()
    figures: tuple[Figure, ...] = ()
    swatches: tuple[Swatch, ...] = ()
    pieces: tuple[Piece, ...] = ()
    notes: tuple[str | Markup, ...] = ()


@dataclass(frozen=True, slots=True)
class ContentsLine:
    """A section in the list of contents, or a piece (depth 1) of the section before it."""

    title: str
    anchor: str
    depth: int = 0


@dataclass(frozen=True, slots=True)
class ColourPatch:
    """A colour's letter, its shade and the ink that can be read on it."""

    letter: str
    name: str
    shade: str
    ink: str


@dataclass(frozen=True, slots=True)
class Cover:
    """The front: what is made, by whom, in which sizes."""

    title: str
    summary: Markup
    picture: Figure | None
    facts: tuple[Fact, ...]
    designer: str
    publisher: str


@dataclass(frozen=True, slots=True)
class HandoutView:
    """What a group's sheet says beside the pattern; empty where the group has said nothing."""

    facts: tuple[Fact, ...] = ()
    not_accepted: tuple[str, ...] = ()
    copying: Markup = Markup()
    per_item: Table | None = None
    measures: tuple[Fact, ...] = ()  # of each piece, where a sheet of one size has no schematic to pin out by


@dataclass(frozen=True, slots=True)
class BookletView:
    """The whole booklet as its templates see it."""

    title: str
    key: str  # the same for every edition of this version of the pattern, and for no other pattern
    language: str
    description: str
    designer: str
    publisher: str
    version: str
    date: str  # as written
    iso_date: str  # "" where `date` is not a calendar date
    terms: str
    edition_line: str
    cover: Cover
    logo: Figure | None
    sections: tuple[Section, ...]
    contents: tuple[ContentsLine, ...]
    patches: tuple[ColourPatch, ...]
    sizes: int
    size_order: str  # the names of the sizes in the form of a list, "" where they are too long for a running head
    handout: HandoutView
    start: str  # anchor of the first piece to work, "" where there is none
    only_size: str = ""  # the one size that is shown of several
    style: Style = PLAIN
    size_names: tuple[str, ...] = ()
    measure_names: tuple[str, ...] = ()  # of the finished measures
    is_blocked: bool = True  # where its gauges say so, or it has none
    rows_word: str = "row"  # "round" where all of it is worked in rounds
    has_steps: bool = False  # pictures in the text, beside what they show
    error_lines: tuple[int, ...] = tuple(range(1, 11))  # numbers of the lines in a tester's report
