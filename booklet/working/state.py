"""What is known of a piece in hand in one size, and what is noted on the way."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from booklet.model.colours import Colour
from booklet.model.parsed import ColourOrder, ParsedPart, Row
from booklet.model.pattern import Gauge
from booklet.model.tree import Aside, Chain, Join, Loops, Node, Repeat, Turn, Work
from booklet.model.work import Fabric, Reading, Site, WorkedRow
from booklet.rows.row import list_works
from booklet.source import Span
from booklet.working.depths import check_depth
from booklet.working.expand import Gap, Instance
from booklet.working.held import Held, Key, is_same_way, list_ways
from booklet.working.making import EMPTY
from booklet.working.notes import Asked, CountedTwice, Mixed, ReadTwice, Settled, Trouble
from booklet.working.setting import Memo, Outcome, Setting
from booklet.working.turning import goes_round

STITCHES = ("st", "sc", "hdc", "dc", "tr", "dtr")
NOUNS = {"round": "Rnd", "row": "Row", "foundation": "Foundation"}

# A row that says which side faces the maker, or takes up the yarn anew, may begin on either.
ANEW = re.compile(r"\b(?:facing|join|attach|rejoin|rotate|edge)\b", re.IGNORECASE)
REJOIN = re.compile(r"\b(?:facing|re-?join|join|attach)\b", re.IGNORECASE)


def find_named_gauge(gauges: Sequence[Gauge], heading: str) -> Gauge | None:
    """The gauge whose name a heading has, or begins a word of it, as "rib" does "Ribbing"; the longest such name."""
    words = heading.lower()
    for gauge in sorted(gauges, key=lambda gauge: -len(gauge.name)):
        name = re.escape(gauge.name.lower())
        if name and re.search(rf"\b{name}" if len(gauge.name) > 2 else rf"\b{name}\b", words):
            return gauge
    return None


def find_named_colour(colours: Sequence[Colour], heading: str) -> str:
    """The letter of the colour that a heading names: "Muzzle (colour B)", "Ear, in White"; "" for none."""
    for colour in colours:
        words = "|".join(re.escape(word) for word in (colour.letter, colour.name) if word)
        named = rf"\b(?:colou?r|yarn|in|with|using)\s+(?:the\s+)?(?:{words})(?!\w)|[(\[,]\s*(?:{words})\s*[)\],]"
        if re.search(named, heading, re.IGNORECASE if len(colour.letter) > 1 else 0):
            return colour.letter
    return ""


@dataclass(slots=True)
class PartState:
    """A piece in hand, in one size, as far as it has been worked."""

    part: ParsedPart
    size: int
    setting: Setting
    gauge: Gauge | None  # that of the rows in hand
    memo: Memo
    shared: dict[tuple[object, ...], Fabric]
    in_rounds: bool
    gauges: Sequence[Gauge] = ()  # of the pattern; a heading within the piece may name another than the piece's
    piece_gauge: Gauge | None = None
    colours: Sequence[Colour] = ()
    rows: list[WorkedRow] = field(default_factory=list)
    troubles: list[Trouble] = field(default_factory=list)
    gaps: list[tuple[Row, Gap]] = field(default_factory=list)
    settled: list[Settled] = field(default_factory=list)
    asked: list[Asked] = field(default_factory=list)
    known: dict[int | str, Row] = field(default_factory=dict)  # by number, and by name
    every: dict[int, Row] = field(default_factory=dict)
    alternate: Row | None = None  # "next row and every alternate row", where the rows after it have no numbers,
    alternate_due: bool = False  # and whether it is due before the next of them
    below: tuple[Fabric, ...] = (EMPTY,)
    worked: list[Row] = field(default_factory=list)
    number: int = 0
    last_number: int | None = None
    count: int = 0
    height_cm: float | None = 0.0  # of the rows so far; None once a row's gauge counts no rows
    section: str | None = None
    section_count: int = 0
    side: str = ""
    turn_next: bool | None = None
    carried: Chain | None = None
    lost: bool = False
    before_last: dict[int, Row] = field(default_factory=dict)  # the rows of a range but the last, by their line
    over: int | None = None  # the row that the one in hand is worked over, where it is not the one before
    offered: Fabric | None = None  # what a row further down offers to the row in hand
    moved_to: Fabric | None = None  # what the next row is worked over, after "skip 9 sts of Row 2 and join yarn"
    rest: tuple[Site, ...] = ()  # what the last part worked into a row further down has left of it,
    rest_of: int = -1  # and which row that is
    parted: bool = False  # the yarn has been cut, or the work taken up elsewhere, since the last row
    side_said: bool = False  # a row before has said its side
    regained: dict[int, int] = field(default_factory=dict)  # of stitches left by rows below, by the row's index
    sided: list[tuple[str, str, str, Span]] = field(default_factory=list)  # rows whose side does not follow
    turned: list[ReadTwice] = field(default_factory=list)
    times_read: tuple[bool, str] | None = None  # what "n times" has meant so far, and in which row
    held: dict[Key, Held] = field(default_factory=dict)  # rows whose counts fix how the rows after them are counted
    otherwise: list[CountedTwice] = field(default_factory=list)
    mixed: list[Mixed] = field(default_factory=list)
    uncompared: list[Reading] = field(default_factory=list)
    idle: list[Row] = field(default_factory=list)  # numbered rows that name nothing to work
    suspect: bool = False  # the line in hand stands for a number of rows that does not come out
    faulty: set[int] = field(default_factory=set)  # rows of the source that have been told of
    anew: set[int] = field(default_factory=set)  # rows of the source that begin where the row before began
    trusting: bool = False
    last: WorkedRow | None = None
    order: ColourOrder | None = None  # the colours that the pattern gives for rows in order
    striped: bool = False  # some rows name the order of colours: it is for these alone
    stripe: int = 0  # rows of that order so far
    counted: bool = False  # the last row on trust states one total of stitches

    def _note_trouble(
        self, instance: Instance, row: Row, outcome: Outcome, below: Fabric, label: str, turned: bool
    ) -> None:
        """The row's first problem; that the same row is wrong again where it is repeated goes without saying.

        A row that was sound where it stands, and is wrong where it is repeated, is told at the repeat.
        """
        problem = outcome.problems[0]
        if instance.row is not instance.line:
            problem = replace(problem, span=instance.line.words)
        self.troubles.append(
            Trouble(
                row,
                label,
                problem,
                self.size,
                self.last.label if self.last else "",
                self.last.span if self.last else None,
                below.made,
                outcome.fabric.made,
                below,
                turned,
                self.setting,
            )
        )

    def _with_depth(self, row: Row, outcome: Outcome) -> Outcome:
        """The outcome, with what is wrong with how deep a stitch goes where nothing else is."""
        if outcome.problems or self.offered is not None or self.below[0] is self.moved_to:
            return outcome
        problem = check_depth(row, self.rows)
        return outcome if problem is None else replace(outcome, problems=(problem,))

    def _rests_on_trust(self, below: Fabric) -> bool:
        return any(site.kind == "any" for site in below.sites)

    def _is_sure(self, row: Row, outcome: Outcome) -> bool:
        """Over a row taken on trust: is its one count of stitches enough to say that this row is wrong?

        That holds where every place is a stitch, for a total of stitches says nothing of spaces and groups; and where
        the row needs more than there are, or comes out and has another count than it says.
        """
        kind = outcome.problems[0].kind
        if not self.counted or kind not in ("count", "too-few"):
            return False
        wheres = [where for work in list_works(row.steps) for where in (work.where, *(w.where for w in work.also))]
        if any(what.kind not in STITCHES for where in wheres for what in where.what):
            return False
        if kind == "too-few":
            return all(isinstance(step, Work | Repeat | Chain | Turn | Join | Aside) for step in row.steps)
        return row.stated is not None and len(row.stated.items) == 1 and row.stated.items[0][1].kind in STITCHES

    def _note_times(self, outcome: Outcome, row: Row, label: str) -> None:
        """Counts decide whether "rep from * n times" means n more; in one piece it means one of the two."""
        if "more" not in outcome.open_points or outcome.problems or row.stated is None:
            return
        if self.times_read is None:
            self.times_read = (outcome.choices.more, label)
        elif self.times_read[0] != outcome.choices.more and row.span.start not in self.faulty:
            self.faulty.add(row.span.start)
            self.turned.append(ReadTwice(label, self.times_read[1], outcome.choices.more, row.words, self.size))

    def _note_points(self, outcome: Outcome, row: Row, label: str) -> None:
        self._note_times(outcome, row, label)
        for point in sorted(outcome.settled):
            value = getattr(outcome.choices, point)
            told = outcome.skipped_count if point == "skipped" else value
            self.settled.append(Settled(point, told, outcome.turning_chain, label, row.span))
            if point != "turning":
                self.setting = replace(self.setting, decided=self.setting.decided | {point})
                self.setting = replace(self.setting, preferred=replace(self.setting.preferred, **{point: value}))
        if "turning" in outcome.open_points and not outcome.problems and outcome.turning_chain > 1:
            known = dict(self.setting.turning)
            if "turning" in outcome.settled or outcome.turning_chain not in known:
                if row.stated is not None:
                    known[outcome.turning_chain] = outcome.choices.turning
                    self.setting = replace(self.setting, turning=tuple(sorted(known.items())))
        for point in sorted(outcome.asks):
            self.asked.append(Asked(point, outcome.turning_chain, label, row.span, self.size))

    def _hold_to_ways(
        self, row: Row, steps: tuple[Node, ...], outcome: Outcome, below: Fabric, turned: bool, label: str
    ) -> Outcome:
        """The outcome; as it is in the way of counting that a row before has fixed, where it leaves that way."""
        ways = list(list_ways(row, steps, outcome))
        for point, key in ways:
            held, value = self.held.get(key), getattr(outcome.choices, point)
            if held is None or held.value == value or point not in outcome.settled or held.allows(point, value):
                continue
            again = held.row.words.start == row.words.start  # the same row, worked once more
            if outcome.usual is not None and (again or (point == "chains" and is_same_way(held, row))):
                return outcome.usual
            note = CountedTwice(label, held.label, point, value, held.value, outcome.turning_chain, row.words)
            if row.span.start not in self.faulty:
                self.otherwise.append(note)
                self.faulty.add(row.span.start)
        for point, key in ways:
            value = getattr(outcome.choices, point)
            self.held[key] = Held(value, label, row, steps, below, turned, self.size, self.setting, outcome)
        return outcome

    def _begins_anew(self, instance: Instance) -> bool:
        """Does a row begin where the one before began: the same side faces, and the yarn is joined there?"""
        row = instance.row
        if self._kind(row) != "row" or any(isinstance(step, Turn) for step in row.steps):
            return False
        if instance.is_repeat:
            return row.span.start in self.anew
        if not row.label.side or row.label.side != self.side or not REJOIN.search(row.words.text):
            return False
        self.anew.add(row.span.start)
        return True

    def _carry_on(self, outcome: Outcome, row: Row) -> None:
        base = outcome.base or self.setting.base
        if (outcome.colour, base) != (self.setting.colour, self.setting.base):
            self.setting = replace(self.setting, colour=outcome.colour, base=base)
        lasting = [step.loops for step in row.steps if isinstance(step, Loops) and step.throughout]
        if lasting and lasting[-1] != self.setting.row_loop:
            self.setting = replace(self.setting, row_loop=lasting[-1])

    def _row(
        self,
        instance: Instance,
        fabric: Fabric,
        label: str,
        turned: bool,
        status: str,
        used: int,
        left: int,
        total: int | None,
    ) -> WorkedRow:
        kind = self._kind(instance.row)
        over, self.over = self.over, None
        self.parted = over is not None or self.parted
        if kind != "foundation":
            self.count += 1
            self.section_count += 1
            per_cm = self.gauge.rows_per_cm if self.gauge else None
            self.height_cm = None if per_cm is None or self.height_cm is None else self.height_cm + 1 / per_cm
        self._turn_side(instance, turned, kind)
        self.parted = False
        return WorkedRow(
            label,
            kind,
            instance.number,
            instance.line.span,
            status,
            used,
            fabric.made,
            left,
            total,
            fabric,
            self.side,
            turned,
            self.gauge.name if self.gauge else "",
            instance.line.section,
            over,
        )

    def _stand_on_side(self, below: Fabric) -> None:
        """Rows along the ends of the rows so far stand on a band that is as high as those are wide."""
        gauge = next((gauge for gauge in self.gauges if self.rows and gauge.name == self.rows[-1].gauge), self.gauge)
        per_cm = self.gauge.rows_per_cm if self.gauge else None
        self.height_cm = below.made / gauge.sts_per_cm + 1 / per_cm if gauge and per_cm else None

    def _turn_side(self, instance: Instance, turned: bool, kind: str) -> None:
        if instance.row.label.side and not instance.is_repeat:
            if self.side_said:
                self._compare_side(instance.row, turned, kind)
            self.side_said = True
            self.side = instance.row.label.side
        elif kind == "foundation":
            self.side = ""
        elif not self.side:
            self.side = "RS"
        elif turned:
            self.side = "WS" if self.side == "RS" else "RS"

    def _compare_side(self, row: Row, turned: bool, kind: str) -> None:
        """The side that a row gives itself against the one that follows from the rows before."""
        due = {"RS": "WS", "WS": "RS"}.get(self.side, "") if turned else self.side
        sets_off = ANEW.search(row.words.text) or goes_round(row.steps) or self.parted
        if due and kind == "row" and due != row.label.side and not sets_off and not self.troubles:
            self.sided.append((self._row_name(row), row.label.side, due, row.label.span))

    def _row_name(self, row: Row) -> str:
        return row.label.text or "this row"

    def _kind(self, row: Row) -> str:
        kind = row.label.kind
        if kind in ("round", "foundation") or (kind == "row" and not self.in_rounds):
            return kind
        if kind == "row":
            return "row"
        works = any(isinstance(step, Work) and step.stitch != "sl st" for step in row.steps)
        if not row.label.text and self.below[0] is EMPTY and not works:
            return "foundation"
        return "round" if self.in_rounds else "row"

    def _label(self, instance: Instance) -> str:
        kind = self._kind(instance.row)
        if instance.number is not None:
            return f"{NOUNS.get(kind, 'Row')} {instance.number}"
        if instance.line.label.text or instance.row.label.text:
            return instance.line.label.text or instance.row.label.text
        return "Foundation" if kind == "foundation" else ("Next rnd" if kind == "round" else "Next row")
