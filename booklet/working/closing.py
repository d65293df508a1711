"""Where a row ends or turns: what it leaves, what its last chains stand over, and where it goes on.

That is the other side of the foundation, or back along a chain of its own.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.model.tree import Group, Leave, Node, Repeat, Where, Work, at_size
from booklet.model.work import Site
from booklet.working.hand import Approach
from booklet.working.joining import Joiner
from booklet.working.problems import Problem
from booklet.working.walk import Walk

ROUND_AN_END = 3  # stitches in one chain that take an oval round its end


@dataclass(slots=True)
class Closer(Joiner):
    """A row in hand that can come to its end."""

    def works_along_chain(self, step: Work, following: Sequence[Node]) -> bool:
        """ "Ch 5, sc in 2nd ch from hook and in next 3 ch", in the middle of a row: is it worked along that chain?

        Into the chain that closes it a stitch makes a picot, and so does one that no other in the chain follows.
        """
        chain = self.making.loops[-1] if self.making.loops else None
        if chain is None or chain.kind != "ch" or chain.hidden or chain.opening or self.inside is not None:
            return False
        if self.aside is not None or step.where.how != "nth" or chain.chains <= step.where.nth:
            return False
        placed = next((node for node in following if isinstance(node, Work | Group | Repeat)), None)
        goes_on = isinstance(placed, Work) and placed.where.what[0].kind == "ch" and not placed.where.from_hook
        return goes_on or (step.where.nth == 2 and step.stitch != "sl st")

    def start_along_chain(self, where: Where) -> Where:
        """Goes back along the chain made last, from the nth from the hook: a place in it is then the next one."""
        chain = self.making.loops[-1]
        chain.hidden = True
        sites = tuple(Site("ch", chain.colour) for _ in range(chain.chains))
        self.aside, self.walk = self.walk, Walk(sites, tuple(range(len(sites))), backwards=False)
        self.walk.at = where.nth - 1
        return replace(where, how="next", nth=0, from_hook=False)

    def _leave(self, step: Leave) -> None:
        self.leaves = True
        left = self.walk.countable(self.walk.at, len(self.walk.order))
        if step.count and left != at_size(step.count, self.size):
            self.fail(Problem("unworked", step.span, left, at_size(step.count, self.size)))

    def _turn_to_free_loops(self) -> None:
        """Goes on along the other side of the foundation chain, from its first chain back to where the row began."""
        if self.edges and self.loops:
            if self.sides and self.walk.order and self.walk.site(0).kind == "ch":
                return  # there already, since the corner
            self.left_behind += self.remaining() if self.walk.at else 0
            self.walk = Walk(tuple(Site("ch") for _ in range(self.loops)), tuple(range(self.loops)), False)
            self.last = None
            return
        used = [index for loop in self.making.loops for index in loop.into if not loop.opening]
        if not used:
            return
        low, high = min(used), max(used)
        back = range(high - 1, low - 1, -1) if used[-1] == high else range(low + 1, high + 1)
        begun = low if used[-1] == high else high
        self.walk = Walk(self.walk.sites, tuple(back), used[-1] == high, each_chain=True)
        if used.count(begun) >= ROUND_AN_END:
            self.walk.stop -= 1  # the end that the row began at holds its stitches already
        self.last = None

    def find_missed(self) -> Problem | None:
        """Stitches passed over unsaid before a space, where the same step elsewhere comes to it stitch by stitch.

        Lace that jumps from stitch to space passes over as many each time.
        """
        for step, passed in self.approaches:
            if passed and Approach(step, 0) in self.approaches and step.where.how == "next":
                return Problem("missed", step.span, passed, what=step.where.what[0])
        return None

    def _find_start(self) -> int:
        """Where in the round below its first stitch was worked; 0 where that is not known."""
        used = {index for loop in self.making.loops for index in loop.into}
        if self.making.has_opening or not used or self.walk.sites is not self.below.sites:
            return 0
        return next(at for at, index in enumerate(self.walk.order) if index in used)

    def close_round(self) -> None:
        """Chains made last before the join stand over what is left, as far as they reach."""
        loops = [loop for loop in self.making.loops if not loop.hidden]
        left = self.remaining()
        if not left and loops and loops[-1].kind == "ch" and not loops[-1].opening and not self.is_row:
            loops[-1].spans += self.walk.countable(self.walk.at, len(self.walk.order))  # passed on purpose
            loops[-1].spans += self.walk.countable(0, self._find_start())
            self.walk.at = len(self.walk.order)
        if loops and loops[-1].kind == "ch" and not loops[-1].opening and 0 < left <= loops[-1].chains:
            loops[-1].spans += left
            self.walk.at = len(self.walk.order)
