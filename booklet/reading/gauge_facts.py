"""Gauges and swatches, from the checked form to the facts of the model."""

from booklet.model.measure import CM_PER_INCH, Length
from booklet.model.pattern import Gauge, Swatch
from booklet.reading.forms import FrontMatter, GaugeForm
from booklet.reading.front_matter import Places

# A gauge worked out from a swatch is told over the length that the trade tells it over.
TRADE_CM = Length(10, "cm")
TRADE_INCHES = Length(4, "in")


def list_gauges(front: FrontMatter, places: Places) -> tuple[Gauge, ...]:
    """The gauges over stitches; where none is given, those that the measured swatches have."""
    given = tuple(_gauge(name, form, places) for name, form in front.gauge.items() if not form.motif)
    if front.gauge:
        return given
    return tuple(gauge for swatch in list_swatches(front, places) if (gauge := gauge_of(swatch)) is not None)


def list_motif_gauges(front: FrontMatter, places: Places) -> tuple[Gauge, ...]:
    """The gauges over whole motifs."""
    return tuple(_gauge(name, form, places) for name, form in front.gauge.items() if form.motif)


def _gauge(name: str, form: GaugeForm, places: Places) -> Gauge:
    return Gauge(
        name=name,
        sts=form.sts,
        rows=form.rows,
        over=form.over,
        span=places.value("gauge", name),
        stitch=form.stitch,
        hook_mm=form.hook,
        blocked=form.blocked,
        in_rounds=form.rounds,
        motif=form.motif,
    )


def gauge_of(swatch: Swatch) -> Gauge | None:
    """The gauge that a swatch has, after blocking where that was measured; None where it was not measured."""
    size = swatch.after or swatch.before
    if size is None:
        return None
    width, length = size
    is_metric = width.unit in ("cm", "mm", "m")
    over = TRADE_CM if is_metric else TRADE_INCHES
    per = over.amount if is_metric else over.amount * CM_PER_INCH
    return Gauge(
        name=swatch.stitch or "gauge",
        sts=swatch.sts * per / width.cm,
        rows=swatch.rows * per / length.cm if swatch.rows else None,
        over=over,
        span=swatch.span,
        stitch=swatch.stitch,
        hook_mm=swatch.hook_mm,
        blocked=swatch.after is not None,
        in_rounds=swatch.in_rounds,
        is_from_swatch=True,
    )


def list_swatches(front: FrontMatter, places: Places) -> tuple[Swatch, ...]:
    """The swatches of the pattern; one that goes by a name is in the stitch, or the gauge, of that name."""
    return tuple(
        Swatch(
            sts=form.sts,
            rows=form.rows,
            grams=form.weight or 0.0,
            stitch=form.stitch or name,
            span=places.value("swatch", name) if name else places.value("swatch"),
            before=form.before,
            after=form.after,
            hook_mm=form.hook,
            in_rounds=form.rounds,
            included=form.included,
        )
        for name, form in front.swatch.items()
    )


def find_swatch(front: FrontMatter, places: Places) -> Swatch | None:
    """The swatch that calibrates the yarn: the first that was weighed, else the first."""
    swatches = list_swatches(front, places)
    return next((swatch for swatch in swatches if swatch.grams), swatches[0] if swatches else None)
