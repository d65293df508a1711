"""A kit order read: a small YAML file beside the patterns it names."""

from pathlib import Path

from booklet.findings import Finding
from booklet.model.kits import Band, KitOrder, Lot, SizeTable
from booklet.reading import messages
from booklet.reading.front_matter import Places, read_form
from booklet.reading.order_forms import MEASURES, BandForm, LotForm, OrderForm
from booklet.reading.pattern import name_folder
from booklet.source import SourceFile
from booklet.source.files import open_source

ENDINGS = (".yaml", ".yml")
MOST_MAKERS = 2_000


def read_order(path: Path) -> tuple[KitOrder | None, tuple[Finding, ...]]:
    """The order in a file; None where it cannot be read or does not say for how many makers, or of which pattern."""
    try:
        file = open_source(path)
    except OSError as problem:
        reason = f"the kit order cannot be opened: {problem.strerror or 'unknown reason'}"
        return None, (messages.source_unreadable(reason, SourceFile(str(path), "").whole()),)
    except ValueError as problem:
        return None, (messages.source_unreadable(str(problem), SourceFile(str(path), "").whole()),)
    form, places, findings = read_form(OrderForm, "a kit order", file, 0, len(file.text))
    assert isinstance(form, OrderForm)
    lots = _list_lots(form, places)
    missing: list[Finding] = []
    if not 0 < form.makers <= MOST_MAKERS and not places.lost("makers"):
        missing.append(
            messages.missing_key("makers", "a kit order", f"how many makers, from 1 to {MOST_MAKERS}", file.whole())
        )
    if not any(lot.pattern for lot in lots):
        missing.append(messages.missing_key("pattern", "a kit order", "the folder or file of a pattern", file.whole()))
    if missing or any(not lot.pattern for lot in lots):
        return None, (*findings, *missing)
    order = KitOrder(
        source=file,
        slug=name_folder(file),
        makers=form.makers,
        lots=lots,
        title=form.title,
        date=form.date,
        each=form.each,
        spare=form.spare,
        sheets=form.sheets,
        table=SizeTable(form.size_table.name, form.size_table.source, form.size_table.date),
        note=form.note,
        theme=form.theme,
        papers=form.paper,
    )
    return order, findings


def _list_lots(form: OrderForm, places: Places) -> tuple[Lot, ...]:
    """The patterns of a list, or the one that the order itself names."""
    if form.patterns:
        return tuple(_read_lot(lot, places, "patterns", at) for at, lot in enumerate(form.patterns))
    return (_read_lot(form, places),)


def _read_lot(form: LotForm, places: Places, *path: str | int) -> Lot:
    bands = tuple(_read_band(name, band, places, *path, "bands", name) for name, band in form.bands.items())
    return Lot(form.pattern, places.value(*path, "pattern"), bands, form.on_hand)


def _read_band(name: str, form: BandForm, places: Places, *path: str | int) -> Band:
    measures = {measure: value for measure in MEASURES if (value := getattr(form, measure)) is not None}
    return Band(name, measures, places.key(*path), form.size, form.items)
