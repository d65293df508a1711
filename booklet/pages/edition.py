"""What can be made of one pattern: a printed booklet on a paper, or a web page.

An edition is data. A further one (large print, a handout, one size alone) is a new value here and
templates of the same name in the theme.
"""

from dataclasses import dataclass

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Paper sizes in millimetres (ISO 216; ANSI/ASME Y14.1)."""

HALVES = {"A4": "A5", "Letter": "Half-Letter"}
"""What a sheet of each paper gives when it is folded once."""

HALF_SIZES = {"A5": (148.0, 210.0), "Half-Letter": (139.7, 215.9)}


@dataclass(frozen=True, slots=True)
class Edition:
    """One form of the booklet.

    `name` chooses the templates. `paper` is "" where nothing is printed. A self-contained edition
    carries its pictures and fonts within itself and asks for nothing else. A `plain` one holds words,
    tables and pictures alone: no boxes to tick and no shades; `is_book` where it stands by itself as a book.
    """

    name: str
    paper: str = ""
    self_contained: bool = False
    type_pt: float = 0.0  # the size of its text, where that is chosen so that it fits; else the theme's own
    with_picture: bool = True
    is_close: bool = False  # in three columns, without boxes for rows that are repeated
    has_form: bool = False
    fit: float = 1.0  # by how much its type is larger than the theme's, so that pages come out full
    picture_fit: float = 1.0  # and how high its drawings may be, as a share of what the theme allows
    picture_fits: tuple[tuple[str, float], ...] = ()  # the same for single drawings, by their address
    most_columns: int = 0  # of a table, beside the heads of its lines; 0 where it may have any number
    based_on: str = ""  # another edition, whose templates and styles hold where this one has none of its own
    plain: bool = False
    is_book: bool = False

    @property
    def paper_mm(self) -> tuple[float, float] | None:
        """Width and height of the sheet in millimetres."""
        return PAPERS.get(self.paper) or HALF_SIZES.get(self.paper)

    def fit_of(self, address: str) -> float | None:
        """How high the drawing may be, where that is not what holds for all of them."""
        return dict(self.picture_fits).get(address)


def print_edition(paper: str, name: str = "print") -> Edition:
    """An edition for a PDF; raises KeyError where the paper is not one of PAPERS."""
    PAPERS[paper]
    return Edition(name, paper)


def folded_edition(paper: str) -> Edition:
    """The booklet on half the paper; raises KeyError where the paper is not one of PAPERS."""
    return Edition("folded", HALVES[paper], based_on="print")


def tester_edition(paper: str) -> Edition:
    """The tester's copy; raises KeyError where the paper is not one of PAPERS."""
    PAPERS[paper]
    return Edition("tester", paper, based_on="print", has_form=True)


WEB_EDITION = Edition("web", self_contained=True)
FRAGMENT_EDITION = Edition("fragment", plain=True)
BOOK_EDITION = Edition("fragment", plain=True, is_book=True)
