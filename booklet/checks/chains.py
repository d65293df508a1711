"""Chains at the start of rows: of the usual height for the stitch, and the same in rows that begin alike."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ChainRule, ParsedPart, ParsedPattern, Row
from booklet.model.tree import SPACE, Chain, Join, Work
from booklet.model.work import WorkedPattern
from booklet.rows.walking import walk_steps
from booklet.working.beginnings import first_placed, first_work, split_opening
from booklet.working.kinds import height_of, kind_of

SPACES = ("sp", "ch-sp", "corner")
FEWEST_ALIKE = 3  # rows that must begin alike before one that does not is worth a word


def check_opening_chains(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A chain that is declared plainly and stands out: by its height, or among rows that begin the same."""
    for part in parsed.parts:
        rows = [(row, *found) for row in part.rows if (found := _opening_of(row))]
        told = set()
        for row, chain, stitch in rows:
            stitch = chain.stands_for if chain.counts and chain.stands_for else stitch
            height = height_of(stitch)
            height = 0 if stitch == SPACE else height + (chain.then if chain.counts else 0)
            declared = chain.counts is not None and abs(chain.count[0] - height) > 1
            if height and not chain.drawn and (declared or _is_too_tall(row, chain, height)):
                told.add(id(row))
                yield messages.chain_height(row.label.text or "this row", chain.count[0], height, stitch, chain.span)
        others = [entry for entry in rows if id(entry[0]) not in told]
        odd = list(_tell_odd_ones(part, others))
        yield from odd
        if not odd:
            yield from _tell_against_rules(parsed.chain_rules, others)


def check_no_chains(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """ "Ch 0" is no chain. A number of one size may be 0 ("0 (2, 4)"), and a wrong formula is told itself."""
    for part in parsed.parts:
        for row in part.rows:
            for step in walk_steps(row.steps):
                if isinstance(step, Chain) and step.count == (0,) and "{" not in step.span.text:
                    yield messages.chain_of_none(row.label.text or "this row", step.span)


def check_joins(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A round joined "in top of beg ch-3" begins with ch 3."""
    for part in parsed.parts:
        for row in part.rows:
            chain = split_opening(row.steps).chain
            for step in row.steps:
                if isinstance(step, Join) and step.where.how == "top" and chain is not None and len(chain.count) == 1:
                    named = step.where.what[0].chains
                    if named and named not in (chain.count[0], _find_hook_chain(row)):
                        yield messages.chain_named_differs(
                            row.label.text or "this round", named, chain.count[0], step.span, chain.span
                        )


def _find_hook_chain(row: Row) -> int:
    """ "Ch 4, 11 dc in 4th ch from hook": the chains beside the one worked into, 0 where there is none"""
    placed = first_placed(split_opening(row.steps).rest)
    return placed.where.nth - 1 if isinstance(placed, Work) and placed.where.from_hook else 0


def _is_too_tall(row: Row, chain: Chain, height: int) -> bool:
    """A turning chain of which nothing is said, before a stitch in the first place: "ch 8, turn, sc in first st"."""
    placed = first_placed(split_opening(row.steps).rest)
    begins = (
        isinstance(placed, Work) and placed.where.how == "first" and placed.where.what[0].kind not in (*SPACES, "ch")
    )
    return chain.counts is None and begins and chain.count[0] > height + 2


def _opening_of(row: Row) -> tuple[Chain, str] | None:
    """The opening chain and the plain stitch after it, where the chain stands for that stitch or for nothing."""
    opening = split_opening(row.steps)
    work = first_work(opening.rest)
    if (
        opening.chain is None
        or work is None
        or len(opening.chain.count) > 1
        or work.where.from_hook
        or row.label.kind == "foundation"
    ):
        return None
    return opening.chain, kind_of(work.stitch).base


def _is_mesh(row: Row, beyond: int) -> bool:
    """Does the row make spaces of as many chains as its first chain has beyond the usual: "ch 4, *ch 1, sk 1, dc …"?"""
    return any(isinstance(step, Chain) and step.count == (beyond,) for step in walk_steps(row.steps))


def _tell_against_rules(rules: Sequence[ChainRule], rows: Sequence[tuple[Row, Chain, str]]) -> Iterator[Finding]:
    """A chain of another number than the one that the pattern says counts as this stitch."""
    for row, chain, stitch in rows:
        named = [rule for rule in rules if rule.counts and rule.chains and rule.stitch == stitch]
        if not named or chain.counts is not None or chain.then or any(r.chains == chain.count[0] for r in rules):
            continue
        usual = named[0].chains
        if not _is_mesh(row, chain.count[0] - usual):
            label = row.label.text or "this row"
            yield messages.chain_differs(label, chain.count[0], usual, stitch, chain.span, named[0].span)


def _tell_odd_ones(part: ParsedPart, rows: list[tuple[Row, Chain, str]]) -> Iterator[Finding]:
    groups: dict[tuple[str, bool], list[tuple[Row, Chain]]] = defaultdict(list)
    for row, chain, stitch in rows:
        if not chain.then:
            groups[(stitch, chain.counts is True)].append((row, chain))
    for (stitch, _), members in groups.items():
        usual, often = Counter(chain.count[0] for _, chain in members).most_common(1)[0]
        if often < FEWEST_ALIKE or often < len(members) - 1:
            continue
        first = next(chain for _, chain in members if chain.count[0] == usual)
        for row, chain in members:
            if chain.count[0] != usual and not _is_mesh(row, chain.count[0] - usual):
                yield messages.chain_differs(
                    row.label.text or "this row", chain.count[0], usual, stitch, chain.span, first.span
                )
