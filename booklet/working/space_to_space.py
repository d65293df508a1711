"""Bodies of repeats that go from space to space: is there one more, and where do the last of them begin?"""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.model.tree import Group, Node, Repeat, Skip, What, Where, Work
from booklet.working.placing import Placer

SPACES = ("sp", "ch-sp", "corner")


@dataclass(slots=True)
class SpaceSeeker(Placer):
    """A row in hand that looks ahead for spaces."""

    def _is_space(self, where: Where) -> bool:
        """Is a space named, or a group, such as a V-stitch, that is worked into by its space?"""
        kind = where.what[0].kind
        return kind in SPACES or (kind in self.below.groups and bool(self.below.spaces))

    def _find_named(self, where: Where) -> tuple[int, int] | None:
        """The next place of the kind named; of a group its space."""
        return self.walk.find(where.what if where.what[0].kind in SPACES else (What("sp"),))

    def _limit_before_groups(self, count: int) -> int | None:
        """Where the last `count` groups of stitches made in one place begin; None where there are fewer."""
        at, starts = self.walk.at, []
        while group := self._next_group(What("st")):
            starts.append(group[0])
            self.walk.at = group[-1] + 1
        self.walk.at = at
        return starts[-count] if 0 < count <= len(starts) else None

    def _finds_space(self, steps: Sequence[Node]) -> bool:
        """Does the body go from space to space, and is there one more? (Spaces need not be in the count.)"""
        first = next((node for node in steps if isinstance(node, Work | Group | Repeat | Skip)), None)
        if isinstance(first, Repeat):
            return self._finds_space(first.steps)
        to_group = next(
            (node for node in steps if isinstance(node, Work) and node.where.how in ("group", "center")), None
        )
        if isinstance(first, Work | Group) and first.where.how == "gap" and first.where.what[0].kind in ("group", "sp"):
            return self.has_gap(first.where.what[0].kind == "group")
        if to_group is not None:
            return bool(self._next_group(to_group.where.what[0]))
        if not isinstance(first, Work | Group) or first.where.how != "next" or not self._is_space(first.where):
            return False
        return self._find_named(first.where) is not None

    def _goes_by_spaces(self, steps: Sequence[Node]) -> bool:
        """Is a space the first place that the body works into?"""
        first = next((node for node in steps if isinstance(node, Work | Group | Repeat)), None)
        return isinstance(first, Work | Group) and self._is_space(first.where)

    def _next_space(self, steps: Sequence[Node]) -> int | None:
        """Where the next space lies that one more time round would go into; None where the body begins otherwise."""
        first = next((node for node in steps if isinstance(node, Work | Group | Repeat | Skip)), None)
        if not isinstance(first, Work | Group) or first.where.how != "next" or not self._is_space(first.where):
            return None
        place = self._find_named(first.where)
        return place[0] if place else None
