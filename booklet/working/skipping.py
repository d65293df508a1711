"""Places that a row passes over on purpose."""

from dataclasses import dataclass

from booklet.model.tree import Skip, at_size
from booklet.working.closing import Closer
from booklet.working.problems import Problem


@dataclass(slots=True)
class Skipper(Closer):
    """A row in hand that can skip places."""

    def _skip(self, step: Skip) -> None:
        self.return_from_chain()
        where = step.where
        count = at_size(where.count, self.size)
        whats = [(what,) for what in where.what] if len(where.what) > 1 and count == 1 else [where.what] * count
        if self.covered and where.how == "first" and self.making.is_opening_only:
            whats = whats[1:]  # the first is the one that the turning chain stands on
        if where.how == "up to":
            self._skip_up_to(where, step.span)
        elif where.how == "next" and count == 1 and where.what[-1].kind in ("sp", "ch-sp") and len(where.what) > 1:
            self._skip_listed(where.what, step.span)
        elif where.how in ("first", "next", "join", "nth"):
            for wanted in whats if not where.nth else [where.what] * where.nth:
                place = self.walk.find(wanted)
                if place is None and wanted[0].kind == "sl st":
                    return  # slip stitches that join to another part are no places
                if place is None and wanted[0].kind in ("sp", "ch-sp") and self.passed_chains:
                    return  # "…, skipping the ch-1 sps": what was passed over already
                if place is None:
                    self.fail(
                        Problem(
                            "too-few",
                            step.span,
                            self.walk.countable(self.walk.at, self.walk.stop),
                            count,
                            what=where.what[0],
                        )
                    )
                    return
                self.making.note_passed(self.walk.countable(self.walk.at, place[1]))
                self.skipped.append(place)
                self.walk.at = place[1]
        elif where.how == "last":
            last = self.walk.find_last(where.what, count)
            between = self.walk.countable(self.walk.at, last[0][0]) if last else 0
            if between and self.trial and not self._passes_all(self.walk.at, last[0][0]):
                self.fail(Problem("before-last", step.span, between, count, what=where.what[0]))
            if last and last[0][0] >= self.walk.at:
                self.making.note_passed(self.walk.countable(self.walk.at, last[-1][1]))
            self.walk.at = last[-1][1] if last else len(self.walk.order)
        elif where.how in ("top", "each"):
            for place in self.take_places(where, step.span):
                self.last = place
