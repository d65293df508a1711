"""How a row ends: what it leaves, where it goes on round the foundation, what the last chains stand over."""

from dataclasses import dataclass

from booklet.model.tree import Leave, at_size
from booklet.model.work import Site
from booklet.working.hand import Approach
from booklet.working.joining import Joiner
from booklet.working.problems import Problem
from booklet.working.walk import Walk

ROUND_AN_END = 3  # stitches in one chain that take an oval round its end


@dataclass(slots=True)
class Closer(Joiner):
    """A row in hand that can come to its end."""

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
