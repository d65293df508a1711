"""From worked rows to the marks of a stitch chart: what each row puts on paper, and which rows stand for others.

A mark is one stitch, or a run of chains, with the sites it stands on and those it offers. Chains
that stand up at the start of a row are an opening; the chains of a foundation that a first row
skips are counted with the foundation, where they were made, and stand up beside that row.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from booklet.model.work import Fabric, Stitch, WorkedRow
from booklet.working.kinds import height_of

STITCH, CHAIN, OPENING, LINK, PICOT, BLANK = "stitch", "chain", "opening", "link", "picot", "blank"
ALONG = "along"
MOST_BLANK = 400  # stitches of a row taken on trust, for which a chart leaves room
LONGEST_PERIOD = 12  # rows


@dataclass(frozen=True, slots=True)
class Mark:
    """One stitch or one run of chains.

    `role` is STITCH; CHAIN, a run of `chains` chains; OPENING, `chains` chains that stand up, for a
    stitch of `kind` or, where `tops` is empty or of chains alone, for none; LINK, a slip stitch that
    joins or travels; PICOT, `chains` chains closed to a ring; BLANK, a place of a row taken on trust, for which
    nothing is drawn; ALONG, chains that the first stitches of the row are worked along.
    `feet` are sites of the row below, `loop` and `down` the loop named and how deep the place lies, as in `Stitch`.
    """

    role: str
    kind: str
    feet: tuple[int, ...] = ()
    tops: tuple[int, ...] = ()
    chains: int = 0
    cluster: int = -1
    into_space: bool = False
    colour: str = ""
    loop: str = ""
    down: int = 0

    @property
    def counts(self) -> bool:
        """Does an opening stand for a stitch?"""
        return self.kind != "ch" and bool(self.tops)

    @property
    def is_column(self) -> bool:
        """Does it stand in a place of its own along the row?"""
        return self.role in (STITCH, BLANK) or (self.role == OPENING and self.counts)


@dataclass(frozen=True, slots=True)
class ChartRow:
    """A row as marks in working order. `free` are chains of its opening that the foundation made.

    `name` is its number, or its place in the piece where the author's numbers do not go on. `blank` is how many rows
    taken on trust it stands for, which are left to the words. `on` is the row that it is worked into where that is not
    the one before it: the second side of an opening stands on the row that the first one left.
    """

    row: WorkedRow
    marks: tuple[Mark, ...]
    free: int = 0
    name: str = ""
    blank: int = 0
    on: WorkedRow | None = None

    @property
    def letters(self) -> tuple[str, ...]:
        """The colours that are worked in it, in order."""
        return tuple(dict.fromkeys(mark.colour for mark in self.marks if mark.colour))


@lru_cache(maxsize=4096)
def list_marks(fabric: Fabric) -> tuple[Mark, ...]:
    """The marks of a row in working order."""
    claimed = {stitch.top for stitch in fabric.stitches if stitch.top >= 0}
    starts = sorted(claimed | {len(fabric.sites)})
    ends = dict(pairwise(starts))
    marks: list[Mark] = []
    for stitch in fabric.stitches:
        tops = tuple(range(stitch.top, ends[stitch.top])) if stitch.top >= 0 else ()
        if stitch.kind == "picot ch":
            if marks and marks[-1].role == PICOT and marks[-1].kind == "open":
                marks[-1] = replace(marks[-1], chains=marks[-1].chains + 1)
            else:
                marks.append(Mark(PICOT, "open", chains=1, cluster=stitch.cluster, colour=stitch.colour))
        elif stitch.kind == "sl st" and stitch.top < 0:
            if marks and marks[-1].role == PICOT and marks[-1].kind == "open":
                marks[-1] = replace(marks[-1], kind="picot ch")
            else:
                marks.append(Mark(LINK, "sl st", stitch.into, colour=stitch.colour))
        elif stitch.kind == "ch":
            marks.append(_mark_chains(fabric, stitch.top, tops, stitch.cluster, stitch.colour))
        else:
            marks.extend(_mark_stitch(fabric, stitch, tops))
    return tuple(marks)


def _mark_chains(fabric: Fabric, top: int, tops: tuple[int, ...], cluster: int, colour: str) -> Mark:
    if top < 0:
        return Mark(OPENING, "ch", chains=1, colour=colour)
    site = fabric.sites[top]
    if site.chains:
        return Mark(OPENING, "ch", tops=tops, chains=site.chains, colour=colour)
    return Mark(CHAIN, "ch", tops=tops, chains=max(1, site.run), cluster=cluster, colour=colour)


def _mark_stitch(fabric: Fabric, stitch: Stitch, tops: tuple[int, ...]) -> list[Mark]:
    kind, colour, into, cluster, top, into_space, loop, down = stitch
    chains = fabric.sites[top].chains if top >= 0 else 0
    if not chains:
        return [Mark(STITCH, kind, into, tops, 0, cluster, into_space, colour, loop, down)]
    marks = [Mark(OPENING, kind, into, tops[:1], chains, cluster, into_space, colour)]
    if len(tops) > 1:  # chains beyond the height of the stitch: a space beside it
        marks.append(Mark(CHAIN, "ch", (), tops[1:], len(tops) - 1, cluster, False, colour))
    return marks


def count_marks(marks: Sequence[Mark]) -> Counter[str]:
    """How many symbols of each kind the marks come to, chains one by one, a standing chain as its chains."""
    counts: Counter[str] = Counter()
    for mark in marks:
        if mark.role in (CHAIN, OPENING, ALONG):
            counts["ch"] += mark.chains
        elif mark.role == PICOT:
            counts["picot ch"] += mark.chains
            counts["sl st"] += 1
        elif mark.role != BLANK:
            counts[mark.kind] += 1
    return counts


def count_worked(row: WorkedRow) -> Counter[str]:
    """Stitches that the row's own account says were worked, by kind, whatever their colour."""
    counts: Counter[str] = Counter()
    for (_, kind), number in row.fabric.yarn.items():
        counts[kind] += number
    return +counts


def list_chart_rows(rows: Sequence[WorkedRow]) -> tuple[ChartRow, ...]:
    """The rows as marks, up to the first one that no chart can place; those taken on trust as room left for them."""
    listed: list[ChartRow] = []
    for row in rows:
        if row.status == "trusted" and row.kind != "foundation" and 0 < len(row.fabric.sites) <= MOST_BLANK:
            listed.append(_leave_room(row, listed[-1] if listed else None))
            continue
        marks = _with_own_chain(list_marks(row.fabric), row)
        drawn, worked = count_marks(marks), count_worked(row)
        extra = drawn["ch"] - worked["ch"]
        drawn["ch"] -= max(0, extra)
        is_first = bool(listed) and listed[-1].row.kind == "foundation"
        if row.status != "worked" or not marks or +drawn != worked or (extra and not is_first):
            break
        listed.append(_stand_up(row, marks, extra, len(listed[-1].row.fabric.sites)) if extra else ChartRow(row, marks))
    while listed and listed[-1].blank:
        listed.pop()
    return _merge_blanks(name_rows(listed))


def _with_own_chain(marks: tuple[Mark, ...], row: WorkedRow) -> tuple[Mark, ...]:
    """The marks of a row that begins along a chain of its own, with that chain; those it skips stand beside it."""
    if row.kind != "row" or not marks or marks[0].role != CHAIN or not marks[0].tops:
        return marks
    base = count_worked(row)["ch"] - count_marks(marks)["ch"]
    columns = [mark for mark in marks if mark.is_column]
    own = next((at for at, mark in enumerate(columns) if mark.feet), 0)
    if base <= 0 or own != base:
        return marks
    return (Mark(ALONG, "ch", chains=base, colour=marks[0].colour), replace(marks[0], role=OPENING), *marks[1:])


def _leave_room(row: WorkedRow, below: ChartRow | None) -> ChartRow:
    """A row taken on trust: its places, evenly over those of the row below."""
    places = len(row.fabric.sites)
    under = len(below.row.fabric.sites) if below else 0
    marks = []
    for at in range(places):
        share = at / max(1, places - 1)
        foot = round((under - 1) * (1 - share if row.turned else share))
        feet = (foot,) if under else ()
        marks.append(Mark(BLANK, "any", feet, (at,), colour=row.fabric.sites[at].colour))
    return ChartRow(row, tuple(marks), blank=1)


def _merge_blanks(rows: Sequence[ChartRow]) -> tuple[ChartRow, ...]:
    """Rows on trust that follow one another as one, named from the first to the last."""
    merged: list[ChartRow] = []
    for row in rows:
        before = merged[-1] if merged else None
        if row.blank and before and before.blank:
            under = merged[-2] if len(merged) > 1 else None
            name = f"{before.name.split('–')[0]}–{row.name}"
            both = replace(row.row, turned=before.row.turned != row.row.turned)
            merged[-1] = replace(_leave_room(both, under), name=name, blank=before.blank + 1)
        else:
            merged.append(row)
    return tuple(merged)


def count_rows(rows: Sequence[ChartRow]) -> int:
    """How many rows of the piece these stand for, the foundation left out."""
    return sum(max(1, row.blank) for row in rows if row.name)


def split_at_edges(rows: Sequence[ChartRow]) -> list[tuple[ChartRow, ...]]:
    """The rows cut where one is worked along an edge, not into the row before it."""
    segments: list[list[ChartRow]] = [[]]
    for row in rows:
        columns = [mark for mark in row.marks if mark.is_column]
        along = columns and row.row.over is None and not any(mark.feet for mark in columns)
        if along and any(other.name for other in segments[-1]):
            segments.append([])
        segments[-1].append(row)
    return [
        tuple(segment) if at == 0 or any(row.blank for row in segment) else name_rows(segment)
        for at, segment in enumerate(segments)
    ]


def name_rows(rows: Sequence[ChartRow]) -> tuple[ChartRow, ...]:
    """The rows with their numbers, counted from the start where the author's begin anew or leave some out."""
    numbers = [row.row.number for row in rows if row.row.kind != "foundation"]
    is_numbered = None not in numbers and len(set(numbers)) == len(numbers)
    named, count = [], 0
    for row in rows:
        if row.row.kind == "foundation":
            named.append(replace(row, name=""))
            continue
        count += 1
        named.append(replace(row, name=str(row.row.number if is_numbered else count)))
    return tuple(named)


def is_counted(rows: Sequence[ChartRow]) -> bool:
    """Are the rows' names counted from the start, not the author's numbers?"""
    return any(row.name and not row.blank and row.name != str(row.row.number) for row in rows)


def _stand_up(row: WorkedRow, marks: tuple[Mark, ...], free: int, foundation: int) -> ChartRow:
    """A first row whose opening is made of foundation chains: those from the one it stands on to the last made.

    No more of them than the stitch it stands for is high, with the space beside it.
    """
    at = next((index for index, mark in enumerate(marks) if mark.role == OPENING), None)
    if at is None or not marks[at].counts or not marks[at].feet:
        return ChartRow(row, marks, free)
    opening = marks[at]
    beside = free - opening.chains
    chains = min(foundation - opening.feet[0], height_of(opening.kind) + beside) - beside
    if chains <= opening.chains:
        return ChartRow(row, marks, free)
    changed = (*marks[:at], replace(opening, chains=chains), *marks[at + 1 :])
    return ChartRow(row, changed, beside + chains)


@dataclass(frozen=True, slots=True)
class Repeated:
    """Rows of the chart, from index `first` on, `count` of them, worked `times` in all, the last one named `until`."""

    first: int
    count: int
    until: str
    times: int


@lru_cache(maxsize=4096)
def _pattern_of(fabric: Fabric) -> tuple[object, ...]:
    """What makes two rows look the same, colours left out."""
    sites = tuple((site.kind, site.run, site.counts, site.chains) for site in fabric.sites)
    stitches = tuple((s.kind, s.into, s.cluster, s.top, s.into_space, s.loop, s.down) for s in fabric.stitches)
    return sites, stitches


def condense_rows(
    rows: Sequence[ChartRow], by_colour: bool = False
) -> tuple[tuple[ChartRow, ...], tuple[Repeated, ...]]:
    """Rows that come again and again shown once, with which of those shown stand for more.

    With `by_colour` rows of one colour and rows of another are different.

    In rows worked to and fro a repeat has an even number of rows, so that sides stay as they are.
    """
    numbers: dict[tuple[object, ...], int] = {}
    keys = []
    for at, row in enumerate(rows):
        colours = row.letters if by_colour and len(row.letters) == 1 else ()
        is_alone = row.blank or row.on is not None
        look = (row.row.kind, row.free, colours, (at,) if is_alone else _pattern_of(row.row.fabric))
        keys.append(numbers.setdefault(look, len(numbers)))
    kept: list[ChartRow] = []
    repeats: list[Repeated] = []
    at = 0
    while at < len(rows):
        period, length = _longest_run(rows, keys, at)
        if period == 0:
            kept.append(rows[at])
            at += 1
            continue
        whole = length // period * period
        repeats.append(Repeated(len(kept), period, rows[at + whole - 1].name, whole // period))
        kept.extend(rows[at : at + period])
        at += whole
    return tuple(kept), tuple(repeats)


def _longest_run(rows: Sequence[ChartRow], keys: Sequence[int], at: int) -> tuple[int, int]:
    """The period that, from `at` on, saves most rows, and the rows it covers; (0, 0) where none saves any."""
    best, saved = (0, 0), 1
    turns = any(row.row.turned for row in rows[at : at + 2])
    for period in range(1, LONGEST_PERIOD + 1):
        if turns and period % 2:
            continue
        end = at + period
        while end < len(rows) and keys[end] == keys[end - period]:
            end += 1
        whole = (end - at) // period * period
        # the row under the first one must look like the last of the repeat, or what follows would not fit
        if whole >= 2 * period and whole - period > saved:
            best, saved = (period, whole), whole - period
    return best
