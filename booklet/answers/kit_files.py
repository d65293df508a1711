"""The kit list as files: one PDF a paper, and a page for the screen."""

from dataclasses import dataclass
from pathlib import Path

from booklet.findings import Finding
from booklet.findings.render import has_errors
from booklet.model.kits import KitList, KitOrder
from booklet.output.files import make_safe, name_file, write_files

DEFAULT_PAPERS = ("A4", "Letter")


@dataclass(frozen=True, slots=True)
class Printing:
    """Where a list goes and how it looks; empty `papers` and `theme` leave it to the order."""

    out: Path
    papers: tuple[str, ...] = ()
    theme: str = ""


def print_kits(order: KitOrder, kits: KitList, printing: Printing) -> tuple[tuple[Path, ...], tuple[Finding, ...]]:
    """The files written, all or none, and what was found while setting them."""
    # What sets pages takes long to load, and a list for scripts needs none of it.
    from booklet.output.pdf import PrintJob, write_pdf
    from booklet.pages.edition import Edition
    from booklet.pages.kit_sheet import show_kit_sheet
    from booklet.pages.render import render_sheet
    from booklet.pages.theme import load_theme

    at = order.source.whole()
    folders = (order.source.folder, order.source.folder.parent, Path())
    theme, found = load_theme(printing.theme or order.theme, [folder / "themes" for folder in folders], at)
    findings: list[Finding] = [*found]
    sheet = show_kit_sheet(kits)
    files: dict[str, bytes] = {}
    page, found = render_sheet(sheet, Edition("kits-web", self_contained=True), theme)
    findings += found
    files[name_file(order.slug, "", "", "web", "html")] = page.html.encode("utf-8")
    for paper in printing.papers or order.papers or DEFAULT_PAPERS:
        page, found = render_sheet(sheet, Edition("kits", paper), theme)
        findings += found
        data, found = write_pdf(PrintJob(f"kits {paper}", page.html, page.resources, theme.font_folders, at))
        findings += found
        if data is not None:
            files[name_file(order.slug, "", "", paper, "pdf")] = data
    if has_errors(findings):
        return (), tuple(findings)
    paths, told = write_files(printing.out / make_safe(order.slug, "kits"), files, at)
    return paths, (*findings, *told)
