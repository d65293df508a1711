"""From the checked front matter to what is known of the yarn: sample, testers, unravelled lengths, seams, trimmings."""

from dataclasses import replace

from booklet.model.pattern import FinishingYarn, Pattern, Publisher, Sample, Unravelled, YarnReport
from booklet.model.seams import Fold, Seam
from booklet.reading.edge_words import read_edge
from booklet.reading.forms import FrontMatter
from booklet.reading.front_matter import Places
from booklet.terms import load_table

TRADE_INCH = 2.5  # centimetres of gauge that the trade counts for an inch


def add_yarn_facts(pattern: Pattern, front: FrontMatter, places: Places, publisher: Publisher) -> Pattern:
    """The pattern with what was weighed and measured, and with the inch that its gauges are stated in."""
    inch = front.inch or publisher.cm_per_inch or TRADE_INCH
    return replace(
        pattern,
        gauges=tuple(replace(gauge, cm_per_inch=inch) for gauge in pattern.gauges),
        cm_per_inch=inch,
        unravelled=find_unravelled(front, places),
        sample=find_sample(front, places),
        testers=list_testers(front, places),
        finishing=list_finishing(front, places),
        seams=list_seams(front, places),
        folds=list_folds(front, places),
        tail=front.tails,
    )


def find_unravelled(front: FrontMatter, places: Places) -> Unravelled | None:
    form = front.unravelled
    if form is None:
        return None
    return Unravelled(form.sts, form.length, form.stitch, places.value("unravelled"))


def find_sample(front: FrontMatter, places: Places) -> Sample | None:
    form = front.sample
    if form is None:
        return None
    span = places.value("sample")
    return Sample(YarnReport(form.size, form.used, span), form.measures, span)


def list_testers(front: FrontMatter, places: Places) -> tuple[YarnReport, ...]:
    return tuple(YarnReport(form.size, form.used, places.value("testers", at)) for at, form in enumerate(front.testers))


def list_seams(front: FrontMatter, places: Places) -> tuple[Seam, ...]:
    """The seams whose edges are named."""
    return tuple(
        Seam(name, tuple(map(read_edge, form.edges)), places.value("seams", name))
        for name, form in front.seams.items()
        if form.edges
    )


def list_folds(front: FrontMatter, places: Places) -> tuple[Fold, ...]:
    return tuple(Fold(name.strip(), *way, places.value("folds", name)) for name, way in front.folds.items())


def list_finishing(front: FrontMatter, places: Places) -> tuple[FinishingYarn, ...]:
    """Seams and trimmings in one form: so many strands, each so long.

    A wrap round a card goes over both its sides.
    """
    usual = load_table("yarn_lengths")["seam"]["times"]
    listed = [
        FinishingYarn(
            name=name,
            kind="seam",
            number="1",
            strands=1,
            length=form.length,
            times=usual if form.times is None else form.times,
            colour=form.colour,
            span=places.value("seams", name),
        )
        for name, form in front.seams.items()
        if form.times != 0  # not sewn with this yarn
    ]
    for name, form in front.trimmings.items():
        span = places.value("trimmings", name)
        if form.across is not None:
            strands, length, times = form.wraps, f"{form.across.amount:g} {form.across.unit}", 2.0
        else:
            strands, length, times = form.strands, form.cut, 1.0
        listed.append(FinishingYarn(name, "trimming", form.number, strands, length, times, form.colour, span))
    return tuple(listed)
