"""Which edges of the pieces are sewn to which, and where a piece is folded, as the author states it."""

from dataclasses import dataclass

from booklet.source import Span

LENGTHWISE, CROSSWISE, AT_ROW = "lengthwise", "crosswise", "at row"


@dataclass(frozen=True, slots=True)
class SeamEdge:
    """An edge of a piece: the piece's title as typed, and the edge by its name in `terms/edges.yaml`.

    An empty edge is the piece itself, which something is sewn onto; an empty piece the only one there is.
    """

    piece: str
    edge: str


@dataclass(frozen=True, slots=True)
class Seam:
    """Edges that are sewn together; one alone is sewn to itself, such as the two sides of a sleeve."""

    name: str
    edges: tuple[SeamEdge, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Fold:
    """Where a piece is folded: in half along or across its rows, or at the upper edge of row `row`, from its start."""

    piece: str
    way: str  # LENGTHWISE, CROSSWISE or AT_ROW
    row: int
    span: Span
