"""A commission for one size alone: its rows, numbers, measures, yarn and pictures, and no other size's."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import fields, replace
from typing import Any, cast

from booklet.amounts.materials import list_yarn
from booklet.drawings.picture import Picture
from booklet.editions import messages
from booklet.editions.commission import Commission, draw_pictures
from booklet.editions.size_rows import SizedLine, SizeRows, list_printed
from booklet.findings import Finding
from booklet.model.amounts import Amounts, Measure, YarnUse
from booklet.model.pattern import Image, Part, Pattern, Prose, RowLine, SizedNumber
from booklet.model.work import WorkedPattern
from booklet.output.files import make_safe
from booklet.pages.manuscript import BookletInput

CHOOSING = re.compile(r"(?:choosing|how to choose|which|picking|selecting) (?:a|the|your)? ?size\??", re.IGNORECASE)
Lines = dict[tuple[int, int], SizedLine]


def choose_sizes(commission: Commission, wanted: Sequence[str]) -> tuple[tuple[Commission, ...], tuple[Finding, ...]]:
    """A commission for each size that is asked for by name; the whole one where none is."""
    if not wanted:
        return (commission,), ()
    names = commission.pattern.size_names
    places = {name.casefold(): size for size, name in enumerate(names)}
    chosen: list[Commission] = []
    findings: list[Finding] = []
    for word in dict.fromkeys(wanted):
        size = places.get(" ".join(word.split()).casefold())
        if size is None:
            findings.append(messages.size_unknown(commission.at, word, names))
            continue
        alone, told = take_one_size(commission, size)
        chosen.append(alone)
        findings += told
    return tuple(chosen), tuple(findings)


def take_one_size(commission: Commission, size: int, draws: bool = True) -> tuple[Commission, tuple[Finding, ...]]:
    """The commission for the size at that place; the same one where the pattern has no other.

    Where it is not drawn, it keeps the pictures of all sizes.
    """
    names = commission.pattern.size_names
    if len(names) < 2:
        return commission, ()
    book = commission.manuscript
    rows = SizeRows(commission.parsed, size, book.pattern.terms, commission.arranged, book.pattern, commission.worked)
    lines: Lines = {}
    for part in commission.parsed.sized.pattern.parts:
        for line in part.rows:
            if (sized := rows.print_line(line)) is not None:
                lines[line.span.start, line.span.end] = sized
    pattern = _take_pattern(book.pattern, size, rows, lines)
    numbers = {name: _take_number(number, size, len(names)) for name, number in book.sized.numbers.items()}
    sized_pattern = replace(
        book.sized,
        pattern=pattern,
        numbers=numbers,
        shaping=tuple(_take_fields(shaping, size, len(names)) for shaping in book.sized.shaping),
    )
    worked = _take_worked(book.worked, size)
    amounts = _take_amounts(book.amounts, pattern, size, names[size], rows)
    pictures: Sequence[Picture] = book.pictures
    findings: tuple[Finding, ...] = ()
    if draws:
        pictures, findings = draw_pictures(sized_pattern, worked, amounts, commission.theme)
    printed = {place: row for place, row in book.rows.items() if place not in lines} | list_printed(lines)
    manuscript = BookletInput(
        sized_pattern,
        worked,
        amounts,
        pictures,
        printed,
        names[size],
        names,
    )
    return replace(commission, manuscript=manuscript, size=name_size(names, size), place=size), findings


def name_size(names: tuple[str, ...], size: int) -> str:
    """The size as part of a file name; its number where its name cannot stand there or is another's as well."""
    safe = [make_safe(name).casefold() for name in names]
    return names[size] if safe[size] and safe.count(safe[size]) == 1 else f"size-{size + 1}"


def _take_pattern(pattern: Pattern, size: int, rows: SizeRows, lines: Lines) -> Pattern:
    take = rows.take_prose
    return replace(
        pattern,
        sizes=pattern.sizes[size : size + 1],
        parts=tuple(_take_parts(pattern.parts, rows, lines)),
        summary=take(pattern.summary_of_one_size or pattern.summary),
        construction=take(pattern.construction),
        care=take(pattern.care),
        notions=tuple(map(take, pattern.notions)),
        special_stitches=tuple(
            replace(stitch, text=take(stitch.text), images=_take_images(stitch.images, rows))
            for stitch in pattern.special_stitches
        ),
    )


def _take_images(images: tuple[Image, ...], rows: SizeRows) -> tuple[Image, ...]:
    take = rows.take_prose
    return tuple(replace(image, alt=take(image.alt), caption=take(image.caption)) for image in images)


def _take_parts(parts: tuple[Part, ...], rows: SizeRows, lines: Lines) -> Iterator[Part]:
    """Every part that the size has; one that loses all its rows goes with them, and so does how to choose a size."""
    for part in parts:
        if CHOOSING.fullmatch(" ".join(part.title.split())) and not part.rows:
            continue
        blocks: list[RowLine | Prose] = []
        for block in part.blocks:
            if isinstance(block, Prose):
                blocks.append(replace(block, text=rows.take_prose(block.text), images=_take_images(block.images, rows)))
                continue
            line = lines.get((block.span.start, block.span.end))
            if line is None:
                blocks.append(block)
            elif not line.is_left_out:
                blocks.append(replace(block, text=block.text if line.text is None else line.text))
        if not part.rows or any(isinstance(block, RowLine) for block in blocks):
            yield replace(part, blocks=tuple(blocks))


def _take_number(number: SizedNumber, size: int, sizes: int) -> SizedNumber:
    return cast(SizedNumber, _take_fields(number, size, sizes))


def _take_fields(item: Any, size: int, sizes: int) -> Any:
    """The figures of one size wherever a field holds one for each."""
    held = {field.name: getattr(item, field.name) for field in fields(item)}
    several = {name: value for name, value in held.items() if isinstance(value, tuple) and len(value) == sizes}
    return replace(item, **{name: value[size : size + 1] for name, value in several.items()})


def _take_worked(worked: WorkedPattern, size: int) -> WorkedPattern:
    return replace(worked, parts=tuple(replace(part, rows=part.rows[size : size + 1]) for part in worked.parts))


def _take_amounts(amounts: Amounts, pattern: Pattern, size: int, name: str, rows: SizeRows) -> Amounts:
    """The figures of the proof for this size: none is computed anew."""
    yarn = _take_yarn(amounts.yarn, name)
    others = (
        replace(material, text=rows.take_prose(material.text))
        for material in amounts.materials
        if material.heading != "Yarn"
    )
    return replace(
        amounts,
        measures=tuple(_take_measure(measure, size) for measure in amounts.measures),
        yarn=yarn,
        materials=(*list_yarn(pattern, yarn), *others),
    )


def _take_measure(measure: Measure, size: int) -> Measure:
    return cast(Measure, _take_fields(measure, size, len(measure.cm)))


def _take_yarn(yarn: YarnUse | None, name: str) -> YarnUse | None:
    if yarn is None:
        return None
    needs = tuple(need for need in yarn.needs if need.size == name)
    shared = tuple(balls for balls in yarn.shared if balls.size == name)
    return replace(
        yarn, needs=needs, shared=shared, totals={size: need for size, need in yarn.totals.items() if size == name}
    )
