"""The stitches of the row in hand, in the order in which they are made."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from booklet.model.work import Fabric, Site, Stitch
from booklet.working.choices import Choices
from booklet.working.kinds import kind_of


@dataclass(slots=True)
class Loop:
    """One thing made: a stitch, or a run of `chains` chains.

    `spans` is how many stitches of the row below the run stands over; `opening` marks the chain at
    the start of a row, with what it is taken for.
    """

    kind: str
    colour: str
    into: tuple[int, ...] = ()
    cluster: int = -1
    chains: int = 0
    spans: int = 0
    opening: str = ""
    into_space: bool = False
    group: str = ""  # the defined stitch that it is part of
    hidden: bool = False  # a slip stitch that joins or travels: it is worked, but offers nothing
    extra: int = 0  # chains of an opening chain that are not part of the stitch it stands for
    free: bool = False  # chains of the foundation that a first row skips: no new yarn
    deeper: int = 0  # worked into a place so many rows further down than usual
    loop: str = ""  # the loop that it goes into, or "between"
    down: int = 0  # rows below its own in which it goes, from 2 on
    turns: tuple[int, ...] = ()  # the repeats whose next time round it begins


@dataclass(slots=True)
class Making:
    """What has been made of a row so far. A mark (see `mark`) is enough to undo to it."""

    loops: list[Loop] = field(default_factory=list)
    deeper: int = 0  # rows further down than usual that the stitches now being made are worked

    def mark(self) -> tuple[int, int, int]:
        last = self.loops[-1] if self.loops else None
        return len(self.loops), last.chains if last else 0, last.spans if last else 0

    def undo_to(self, mark: tuple[int, int, int]) -> None:
        del self.loops[mark[0] :]
        if self.loops:
            self.loops[-1].chains, self.loops[-1].spans = mark[1], mark[2]

    @property
    def has_stitches(self) -> bool:
        """Has a stitch been worked, beside the chain at the start?"""
        return any(loop.kind != "ch" and not loop.hidden and not loop.opening for loop in self.loops)

    @property
    def is_opening_only(self) -> bool:
        """Has nothing but the chain at the start been made?"""
        return all(loop.opening or loop.hidden for loop in self.loops)

    @property
    def has_opening(self) -> bool:
        """Does the row start with a chain of its own?"""
        return any(loop.opening for loop in self.loops)

    def add_chains(self, count: int, colour: str, cluster: int) -> None:
        """Chains between stitches; chains that follow chains of the same colour make one longer run."""
        last = self.loops[-1] if self.loops else None
        if last and last.kind == "ch" and not last.opening and last.colour == colour and last.cluster == cluster:
            last.chains += count
        else:
            self.loops.append(Loop("ch", colour, cluster=cluster, chains=count))

    def add_opening(
        self, chains: int, colour: str, taken_for: str, kind: str, into: tuple[int, ...], extra: int, free: bool = False
    ) -> None:
        """The turning or beginning chain: taken for "none", "stitch" (of `kind`), "chains" or a "space"."""
        made = kind if taken_for == "stitch" else "ch"
        self.loops.append(Loop(made, colour, into, chains=chains, opening=taken_for, extra=extra, free=free))

    def add_stitch(
        self,
        kind: str,
        colour: str,
        into: tuple[int, ...],
        cluster: int,
        into_space: bool,
        hidden: bool = False,
        loop: str = "",
        down: int = 0,
    ) -> None:
        deeper = 0 if hidden else self.deeper
        made = Loop(
            kind, colour, into, cluster, into_space=into_space, hidden=hidden, deeper=deeper, loop=loop, down=down
        )
        self.loops.append(made)

    def note_passed(self, places: int) -> None:
        """Stitches of the row below that the last run of chains stands over."""
        last = self.loops[-1] if self.loops else None
        if places and last and last.cluster < 0 and (last.kind == "ch" or last.extra):
            last.spans += places

    def begin_group(self, start: int, stitch: str, height: int) -> None:
        """The chain that a group at the start of a round begins with is its first `stitch`, or part of a cluster."""
        first = self.loops[start] if start < len(self.loops) else None
        if first is None or first.kind != "ch" or first.chains < max(2, height - 1):
            return
        if not stitch:
            first.hidden = True
            return
        first.kind, first.opening, first.extra = stitch, "stitch", max(0, first.chains - height)
        first.into = next((loop.into for loop in self.loops[start + 1 :] if loop.into), ())

    def note_turn(self, start: int, repeat: int) -> None:
        """The loops from index `start` on are one time round of a repeat."""
        if start < len(self.loops):
            self.loops[start].turns += (repeat,)

    def name_group(self, start: int, name: str) -> None:
        """The loops from index `start` on are one defined stitch."""
        for loop in self.loops[start:]:
            loop.group = name

    def take_back_chains(self) -> int:
        """Removes the run of chains just made, as when a picot closes it; gives its length."""
        if self.loops and self.loops[-1].kind == "ch" and not self.loops[-1].opening:
            return self.loops.pop().chains
        return 0


def finish_fabric(making: Making, choices: Choices) -> Fabric:
    """The row as sites, stitches and counts under one reading."""
    sites: list[Site] = []
    stitches: list[Stitch] = []
    counts: Counter[str] = Counter()
    spaces: Counter[int] = Counter()
    yarn: Counter[tuple[str, str]] = Counter()
    groups: dict[str, set[int]] = {}
    grouped: Counter[str] = Counter()
    long: Counter[tuple[str, str, int]] = Counter()
    for loop in making.loops:
        if loop.group:
            groups.setdefault(loop.group, set()).add(loop.cluster)
            grouped[loop.kind] += loop.kind != "ch" and not loop.hidden
        top = len(sites)
        if loop.hidden and loop.kind == "ch":
            yarn[(loop.colour, "ch")] += loop.chains
            continue
        if loop.kind == "ch" or loop.opening:
            if not loop.free:
                yarn[(loop.colour, "ch")] += loop.chains
            _finish_chains(loop, choices, sites, counts, spaces)
            kind = loop.kind
        else:
            yarn[(loop.colour, loop.kind)] += 1
            long[loop.colour, loop.kind, loop.deeper] += loop.deeper > 0
            kind = loop.kind
            if not loop.hidden:
                tops = kind_of(kind).tops
                sites.extend(Site(kind, loop.colour) for _ in range(tops))
                counts[kind] += tops
        offered = top if len(sites) > top else -1
        place = (loop.into, loop.cluster, offered, loop.into_space, loop.loop, loop.down)
        stitches.append(Stitch(kind, loop.colour, *place))
    made = sum(counts.values()) + sum(1 for site in sites if site.kind == "ch" and site.counts)
    named = {name: len(clusters) for name, clusters in groups.items()}
    named |= _count_blocks(making)
    return Fabric(
        tuple(sites),
        tuple(stitches),
        dict(counts),
        dict(spaces),
        dict(yarn),
        made,
        named,
        dict(grouped),
        dict(+long),
        _count_turns(making),
    )


def _count_turns(making: Making) -> tuple[tuple[int, bool], ...]:
    """How often each repeat was worked, and whether stitches stand before it."""
    turns = Counter(repeat for loop in making.loops for repeat in loop.turns)
    worked = [not loop.hidden and not loop.opening for loop in making.loops]
    first = {repeat: at for at, loop in reversed([*enumerate(making.loops)]) for repeat in loop.turns}
    return tuple((times, any(worked[: first[repeat]])) for repeat, times in turns.items())


def _count_blocks(making: Making) -> dict[str, int]:
    """The blocks of a row of diagonal work: each has a space as long as that of the first, which begins the row.

    A row that begins otherwise has those told in full: slip stitch, chain, and stitches in one place beside it.
    """
    first = next((loop.chains for loop in making.loops if loop.opening == "space" and not loop.extra), 0)
    spaces = (loop for loop in making.loops if loop.kind == "ch" and loop.chains == first and not loop.hidden)
    if first:
        return {"block": sum(1 for _ in spaces)}
    told = sum(_is_block(making.loops[at : at + 4]) for at in range(len(making.loops)))
    return {"block": told} if told else {}


def _is_block(loops: Sequence[Loop]) -> bool:
    """ "Sl st, ch 3, 3 dc", all in one space"""
    if len(loops) < 4 or loops[0].kind != "sl st" or not loops[0].into or loops[1].kind != "ch" or loops[1].chains < 2:
        return False
    block = loops[2:]
    return all(loop.kind not in ("ch", "sl st") and loop.into_space and loops[0].into[0] in loop.into for loop in block)


def _finish_chains(loop: Loop, choices: Choices, sites: list[Site], counts: Counter[str], spaces: Counter[int]) -> None:
    """What a run of chains offers: a stitch, an edge, or a space."""
    if loop.opening == "none":
        if loop.chains > 1:
            sites.append(Site("ch", loop.colour, loop.chains, 0, False, loop.chains))
        return
    if loop.opening == "space" and loop.extra:
        counted = choices.chains == "all" or (choices.chains == "paired" and loop.spans == loop.extra)
        spaces[loop.extra] += 1
        chains = loop.chains if loop.chains != loop.extra else 0
        sites.extend(Site("ch", loop.colour, loop.extra, at, counted, chains) for at in range(loop.extra))
        return
    if loop.opening == "space":
        sites.extend(Site("ch", loop.colour, loop.chains, at, False) for at in range(loop.chains))
        return
    run = loop.chains
    counted = choices.chains == "all" or (choices.chains == "paired" and loop.spans == run)
    if loop.opening == "stitch":
        sites.append(Site(loop.kind, loop.colour, chains=max(1, loop.chains - loop.extra)))
        counts[loop.kind] += 1
        run = loop.extra
        counted = choices.chains == "all" or (choices.chains == "paired" and loop.spans == run)
    elif loop.opening == "chains":
        counted = choices.chains != "none"
    if run:
        spaces[run] += 1
        sites.extend(Site("ch", loop.colour, run, at, counted) for at in range(run))


def trusted_fabric(count: int, colour: str, base: str) -> Fabric:
    """A row that is taken on trust at its stated count: places that any stitch may go into, yarn as for `base`."""
    yarn = {(colour, base): count} if count else {}
    return Fabric(tuple(Site("any", colour) for _ in range(count)), (), {}, {}, yarn, count)


def foundation_fabric(chains: list[tuple[str, int]]) -> Fabric:
    """A foundation chain: how many chains of which colour, in the order in which they are made."""
    sites = tuple(Site("ch", colour) for colour, count in chains for _ in range(count))
    yarn: Counter[tuple[str, str]] = Counter()
    for colour, count in chains:
        yarn[(colour, "ch")] += count
    stitches = tuple(Stitch("ch", site.colour, (), -1, at) for at, site in enumerate(sites))
    return Fabric(sites, stitches, {"ch": len(sites)}, {}, dict(yarn), len(sites))


RING = Fabric((Site("ring", counts=False),), (), {}, {}, {}, 0)
EMPTY = Fabric((), (), {}, {}, {}, 0)
