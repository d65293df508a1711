"""A source read as a whole: front matter, parts and rows as the model's `Pattern`."""

import re
import unicodedata
from dataclasses import replace
from pathlib import PurePath
from typing import Any

from booklet.findings import Finding
from booklet.model.editions import USUAL_EDITIONS, choose_editions
from booklet.model.pattern import Pattern, Publisher, Size, SpecialStitch
from booklet.model.size_tables import SizeTable
from booklet.reading import facts, messages
from booklet.reading.document import Document, read_document
from booklet.reading.forms import FrontMatter
from booklet.reading.front_matter import Places, read_front_matter
from booklet.reading.gauge_facts import find_swatch, list_gauges, list_motif_gauges, list_swatches
from booklet.reading.number_facts import list_numbers, list_shaping
from booklet.reading.places import PATTERN_FILE
from booklet.reading.size_tables import join_tables, list_sizes, read_own_tables
from booklet.reading.style_form import find_style
from booklet.reading.text_pictures import find_pictures_in_facts
from booklet.reading.yarn_facts import add_yarn_facts
from booklet.source import SourceFile, Span

DEFAULT_MARGIN = 0.1
DEFAULT_PAPERS = ("A4", "Letter")
DEFAULT_UNITS = "metric"
GUIDE = "guide"  # the kind of a pattern that has no rows on purpose

# Names that cannot be files on one system or another.
_TAKEN = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)", re.IGNORECASE)


def read_pattern(source: SourceFile, publisher: Publisher) -> tuple[Pattern | None, tuple[Finding, ...]]:
    """The pattern in a source, with what the publisher gives for all patterns where it says nothing.

    Only an empty source gives no pattern; whatever else is wrong is told and left out.
    """
    if not source.text.strip():
        return None, (messages.source_unreadable("the file is empty", source.whole()),)
    document, outline = read_document(source)
    front, places, mistakes = read_front_matter(source, document.front_start, document.front_end)
    findings = [*outline, *mistakes]
    slug = name_folder(source)
    title = front.title
    if not title:
        missing = _tell_missing_title(source, document)
        findings += [missing] if missing else []
        title = slug.replace("-", " ").capitalize()
    pattern = _gather_facts(source, document, front, places, publisher, findings.append)
    pattern = replace(
        _add_house(pattern, front, publisher), slug=slug, title=title, without_cautions=front.without_cautions
    )
    pattern = add_yarn_facts(pattern, front, places, publisher)
    pattern = replace(pattern, **_gather_editions(front, publisher))
    if not any(part.rows for part in pattern.parts) and pattern.kind != GUIDE:
        findings.append(messages.no_rows(_find_top(source, document)))
    findings += find_pictures_in_facts(source, document.front_start, document.front_end)
    return pattern, tuple(findings)


def _gather_facts(
    source: SourceFile,
    document: Document,
    front: FrontMatter,
    places: Places,
    publisher: Publisher,
    tell: facts.Tell,
) -> Pattern:
    """The pattern as its front matter has it."""
    sizes, tables = _find_sizes(source, front, places, publisher, tell)
    facts.check_hazards(front, places, tell)
    return Pattern(
        source=source,
        slug="",
        title=front.title,
        parts=document.parts,
        summary=front.summary,
        designer=front.designer,
        made_for=front.made_for,
        kind=front.kind.lower(),
        construction=front.construction,
        level=front.level,
        terms=front.terms,
        old_terms=front.old_terms,
        version=front.version,
        date=front.date,
        sizes=sizes,
        size_tables=tables,
        gauges=list_gauges(front, places),
        motif_gauges=list_motif_gauges(front, places),
        yarn=facts.find_yarn(front, places),
        colours=(colours := facts.list_colours(front, places, tell)),
        colourways=facts.list_colourways(front, places, colours, tell),
        hooks=facts.list_hooks(front, places),
        notions=front.notions,
        numbers=list_numbers(front, places, sizes, tell),
        shaping=list_shaping(front, places, tell),
        swatch=find_swatch(front, places),
        swatches=list_swatches(front, places),
        costs=facts.find_costs(front),
        making_time=front.making_time,
        special_stitches=_join_stitches(facts.list_special_stitches(front, places), document.special_stitches),
        abbreviations=front.abbreviations,
        counts_as=facts.tidy_turning_chains(front),
        has=front.has,
        care=front.care,
        images=facts.list_images(front, places, source, tell),
        cover=facts.find_cover(front, places, source, tell),
        refused=places.refused,
    )


def _add_house(pattern: Pattern, front: FrontMatter, publisher: Publisher) -> Pattern:
    """The pattern with what the publisher gives where the front matter says nothing."""
    return replace(
        pattern,
        licence=front.licence or publisher.licence,
        margin=_first(front.margin, publisher.margin, DEFAULT_MARGIN),
        theme=front.theme or publisher.theme,
        papers=front.paper or publisher.papers or DEFAULT_PAPERS,
        left_handed=front.left_handed,
        units_first=front.units or publisher.units_first or DEFAULT_UNITS,
        publisher=_name_publisher(publisher, front),
        style=find_style(front.style, publisher.style),
    )


def _gather_editions(front: FrontMatter, publisher: Publisher) -> dict[str, Any]:
    """What is to be made, and what only some of it shows."""
    return {
        "editions": choose_editions(front.editions) or publisher.editions or USUAL_EDITIONS,
        "summary_of_one_size": front.summary_of_one_size,
        "page": front.page,
        "video": front.video,
        "handout": facts.find_handout(front.handout) or publisher.handout,
    }


def _find_sizes(
    source: SourceFile, front: FrontMatter, places: Places, publisher: Publisher, tell: facts.Tell
) -> tuple[tuple[Size, ...], tuple[SizeTable, ...]]:
    """The sizes, and the tables that they take measures from: the pattern's own, the publisher's, the built-in ones."""
    own = read_own_tables(front.size_tables, places, source.folder, tell)
    return list_sizes(front, places, join_tables(publisher.size_tables, own), tell)


def name_folder(source: SourceFile) -> str:
    """A name that is safe for folders and files everywhere, from the source's folder or file."""
    path = PurePath(source.path)
    word = path.stem
    if path.name == PATTERN_FILE:
        word = path.parent.name or source.folder.resolve().name or word
    plain = unicodedata.normalize("NFKD", word).encode("ascii", "ignore").decode()
    slug = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:60].strip("-")
    return f"pattern-{slug}" if _TAKEN.fullmatch(slug) else slug or "pattern"


def _first(*values: float | None) -> float:
    return next(value for value in values if value is not None)


def _find_top(source: SourceFile, document: Document) -> Span:
    """The opening line of the front matter, or the file as a whole."""
    if not document.has_front:
        return source.whole()
    start = source.text.index("---")
    return Span(source, start, start + 3)


def _tell_missing_title(source: SourceFile, document: Document) -> Finding | None:
    """None where a title stands there that could not be read: that has been told already."""
    span = _find_top(source, document)
    line = re.compile(r"^title[ \t]*:[ \t]*(.*)$", re.MULTILINE | re.IGNORECASE)
    named = line.search(source.text, document.front_start, document.front_end)
    if named is not None and named.group(1).strip():
        return None
    if named is not None:
        span = Span(source, named.start(), named.start() + len("title"))
    heading = next((part.title for part in document.parts if part.level == 1 and part.title), "")
    return messages.missing_title(span, heading, document.has_front)


def _join_stitches(listed: tuple[SpecialStitch, ...], defined: tuple[SpecialStitch, ...]) -> tuple[SpecialStitch, ...]:
    """Stitches of the front matter, then those that only the body defines."""
    names = {stitch.name.lower() for stitch in listed}
    return listed + tuple(stitch for stitch in defined if stitch.name.lower() not in names)


def _name_publisher(publisher: Publisher, front: FrontMatter) -> Publisher:
    return replace(
        publisher,
        contact=front.contact or publisher.contact,
        website=front.website or publisher.website,
        errata=front.errata or publisher.errata,
    )
