"""A proved pattern carried into the other set of English terms, for pages in both.

Nothing is worked again: the stitches, counts, measures and yarn are those of the proof. What changes is
what things are called: rows (printed from their trees), the key, special stitches, and prose that names
stitches. The keys by which parts know each other (gauges, pieces) change everywhere at once.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from booklet.amounts.key import explain_term, list_terms
from booklet.findings import Finding
from booklet.model.amounts import Amounts
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import Image, Part, Pattern, Prose, RowLine, SizedPattern
from booklet.model.work import Reading, WorkedPart, WorkedPattern
from booklet.pages.views import Section
from booklet.rows.arranging import Arranged
from booklet.rows.dialect_messages import prose_not_carried
from booklet.rows.print import PrintedRow
from booklet.rows.print_lines import CarriedRows, carry_rows
from booklet.rows.print_prose import carry_prose, find_left
from booklet.terms import load_table
from booklet.working.rearranged import style_rows


@dataclass(frozen=True, slots=True)
class Carried:
    """A pattern in other terms or in a house's style: what pages are made from.

    `rows` are those that are not printed as written, by the start and end of their line.
    """

    sized: SizedPattern
    worked: WorkedPattern
    amounts: Amounts
    rows: Mapping[tuple[int, int], PrintedRow]
    arranged: Arranged = Arranged()


@dataclass(frozen=True, slots=True)
class Carrier:
    """Carries words from one set of terms to the other."""

    written_in: str
    terms: str

    def carry(self, text: str) -> str:
        return carry_prose(text, self.written_in, self.terms)

    def carry_all(self, texts: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(self.carry(text) for text in texts)


def carry_pattern(
    parsed: ParsedPattern, worked: WorkedPattern, amounts: Amounts, terms: str
) -> tuple[Carried, tuple[Finding, ...]]:
    """The pattern in "US" or "UK" terms, "" for its own; a finding for each row or line that could not follow.

    In its own terms the pattern is as its author wrote it, and no row is printed from its tree, unless the house
    has a style of its own.
    """
    sized = parsed.sized
    if terms in ("", sized.pattern.terms):
        return (
            _style_pattern(parsed, worked, amounts)
            if sized.pattern.style.changes_rows
            else (Carried(sized, worked, amounts, {}), ())
        )
    carrier = Carrier(sized.pattern.terms, terms)
    pattern = _carry_facts(sized.pattern, carrier)
    pattern = replace(pattern, parts=tuple(_carry_part(part, carrier) for part in pattern.parts))
    rows, arranged, findings = _carry_rows(parsed, worked, pattern)
    pattern = replace(pattern, parts=tuple(_put_texts(part, rows.texts) for part in pattern.parts))
    numbers = {name: replace(number, gauge=carrier.carry(number.gauge)) for name, number in sized.numbers.items()}
    carried_work = _carry_worked(worked, carrier)
    used = (*carried_work.stitch_names, *_list_abbreviations(rows, terms))
    carried_work = replace(carried_work, stitch_names=tuple(dict.fromkeys(used)))
    key, unexplained = list_terms(pattern, carried_work)
    carried_amounts = replace(
        amounts,
        key=tuple(term for term in key if term.meaning or term.abbreviation.lower() != term.name.lower()),
        materials=tuple(replace(material, text=carrier.carry(material.text)) for material in amounts.materials),
        measures=tuple(replace(measure, part=carrier.carry(measure.part)) for measure in amounts.measures),
    )
    carried = Carried(SizedPattern(pattern, numbers), carried_work, carried_amounts, rows.printed, arranged)
    return carried, (*findings, *unexplained, *_find_left(sized.pattern, terms))


def _carry_rows(
    parsed: ParsedPattern, worked: WorkedPattern, pattern: Pattern
) -> tuple[CarriedRows, Arranged, tuple[Finding, ...]]:
    if not pattern.style.changes_rows:
        rows, findings = carry_rows(parsed, pattern)
        return rows, Arranged(), findings
    styled, findings = style_rows(parsed, worked, pattern.style, pattern)
    return styled.carried, styled.arranged, findings


def _style_pattern(
    parsed: ParsedPattern, worked: WorkedPattern, amounts: Amounts
) -> tuple[Carried, tuple[Finding, ...]]:
    """The pattern in its own terms with its rows in the style of the house; the key has the words that they use."""
    pattern = parsed.sized.pattern
    styled, findings = style_rows(parsed, worked, pattern.style, pattern)
    rows = styled.carried
    used = dict.fromkeys((*worked.stitch_names, *_list_abbreviations(rows, pattern.terms)))
    worked = replace(worked, stitch_names=tuple(used))
    key, _ = list_terms(pattern, worked)
    shown = tuple(term for term in key if term in amounts.key or term.abbreviation.lower() != term.name.lower())
    return Carried(parsed.sized, worked, replace(amounts, key=shown), rows.printed, styled.arranged), findings


def _list_abbreviations(rows: CarriedRows, terms: str) -> Iterator[str]:
    """The trade's short words that the printed rows use, their author or not: rep, rnd, sp."""
    text = " ".join([*(row.text for row in rows.printed.values()), *rows.texts.values()])
    words = set(re.findall(r"[A-Za-z]+(?:-sp)?", text))
    for key, entry in load_table("words").items():
        short = entry["uk"] if terms == "UK" else key
        if {short, f"{short}s", short.capitalize()} & words:
            yield key


def speak_terms(sections: Iterable[Section], terms: str) -> tuple[Section, ...]:
    """The sections with the page's own labels and notes, which are written in US terms, in those of the booklet."""
    return tuple(
        replace(
            section,
            facts=tuple(replace(fact, label=carry_prose(fact.label, "US", terms)) for fact in section.facts),
            notes=tuple(_carry_note(note, terms) for note in section.notes),
        )
        for section in sections
    )


def _carry_note(note: str | Markup, terms: str) -> str | Markup:
    return note if isinstance(note, Markup) else carry_prose(note, "US", terms)


def _find_left(pattern: Pattern, terms: str) -> Iterator[Finding]:
    """Lines of prose that speak of both sets and so were left alone."""
    for part in pattern.parts:
        for block in part.blocks:
            if isinstance(block, Prose):
                for start, end in find_left(block.text, pattern.terms):
                    yield prose_not_carried(block.span.sub(start, end), terms)


def _carry_facts(pattern: Pattern, carrier: Carrier) -> Pattern:
    """The facts of the front matter that are printed as words."""
    carry = carrier.carry
    return replace(
        pattern,
        terms=carrier.terms,
        summary=carry(pattern.summary),
        summary_of_one_size=carry(pattern.summary_of_one_size),
        construction=carry(pattern.construction),
        care=carry(pattern.care),
        notions=carrier.carry_all(pattern.notions),
        gauges=tuple(replace(gauge, name=carry(gauge.name), stitch=carry(gauge.stitch)) for gauge in pattern.gauges),
        motif_gauges=tuple(replace(gauge, stitch=carry(gauge.stitch)) for gauge in pattern.motif_gauges),
        swatches=tuple(replace(swatch, stitch=carry(swatch.stitch)) for swatch in pattern.swatches),
        hooks=tuple(replace(hook, use=carry(hook.use)) for hook in pattern.hooks),
        numbers=tuple(replace(rule, gauge=carry(rule.gauge)) for rule in pattern.numbers),
        swatch=replace(pattern.swatch, stitch=carry(pattern.swatch.stitch)) if pattern.swatch else None,
        special_stitches=tuple(
            replace(
                special,
                name=carry(special.name),
                text=carry(special.text),
                abbreviation=carry(special.abbreviation),
                images=_carry_images(special.images, carrier),
            )
            for special in pattern.special_stitches
        ),
        abbreviations={carry(short): carry(meaning) for short, meaning in pattern.abbreviations.items()},
        images=_carry_images(pattern.images, carrier),
        cover=_carry_image(pattern.cover, carrier) if pattern.cover else None,
    )


def _carry_image(image: Image, carrier: Carrier) -> Image:
    return replace(image, alt=carrier.carry(image.alt), caption=carrier.carry(image.caption))


def _carry_images(images: tuple[Image, ...], carrier: Carrier) -> tuple[Image, ...]:
    return tuple(_carry_image(image, carrier) for image in images)


def _carry_part(part: Part, carrier: Carrier) -> Part:
    blocks = tuple(
        replace(block, text=carrier.carry(block.text), images=_carry_images(block.images, carrier))
        if isinstance(block, Prose)
        else block
        for block in part.blocks
    )
    return replace(part, title=carrier.carry(part.title), blocks=blocks)


def _put_texts(part: Part, texts: Mapping[tuple[int, int], str]) -> Part:
    """The part with the carried text of each row that is not printed from its tree."""
    blocks = tuple(
        replace(block, text=texts.get((block.span.start, block.span.end), block.text))
        if isinstance(block, RowLine)
        else block
        for block in part.blocks
    )
    return replace(part, blocks=blocks)


def _carry_worked(worked: WorkedPattern, carrier: Carrier) -> WorkedPattern:
    """The same work; titles, gauges and sentences carried over."""
    return replace(
        worked,
        parts=tuple(_carry_worked_part(part, carrier) for part in worked.parts),
        stitch_names=tuple(
            name if explain_term(name, carrier.terms) else carrier.carry(name) for name in worked.stitch_names
        ),
        readings=tuple(Reading(carrier.carry(reading.text), reading.span) for reading in worked.readings),
        defined={carrier.carry(short): carrier.carry(meaning) for short, meaning in worked.defined.items()},
    )


def _carry_worked_part(part: WorkedPart, carrier: Carrier) -> WorkedPart:
    names = {name: carrier.carry(name) for size in part.rows for row in size for name in (row.gauge, row.section)}
    rows = part.rows
    if any(name != carried for name, carried in names.items()):
        rows = tuple(
            tuple(replace(row, gauge=names[row.gauge], section=names[row.section]) for row in size) for size in rows
        )
    return replace(part, title=carrier.carry(part.title), gauge=carrier.carry(part.gauge), rows=rows)
