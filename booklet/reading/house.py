"""The house file: what is the same in all patterns of one publisher."""

from pathlib import Path

from booklet.findings import Finding
from booklet.model.editions import choose_editions
from booklet.model.pattern import Publisher
from booklet.reading import messages
from booklet.reading.facts import find_handout
from booklet.reading.front_matter import read_house_form
from booklet.reading.size_tables import read_own_tables
from booklet.reading.style_form import find_style
from booklet.source import SourceFile
from booklet.source.files import open_source

HOUSE_FILE = "house.yaml"


def find_house(folder: Path) -> Path | None:
    """The house file that holds for a source in a folder: beside it, or one folder up."""
    for place in (folder, folder.parent, folder.resolve().parent):
        path = place / HOUSE_FILE
        if path.is_file():
            return path
    return None


def read_house(path: Path) -> tuple[Publisher, tuple[Finding, ...]]:
    """The publisher described in a house file; empty where it cannot be read."""
    try:
        file = open_source(path)
    except OSError as problem:
        reason = f"the house file cannot be opened: {problem.strerror or 'unknown reason'}"
        return Publisher(), (messages.source_unreadable(reason, SourceFile(str(path), "").whole()),)
    except ValueError as problem:
        return Publisher(), (messages.source_unreadable(str(problem), SourceFile(str(path), "").whole()),)
    form, places, findings = read_house_form(file)
    told: list[Finding] = []
    publisher = Publisher(
        name=form.name,
        contact=form.contact,
        website=form.website,
        errata=form.errata,
        licence=form.licence,
        theme=form.theme,
        margin=form.margin,
        papers=form.paper,
        units_first=form.units,
        editions=choose_editions(form.editions),
        handout=find_handout(form.handout),
        cm_per_inch=form.inch,
        style=find_style(form.style),
        size_tables=read_own_tables(form.size_tables, places, file.folder, told.append),
    )
    return publisher, (*findings, *told)
