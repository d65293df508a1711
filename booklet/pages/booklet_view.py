"""The whole booklet in order, ready for its templates."""

from dataclasses import replace
from datetime import date

from booklet.amounts.own_measures import list_own
from booklet.drawings.shades import letter_shade, read_shade, write_shade
from booklet.pages.closing import show_about, show_care, show_safety
from booklet.pages.figures import print_date
from booklet.pages.front import show_cover, show_glance
from booklet.pages.handout import show_handout
from booklet.pages.illustrations import (
    show_aids,
    show_charts,
    show_colours,
    show_first,
    show_photos,
    show_plan,
    show_schematic,
)
from booklet.pages.in_full import show_in_full
from booklet.pages.instructions import FIRST_LEVEL, join_prose, order_sizes, show_instructions, show_notes, show_pieces
from booklet.pages.manuscript import BookletInput
from booklet.pages.other_terms import speak_terms
from booklet.pages.outline import Outline, outline_parts
from booklet.pages.reference import show_gauge, show_key, show_special, show_terms
from booklet.pages.row_texts import group_worked_rows
from booklet.pages.size_marks import mark_facts, mark_sections
from booklet.pages.tables import is_blocked, list_finished, show_materials, show_sizes
from booklet.pages.typography import set_type
from booklet.pages.views import BookletView, ColourPatch, ContentsLine, Cover, Passage, Section

LOGO = "logo"  # the name of the picture
LOOKED_UP = ("sizes", "materials", "colours", "gauge", "key", "terms")  # front matter
MAX_HEAD = 52  # letters that the running head has room for between title and section


def view_booklet(manuscript: BookletInput) -> BookletView:
    """Every section that the pattern has matter for, in the customary order.

    Finishing follows the rows, since it is part of the work; drawings come after both.
    """
    pattern = manuscript.pattern
    sections = _list_sections(manuscript)
    instructions = next((section for section in sections if section.key == "instructions"), None)
    size_order = order_sizes(manuscript)
    version = f"Version {pattern.version}" if pattern.version else ""
    size = f"Size {set_type(manuscript.only_size)} only" if manuscript.only_size else ""
    return BookletView(
        title=set_type(pattern.title),
        key=" ".join(word for word in (pattern.slug, pattern.version, pattern.terms) if word),
        language="en-GB" if pattern.terms == "UK" else "en-US",
        description=" ".join(pattern.summary.split()) or f"A crochet pattern: {pattern.title}",
        designer=set_type(pattern.designer),
        publisher=set_type(pattern.publisher.name),
        version=pattern.version,
        date=print_date(pattern.date, pattern.units_first),
        iso_date=_read_date(pattern.date),
        terms=pattern.terms,
        edition_line=" · ".join(words for words in (version, f"{pattern.terms} terms", size) if words),
        cover=_mark_cover(manuscript),
        logo=show_first(manuscript, LOGO),
        sections=sections,
        contents=tuple(line for section in sections for line in _list_contents(section)),
        patches=tuple(
            ColourPatch(
                colour.letter,
                set_type(colour.name),
                write_shade(read_shade(colour.shade)),
                write_shade(letter_shade(read_shade(colour.shade))),
            )
            for colour in pattern.colours
        ),
        sizes=len(pattern.size_names),
        size_order=size_order if len(size_order) <= MAX_HEAD else "",
        handout=show_handout(manuscript),
        style=pattern.style,
        start=instructions.anchor if instructions else "",
        only_size=set_type(manuscript.only_size),
        is_blocked=is_blocked(pattern),
        rows_word=_name_rows(manuscript),
        size_names=tuple(set_type(name) for name in pattern.size_names if name),
        measure_names=_list_measured(manuscript),
        has_steps=bool(manuscript.pictures_for("step")),
    )


def _mark_cover(manuscript: BookletInput) -> Cover:
    """The cover; on a page of all sizes each size's facts are marked."""
    cover = show_cover(manuscript)
    if manuscript.parsed is None:
        return cover
    return replace(cover, facts=mark_facts(cover.facts, [set_type(name) for name in manuscript.pattern.size_names]))


def _list_measured(manuscript: BookletInput) -> tuple[str, ...]:
    """What a tester measures: every finished measure, and those of the sizes that are not the wearer's."""
    finished = [line.head for line in list_finished(replace(manuscript, for_testers=False))]
    own = [one.name for one in list_own(manuscript.sized, manuscript.amounts.measures) if not one.is_body]
    return (*finished, *(set_type(name[:1].upper() + name[1:]) for name in own))


def _name_rows(manuscript: BookletInput) -> str:
    """ "round" where everything numbered is worked in rounds, else "row"."""
    kinds = {row.kind for part in manuscript.worked.parts for size in part.rows for row in size}
    return "round" if "round" in kinds and "row" not in kinds else "row"


def _list_sections(manuscript: BookletInput) -> tuple[Section, ...]:
    outline = outline_parts(manuscript.pattern.parts)
    worked = group_worked_rows(manuscript)
    own_words = [(place.part.span.start, place.part.span.end) for place in outline.parts("special")]
    instructions = show_pieces(outline.parts("instructions"), manuscript, worked, "piece")
    computed = [
        ("glance", show_glance(manuscript)),
        ("sizes", show_sizes(manuscript)),
        ("materials", show_materials(manuscript)),
        ("colours", show_colours(manuscript)),
        ("gauge", show_gauge(manuscript)),
        ("key", show_key(manuscript)),
        ("terms", show_terms(manuscript)),
        ("special", show_special(manuscript, own_words)),
        ("notes", show_notes(manuscript)),
        ("instructions", show_instructions(manuscript, instructions)),
        ("finishing", Section("finishing", "Finishing", "finishing")),
        ("charts", show_charts(manuscript)),
        ("plan", show_plan(manuscript)),
        ("schematic", show_schematic(manuscript)),
        ("pictures", show_photos(manuscript)),
        ("measuring", show_aids(manuscript)),
        ("in-full", show_in_full(manuscript) if manuscript.in_full or manuscript.parsed is not None else None),
        ("care", show_care(manuscript)),
        ("safety", show_safety(manuscript)),
        ("about", show_about(manuscript)),
    ]
    if manuscript.pattern.style.front_matter == "after":
        computed = _put_behind(computed)
    sections = [_add_own_words(key, section, outline, manuscript) for key, section in computed]
    kept = (section for section in sections if section is not None and _has_matter(section))
    spoken = speak_terms(kept, manuscript.pattern.terms)
    if manuscript.parsed is None:
        return spoken
    return mark_sections(spoken, [set_type(name) for name in manuscript.pattern.size_names])


def _put_behind(sections: list[tuple[str, Section | None]]) -> list[tuple[str, Section | None]]:
    """The sections with what is looked up behind the rows and their finishing; notes on the rows stay before them."""
    moved = [each for each in sections if each[0] in LOOKED_UP]
    kept = [each for each in sections if each[0] not in LOOKED_UP]
    at = next(at for at, (key, _) in enumerate(kept) if key == "finishing") + 1
    return [*kept[:at], *moved, *kept[at:]]


def _add_own_words(key: str, section: Section | None, outline: Outline, manuscript: BookletInput) -> Section | None:
    """The section with what its author wrote under the same heading."""
    placed = outline.parts(key)
    if not placed or key == "instructions":
        return section
    section = section or Section(key, placed[0].part.title, key)
    pieces = show_pieces(placed, manuscript, {}, key, FIRST_LEVEL - 1)  # the outermost is the section's own heading
    first = [piece for piece, place in zip(pieces, placed, strict=False) if place.depth == 0]
    deeper = tuple(piece for piece in pieces if piece not in first)
    own = tuple(passage for piece in first for passage in piece.passages)
    computed = (Passage(None, section.lead),) if section.lead else ()
    return replace(
        section,
        lead=section.lead + join_prose(first),
        passages=(*computed, *own) if any(passage.figures for passage in own) else (),
        pieces=deeper,
    )


def _has_matter(section: Section) -> bool:
    return any(
        (
            section.lead,
            section.passages,
            section.facts,
            section.tables,
            section.entries,
            section.figures,
            section.swatches,
            section.pieces,
        )
    )


def _list_contents(section: Section) -> list[ContentsLine]:
    """The section, and under the instructions each piece of the first order."""
    lines = [ContentsLine(section.title, section.anchor)]
    if section.key == "instructions":
        lines += [ContentsLine(p.title, p.anchor, 1) for p in section.pieces if p.title and p.level == FIRST_LEVEL]
    return lines


def _read_date(text: str) -> str:
    """The date in calendar form for the document's own record; empty where it is none."""
    try:
        return date.fromisoformat(text.strip()).isoformat()
    except ValueError:
        return ""
