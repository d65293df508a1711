"""A chain that is a stitch and a space, "ch 5 (counts as dc and ch 2)": its parts add up, and later steps meet them."""

from collections.abc import Iterator
from dataclasses import dataclass

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern, Row
from booklet.model.tree import Chain, Join, RepeatRows, Where, Work
from booklet.model.work import WorkedPattern
from booklet.rows.walking import walk_steps
from booklet.source import Span
from booklet.working.beginnings import is_ring, split_opening
from booklet.working.kinds import height_of

LOW = ("hdc",)  # ch 2 by the table, and ch 3 by many designers


@dataclass(frozen=True, slots=True)
class Parts:
    """`chains` at the start of a row: a `stitch` of `height`, and `then` more; `then` is 0 where nothing is said."""

    chains: int
    stitch: str
    height: int
    then: int
    span: Span

    @property
    def top(self) -> int:
        """Which of its chains is the top of the stitch; 0 where that is not known."""
        return self.height if self.then and self.chains == self.height + self.then else 0


def check_chain_parts(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A chain whose parts do not add up, and steps into a chain of it that is not there, or is part of its space."""
    for part in parsed.parts:
        before: Parts | None = None
        for row in part.rows:
            parts = _parts_of(row)
            if parts is not None and parts.then and 0 < parts.chains - parts.height - parts.then <= 2:
                yield messages.parts_differ(
                    _name(row), parts.chains, parts.stitch, parts.height, parts.then, parts.span
                )
            for where, span, of in _list_tops(row, parts, before):
                if where.nth > of.chains or (of.top and where.nth != of.top):
                    yield messages.chain_part_differs(_name(row), where.nth, of.chains, of.top, span, of.span)
            before = None if any(isinstance(step, RepeatRows) for step in row.steps) else parts


def _name(row: Row) -> str:
    return row.label.text or "this row"


def _parts_of(row: Row) -> Parts | None:
    """The chain at the start of a row, where it is one number for all sizes and is not said to count as nothing."""
    said = (step for step in row.steps if isinstance(step, Chain) and step.counts)  # behind a ring of chains, or first
    chain = next(said, None if is_ring(row.steps) else split_opening(row.steps).chain)
    if chain is None or len(chain.count) > 1 or chain.counts is False or row.label.kind == "foundation":
        return None
    height = height_of(chain.stands_for) if chain.stands_for else 0
    known = height > 0 and bool(chain.counts)
    if known and chain.stands_for in LOW and chain.count[0] == height + chain.then + 1:
        height += 1
    return Parts(chain.count[0], chain.stands_for, height, chain.then if known else 0, chain.span)


def _list_tops(row: Row, own: Parts | None, before: Parts | None) -> Iterator[tuple[Where, Span, Parts]]:
    """The steps into "3rd ch of beg ch", with the chain that is meant: a join goes into the round's own."""
    chains = [step for step in row.steps if isinstance(step, Chain)]
    for step in walk_steps(row.steps):
        if not isinstance(step, Join | Work) or step.where.how != "top" or not step.where.nth:
            continue
        joins = isinstance(step, Join) or step.stitch == "sl st"
        of = own if joins else before
        named = step.where.what[0].chains
        if of is not None and chains and named in (0, of.chains):
            yield step.where, step.span, of
