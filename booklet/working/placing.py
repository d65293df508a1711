"""From the words of a place to places in the row below."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from booklet.model.tree import What, Where, at_size
from booklet.model.work import Site
from booklet.source import Span
from booklet.working.depths import is_deep
from booklet.working.groups import GroupPlacer
from booklet.working.problems import Problem
from booklet.working.walk import Place, Walk


def find_piece(pieces: Mapping[str, int], name: str) -> int:
    """The stitches in the last row of the piece meant by "first leg": its title, or that of pieces made alike."""
    return next((made for title, made in pieces.items() if names_piece(title, name)), 0)


def names_piece(title: str, name: str) -> bool:
    """Is the piece of that title meant?"""
    named = name.lower()
    return bool(title) and (title in named or named in title)


@dataclass(slots=True)
class Placer(GroupPlacer):
    """A row in hand that can find its places."""

    def take_places(self, where: Where, span: Span) -> list[Place | None]:
        count = at_size(where.count, self.size)
        self.return_from_chain()
        if where.what[0] == What("ch-sp") and where.how == "next" and (place := self._find_turning_space()):
            return [self._use(place)]
        if where.what[0] == What("sp") and where.how == "next" and self.walk.order and self.walk.site(0).kind == "ring":
            return [None] * count  # "make a magic loop", and on the next line "11 dc into loop"
        self._go_round(where)
        if where.how == "next" and where.what == (What("sp"),) and self.walk.order and self.walk.site(0).kind == "ring":
            return [None] * count  # "in loop", of a magic loop
        if where.what[0].kind in self.below.groups and self.below.spaces:
            where = replace(where, what=(What("sp"),))  # a shell is worked into by its space
        if is_deep(where):
            where = replace(where, what=(What("st"), What("sp")))
        if where.what[0].kind == "corner" and (self.sides or self.goes_along) and self.walk.find(where.what) is None:
            return [None] * count  # the corner of a piece is a place of its own
        if where.what[0].kind == "ch" and self.goes_elsewhere and self._made_the_chain():
            return [None] * count  # the chain between two pieces that this row begins with, from either side
        if where.how == "top" and self.sides:
            return [None]  # "3 sc in beg ch", where the round passes the beginning of the piece
        if where.how == "first" and count == 1 and self._began_in_space(where):
            return [None]
        if where.how in ("first", "join") and (self.walk.at == 0 or self.covered) and count == 1:
            return [self._first(where, span)]
        if where.how in ("next", "first", "join"):
            start = self.walk.at
            return [p for p in (self._next(where.what, span, count, start) for _ in range(count)) if p]
        finders: dict[str, Callable[[], Sequence[Place | None]]] = {
            "ring": lambda: [None] * count,
            "elsewhere": lambda: [None] * count,
            "unworked": lambda: self._left_below(where, span, count),
            "made": lambda: [None] * count,
            # The last of the free loops, where the round comes back to its beginning, or else a place of its own.
            "begun": lambda: [self._next((What("st"),), span, 1) if self.remaining() == 1 else None],
            "piece": lambda: self._piece(where, span),
            "along": lambda: self._along(count),
            "until": lambda: self._until(where, span, count),
            "same": lambda: [self._same(where, span)],
            "each": lambda: self._each(where, span),
            "up to": lambda: self._up_to(where),
            "last": lambda: self._last(where, span, count),
            "gap": lambda: self.reach_gap(where, span),
            "skipped": lambda: self._take_skipped(where, span, count),
            "group": lambda: self._in_groups(where, span),
            "center": lambda: self._in_center(where, span),
            "nth": lambda: self._nth(where, span),
            "deep": lambda: [None] * count,
            "top": lambda: self._in_chain(where) or [p for p in (self._next((What("tch"),), span, 1),) if p],
        }
        return list(finders[where.how]())

    def _began_in_space(self, where: Where) -> bool:
        """ "Dc in first corner sp" at the end of a round that began there, where no such space is left ahead"""
        in_space = where.what[0].kind in ("sp", "ch-sp", "corner")
        return in_space and not self.is_row and self.walk.at > 0 and self.walk.find(where.what) is None

    def _left_below(self, where: Where, span: Span, count: int) -> Sequence[Place | None]:
        """Stitches that the rows below left at this end: all of them, or so many."""
        if where.leave != (1,):
            return [None] * self.unworked or self._each(replace(where, how="each"), span)
        if count > self.unworked:
            self.fail(Problem("too-few", span, self.unworked, count, what=where.what[0]))
        return [None] * min(count, self.unworked)

    def _find_turning_space(self) -> Place | None:
        """The place of "turning ch sp", at the end of the row: beside the stitch that the chain is, or all of it."""
        end = len(self.walk.order) - 1
        if not self.is_row or not self.walk.backwards or end < self.walk.at or self.walk.stop <= end:
            return None
        at = end - 1 if self.walk.site(end).kind != "ch" and end > self.walk.at else end
        site = self.walk.site(at)
        if site.kind != "ch" or (at != end and not self.walk.site(end).chains):
            return None
        long = 1 if site.run in (0, site.chains) else site.run
        return max(self.walk.at, at - long + 1), at + 1

    def _made_the_chain(self) -> bool:
        """Does the row itself make chains, and the row below offer none?"""
        none_below = all(site.kind != "ch" or site.chains for site in self.below.sites)
        return none_below and any(loop.chains and not loop.hidden for loop in self.making.loops)

    def _piece(self, where: Where, span: Span) -> Sequence[Place | None]:
        """Every stitch of another piece's last row; of this one's, where it is named as the others are."""
        if names_piece(self.title, where.piece):
            return self._each(replace(where, how="each"), span)
        return [None] * find_piece(self.pieces, where.piece)

    def return_from_chain(self) -> None:
        """Back to the row below, once the chain made in this row is used up."""
        if self.aside is not None and self.walk.at >= len(self.walk.order):
            self.walk, self.aside = self.aside, None
            self.last = (self.walk.at - 1, self.walk.at) if self.walk.at else None

    def _go_round(self, where: Where) -> None:
        """Goes on along the side of the piece, or along its foundation, where the words name row ends or chains."""
        named = where.what[0].kind
        on_side = bool(self.walk.order) and self.walk.site(0).kind == "row end"
        if named.startswith("row end") and self.edges and (not on_side or self.walk.at >= len(self.walk.order)):
            down = self.sides % 2 == 0
            sites = tuple(Site("row end", kind) for kind in (reversed(self.edges) if down else self.edges))
        elif named == "ch" and on_side and self.loops:
            sites = tuple(Site("ch") for _ in range(self.loops))
        else:
            return
        self.left_behind += self.remaining() if self.walk.at else 0
        self.sides += named.startswith("row end")
        self.walk = Walk(sites, tuple(range(len(sites))), False)
        self.last = None

    def _same(self, where: Where, span: Span) -> Place | None:
        if self.inside is not None:
            return self.inside
        if self.last is None:
            what = where.what if where.what[0].kind in ("sp", "ch-sp", "corner") else (What("st"),)
            return self._next(what, span, 1)
        self._check_same(where.what[0], self.last, span)
        return self.last

    def _check_same(self, what: What, place: Place, span: Span) -> None:
        """ "In same ch-1 sp": is the space that the stitch before went into of that size?"""
        site = self.walk.site(place[0]) if place[0] < len(self.walk.order) else None
        if what.kind != "ch-sp" or what.chains < 1 or site is None or site.kind != "ch" or not site.run:
            return
        if not self.walk.matches(place[0], what):
            # Told where it stands, whether or not the rest of the repeat fits.
            self.problems.append(Problem("no-place", span, what=what, detail="same"))

    def _first(self, where: Where, span: Span) -> Place | None:
        """The first place of the row, also where a counted turning chain stands on it already."""
        is_space = where.what[0].kind in ("sp", "ch-sp", "corner")
        starts_there = self.last is not None and self.walk.matches(self.last[0], where.what[0]) if is_space else True
        if self.covered and self.last is not None and self.last[0] == 0 and starts_there:
            return self.last
        return self._next(where.what if where.how == "first" else (What("st"), What("sp")), span, 1)

    def _each(self, where: Where, span: Span) -> list[Place]:
        limit = self.walk.limit_before_last(at_size(where.leave, self.size), where.leave_what)
        if limit is None and where.leave_what.kind == "tch":
            limit = self.walk.stop  # "leave tch unworked", over a row that has none
        if limit is None:
            self.fail(
                Problem(
                    "too-few",
                    span,
                    self.walk.countable(self.walk.at, self.walk.stop),
                    at_size(where.leave, self.size),
                    what=where.leave_what,
                )
            )
            return []
        places = []
        limit = min(limit, self.walk.stop)
        met = 0
        while (place := self.walk.find(where.what, stop=limit)) is not None:
            met += 1
            if where.passing and met % where.passing == 0:
                self.making.note_passed(1)
                self.walk.at = place[1]
                continue
            places.append(self._use(place))
        missing = [
            what for what in where.what if what.kind == "ch-sp" and what.chains > 0 and not self._has_space(what)
        ]
        none_due = at_size(where.leave, self.size) > 0 and self.walk.at <= limit
        none_due = none_due and (where.what[0].kind != "st" or self.walk.at == limit)
        # "To last 0 (2) sc, sc in each rem sc": in the first size nothing is left.
        none_due = none_due or (self.is_graded and self.first_use is not None and self.walk.at >= self.walk.stop)
        if (not places and not none_due) or missing:  # from the first block straight to the last, none lies between
            self.fail(Problem("no-place", span, what=missing[0] if places else where.what[0]))
        for position in range(self.walk.at, limit):
            kind = self.walk.site(position).kind
            self.passed_chains = self.passed_chains or kind == "ch"
            self.passed_stitches = self.passed_stitches or (kind != "ch" and where.what[0].kind != "st")
        return places

    def _has_space(self, what: What) -> bool:
        """Is there a space of that many chains anywhere in the row below?"""
        return self.walk.find((what,), start=0, stop=len(self.walk.order)) is not None

    def _along(self, count: int) -> list[Place | None]:
        """So many stitches along an edge: how they are spread over it is for the maker to say."""
        self.leaves = True
        self.last = None
        return [None] * count

    def _until(self, where: Where, span: Span, count: int) -> list[Place]:
        """Place after place until the row holds so many stitches; what is left of the chain is cut off."""
        made = sum(1 for loop in self.making.loops if loop.kind != "ch" and not loop.hidden)
        start = self.walk.at
        found = [self._next(where.what, span, count, start) for _ in range(count - made)]
        self.leaves = True
        return [place for place in found if place]

    def _up_to(self, where: Where) -> list[Place]:
        stop = self.find_goal(where.leave_what, at_size(where.leave, self.size))
        places = []
        while (place := self.walk.find(where.what, stop=stop)) is not None:
            places.append(self._use(place))
        return places

    def _last(self, where: Where, span: Span, count: int) -> list[Place]:
        if not count:
            return []  # nothing of it in this size
        places = self.walk.find_last(where.what, count)
        end = len(self.walk.order) - 1
        if where.what == (What("ch"),) and count == 1 and end >= self.walk.at and self.walk.site(end).chains:
            places = [(end, end + 1)]  # the chain at the end of the row is that which a stitch stands for
        if len(places) < count or places[0][0] < self.walk.at:
            self.fail(
                Problem("too-few", span, self.walk.countable(self.walk.at, self.walk.stop), count, what=where.what[0])
            )
            return []
        between = self.walk.countable(self.walk.at, places[0][0])
        passes = self._passes_all(self.walk.at, places[0][0])
        spaces = where.what[0].kind in ("sp", "ch-sp", "corner")
        missed = self._count_places(where.what, places[0][0]) if spaces else 0
        if missed:
            self.fail(Problem("before-last", span, missed, count, what=where.what[0]))
        if between and not passes and not (spaces and between == 1):
            self.fail(Problem("before-last", span, between, count, what=where.what[0]))
        return [self._use(place) for place in places]

    def _take_skipped(self, where: Where, span: Span, count: int) -> list[Place]:
        """Places that the row skipped, or that a row further down did, behind the next chains; each of them for 0."""
        waiting = [place for place in self.skipped if place not in self.revisited]
        if where.below > 1 or not waiting:
            return self._behind_chains(span, max(1, count))
        if count > len(waiting):
            self.fail(Problem("few-skipped", span, len(waiting), count))
            return []
        return [place for place in (self._revisit() for _ in range(count or self._count_run(waiting))) if place]

    def _count_run(self, waiting: Sequence[Place]) -> int:
        """How many of the skipped places lie side by side at the end."""
        number = 1
        while number < len(waiting) and waiting[-number - 1][1] == waiting[-number][0]:
            number += 1
        return number

    def _revisit(self) -> Place | None:
        """A place that the row skipped: the first of the run of skipped places made last."""
        run = [place for place in self.skipped if place not in self.revisited]
        if not run:
            return None
        first = len(run) - 1
        while first and run[first - 1][1] == run[first][0]:
            first -= 1
        self.revisited.append(run[first])
        return run[first]

    def _behind_chains(self, span: Span, count: int) -> list[Place]:
        """Stitches skipped in a row further down: their places along the row are the next ones.

        Several behind one chain space share it, however many chains it has.
        """
        start = self.walk.find((What("st"), What("sp")))
        run = self.walk.site(start[0]).run if start else 0
        if start and 1 < count <= run and self.walk.starts_run(start[0]):
            cuts = [start[0] + -(-run * number // count) for number in range(count + 1)]
            return [self._use(place) for place in pairwise(cuts)]
        found = (self._next((What("st"), What("sp")), span, count) for _ in range(count))
        return [place for place in found if place]

    def _passes_all(self, first: int, after: int) -> bool:
        """Does the row pass over every site of this stretch on purpose, as one that goes from space to space does?"""
        kinds = {self.walk.site(position).kind == "ch" for position in range(first, after)}
        return all(self.passed_chains if is_chain else self.passed_stitches for is_chain in kinds)

    def _nth(self, where: Where, span: Span) -> list[Place | None]:
        """The nth chain from the hook at the start of a first row, else the nth place from here."""
        if self.making.loops and self.making.loops[-1].kind == "ch" and where.from_hook and self.making.has_stitches:
            if self.from_hook and where.nth == self.from_hook[0] > self.making.loops[-1].chains:
                return [self.from_hook[1]]  # "(3 dc in 5th ch from hook, ch 2) 3 times": that of the chain at the start
            chains = self._close_picot()
            if where.nth > chains:
                self.note(Problem("short-chain", span, chains, where.nth))
            return []
        place: Place | None = None
        whats = where.what
        begins = self.covered and self.making.is_opening_only and self.walk.at == 1 and not where.from_hook
        counted = begins and where.nth > 1 and self.walk.matches(0, whats[0])  # the first is under the chain
        for _ in range(where.nth - counted):
            place = self.walk.find(whats, start=place[1] if place else None)
            if place is None:
                self.fail(
                    Problem(
                        "too-few", span, self.walk.countable(self.walk.at, self.walk.stop), where.nth, what=whats[0]
                    )
                )
                return []
        if place is None:
            return []
        if not self.making.has_stitches and self.walk.site(place[0]).kind == "ch" and self.walk.at == 0:
            self.walk.at = place[1]
            self.last = place
            self.from_hook = (where.nth, place) if where.from_hook else None
            return [place]
        return [self._use(place)]

    def _in_chain(self, where: Where) -> list[Place | None]:
        """One chain of a space, "last ch of ch-4", where a space of so many comes before any turning chain; else []."""
        chains, walk = where.what[0].chains, self.walk
        at = next((p for p in range(walk.at, walk.stop) if walk.site(p).kind == "ch" or walk.site(p).chains), None)
        if at is None or where.nth < 1 or walk.site(at).run != chains or walk.site(at).chains or not self.is_row:
            return []
        gone = chains - 1 - walk.site(at).at if walk.backwards else walk.site(at).at
        position = at - gone + where.nth - 1
        return [self._use((position, position + 1))] if position >= walk.at else []

    def _close_picot(self) -> int:
        """Closes the chains just made, whose number is the answer, with a slip stitch."""
        chains = self.making.take_back_chains()
        for kind, count in (("ch", chains), ("sl st", 1)):
            for _ in range(count):
                self.making.add_stitch(
                    kind if kind != "ch" else "picot ch", self.colour, (), self.cluster, False, hidden=True
                )
        return chains
