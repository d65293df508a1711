"""The teaching sample proved once more from its own source, told in figures, and printed."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from booklet.amounts.figures import print_metres
from booklet.answers.layout import lay_columns, print_balls, print_length, print_yarn
from booklet.answers.sample_source import write_sample
from booklet.answers.samples import Sample, Shown
from booklet.answers.supposing import Known, know
from booklet.findings import Finding, counted
from booklet.findings.render import has_errors
from booklet.model.amounts import Measure, YarnNeed
from booklet.model.work import WorkedPattern
from booklet.output.files import make_safe, write_files
from booklet.pipeline import Order, Proof, make_booklet, prove_text
from booklet.reading.places import PATTERN_FILE

MOST_MEASURES = 3  # in the summary


@dataclass(frozen=True, slots=True)
class Lesson:
    """The sample as it came out: its source, the proof of that source, and its figures.

    `chain` is the chain it begins with, 0 where it begins otherwise; `stitches` those of its widest row.
    """

    title: str
    of: str
    size: str
    source: str
    chain: int
    stitches: int
    rows: int
    kinds: int
    kinds_in_all: int
    measures: tuple[Measure, ...]
    yarn: tuple[YarnNeed, ...]
    shown: tuple[Shown, ...]


class UnteachableError(ValueError):
    """A sample that does not come out when it is read from its own source; `proof` says where."""

    def __init__(self, proof: Proof) -> None:
        super().__init__("the sample does not come out when its source is read")
        self.proof = proof


def teach(sample: Sample, out: Path) -> tuple[Lesson, Known]:
    """The lesson, and the proof of its source as it will stand below `out`. Raises UnteachableError."""
    first = _prove(sample, "A teaching sample.", out)
    lesson = _list_figures(sample, first)
    known = _prove(sample, _summarise(lesson, first), out)
    return replace(lesson, source=known.proof.source.path), known


def _prove(sample: Sample, summary: str, out: Path) -> Known:
    pattern = sample.full.pattern
    folder = out / f"{make_safe(pattern.slug, 'pattern')}-sample"
    publisher = replace(pattern.publisher, licence=pattern.licence)
    proof = prove_text(write_sample(sample, summary), str(folder / PATTERN_FILE), publisher)
    known = know(proof)
    if known is None or has_errors(proof.findings) or not _is_same(sample, known.worked):
        raise UnteachableError(proof)
    return known


def _is_same(sample: Sample, worked: WorkedPattern) -> bool:
    """Does every row make what it made in the search?"""
    meant = [row.made for part in sample.trial.worked.parts for row in part.rows[0]]
    return meant == [row.made for part in worked.parts for row in part.rows[0]]


def _list_figures(sample: Sample, known: Known) -> Lesson:
    rows = [row for part in known.worked.parts for row in part.rows[0]]
    foundations = [row.made for row in rows if row.kind == "foundation"]
    worked = [row for row in rows if row.kind != "foundation"]
    yarn = known.amounts.yarn
    return Lesson(
        title=known.pattern.title,
        of=sample.full.pattern.title,
        size=sample.full.pattern.size_names[sample.at],
        source="",
        chain=foundations[0] if foundations else 0,
        stitches=max((row.made for row in worked), default=0),
        rows=len(worked),
        kinds=sample.kinds,
        kinds_in_all=sample.kinds_in_all,
        measures=known.amounts.measures,
        yarn=yarn.needs if yarn else (),
        shown=sample.shown,
    )


def _summarise(lesson: Lesson, known: Known) -> str:
    """What the cover says, from the proved figures."""
    words = f"A small piece to learn {lesson.of} with: {counted(lesson.stitches, 'stitch')} at the widest, "
    words += _count_rows(lesson, known)
    if len({measure.part for measure in lesson.measures}) == 1:  # of several pieces none is the size of the whole
        sizes = [f"{measure.name} {_say(measure, known.pattern.units_first)}" for measure in lesson.measures]
        words += "".join(f", {size}" for size in sizes[:MOST_MEASURES])
    metres = sum(need.metres_to_buy for need in lesson.yarn)
    words += f", about {print_metres(metres)} m of yarn in all" if metres else ""
    return f"{words}. It has every kind of row, every repeat at least twice, and every change of colour."


def _count_rows(lesson: Lesson, known: Known) -> str:
    kinds = {row.kind for part in known.worked.parts for row in part.rows[0]} - {"foundation"}
    return counted(lesson.rows, "round" if kinds == {"round"} else "row")


def _say(measure: Measure, units_first: str) -> str:
    cm, inches = measure.cm[0], measure.inches[0]
    return print_length(cm, inches, units_first) if cm is not None and inches is not None else ""


def write_lesson(known: Known, order: Order, is_printed: bool = True) -> tuple[tuple[Path, ...], tuple[Finding, ...]]:
    """The source, and the booklet of it where that is asked for; what was found while printing."""
    source = known.proof.source
    written, told = write_files(order.folder_of(known.pattern), {PATTERN_FILE: source.text.encode()}, source.whole())
    if not written or not is_printed:
        return written, told
    printed, found = make_booklet(known.proof, order)
    return (*written, *printed), (*told, *found)


def tell_lesson(lesson: Lesson, known: Known) -> Iterator[str]:
    """The lesson in words, for the terminal."""
    units = known.pattern.units_first
    begins = f"begins with ch {lesson.chain}" if lesson.chain else "begins without a chain"
    yield (
        f"{lesson.title}: {begins}, {counted(lesson.stitches, 'stitch')} at the widest, "
        f"{_count_rows(lesson, known)}, all worked stitch by stitch"
    )
    size = f", from size {lesson.size}" if lesson.size else ""
    yield f"  {lesson.kinds} of the {lesson.kinds_in_all} kinds of row in the pattern{size}"
    if all((shown.made, shown.rows) == (shown.full_made, shown.full_rows) for shown in lesson.shown):
        yield "  nothing could be made smaller: every number is needed for the rows to come out"
    several = len({measure.part for measure in lesson.measures}) > 1
    for measure in lesson.measures:
        name = f"{measure.part}: {measure.name}" if several and measure.part else measure.name
        yield f"  {name}: {_say(measure, units)}"
    names = {colour.letter: colour.name for colour in known.pattern.colours}
    for need in lesson.yarn:
        name = " ".join(word for word in (need.letter, names.get(need.letter, "")) if word) or "yarn"
        grams = f", {need.grams:.0f} g" if need.grams is not None else ""
        balls = print_balls(need.balls) or "balls not known"
        yield f"  {name}: {print_yarn(need.metres_to_buy, units)}{grams}, {balls}"
    yield ""
    yield "What it shows"
    lines = [
        (
            f"line {shown.line}",
            f"{shown.section}, {shown.label}" if shown.section else shown.label,
            f"{shown.made} sts, {counted(shown.rows, 'row')}",
            f"{shown.full_made} sts, {counted(shown.full_rows, 'row')}",
        )
        for shown in lesson.shown
    ]
    yield from lay_columns(("where", "row", "here", "in the pattern"), lines)
