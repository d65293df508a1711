"""The body of a source cut into parts, and each part into rows and prose.

A line decides for itself what it is; only then are lines put together. A row runs on over the lines
below it until a blank line, a heading or the next label, so that text wrapped by hand is one row.
Headings that name a list of notes (materials, abbreviations, finishing ...) hold rows only where a
label says so; elsewhere an instruction without a label belongs to the flow of rows.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from booklet.findings import Finding
from booklet.model.pattern import Part, Prose, RowLine, SpecialStitch
from booklet.reading import messages
from booklet.reading.definitions import find_definitions
from booklet.reading.headings import SPECIAL, is_notes, read_heading
from booklet.reading.labels import (
    ends_open,
    ends_sentence,
    find_inner_labels,
    find_label,
    is_flow,
    name_before_chain,
    stands_for_rows,
    tells_pattern,
)
from booklet.reading.text_pictures import holds_pictures_only, number_pictures, set_pictures_apart, take_pictures_out
from booklet.source import SourceFile, Span

FRONT = "---"

_HEADING = re.compile(r" {0,3}(#{1,6})[ \t]+(.*?)[ \t]*#*[ \t]*$")
_UNDERLINE = re.compile(r" {0,3}(=+|-{3,})[ \t]*$")
_BOLD = re.compile(r" {0,3}(\*\*|__)(?P<words>[A-Z][^*_:]{1,60}?):?\1:?[ \t]*$")
BOLD_LEVEL = 3
_CAPITALS = re.compile(r" {0,3}(?P<words>[A-Z][A-Z'’ &-]{2,30}(?:\s*\((?:MAKE|make|Make) \d{1,2}\))?):?[ \t]*$")
_BULLET = re.compile(r"\s*(?:[-*+]|\d{1,3}[.)])[ \t]+(?:\[[ xX]\][ \t]+)?")
_FENCE = re.compile(r" {0,3}(```+|~~~+)")
_ASIDE = re.compile(r"\s*>")
_TABLE = re.compile(r"\s*\|")


@dataclass(frozen=True, slots=True)
class Document:
    """A source cut up: where the front matter stands (both offsets equal where there is none), and the rest."""

    front_start: int
    front_end: int
    has_front: bool
    parts: tuple[Part, ...]
    special_stitches: tuple[SpecialStitch, ...]


@dataclass(slots=True)
class _Line:
    """One line and what it is: heading, blank, quiet (left out), row, prose, picture.

    `start` and `end` are offsets in the file; a row starts behind its bullet. `words` are a heading's.
    """

    kind: str
    start: int
    end: int
    level: int = 0
    words: tuple[int, int] = (0, 0)


def read_document(file: SourceFile) -> tuple[Document, tuple[Finding, ...]]:
    """The parts of a file, and what is wrong with its outline."""
    front_start, front_end, body, findings = _find_front(file)
    lines = list(_sort_lines(file, body))
    parts: list[Part] = []
    stitches: list[SpecialStitch] = []
    found = list(findings)
    for section in _split_sections(lines):
        part, defined, mistakes = _build_part(file, section, body)
        found += mistakes
        stitches += defined
        if part is not None:
            parts.append(part)
    has_front = front_end > front_start or body > 0
    return Document(front_start, front_end, has_front, *number_pictures(parts, stitches)), tuple(found)


def _find_front(file: SourceFile) -> tuple[int, int, int, list[Finding]]:
    """Start and end of the front matter, start of the body."""
    text = file.text
    opening = re.match(r"(?:[ \t]*\n)*(---)[ \t]*(?:\n|$)", text)
    if opening is None:
        return 0, 0, 0, []
    closing = re.compile(r"^(?:---|\.\.\.)[ \t]*$", re.MULTILINE).search(text, opening.end())
    if closing is not None:
        return opening.end(), closing.start(), min(len(text), closing.end() + 1), []
    # Never closed: the keys end at the first heading, label or blank line.
    end = len(text)
    for start, stop in _list_lines(file, opening.end()):
        line = text[start:stop]
        if not line.strip() or _HEADING.match(line) or find_label(line.lstrip()):
            end = start
            break
    return opening.end(), end, end, [messages.front_matter_open(Span(file, opening.start(1), opening.end(1)))]


def _list_lines(file: SourceFile, begin: int) -> Iterator[tuple[int, int]]:
    for start, line in zip(file.line_starts, file.lines, strict=True):
        if start >= begin:
            yield start, start + len(line)


def _sort_lines(file: SourceFile, body: int) -> Iterator[_Line]:
    """Every line of the body with its kind; "text" where it may be prose or an instruction."""
    fence = ""
    in_comment = False
    before: _Line | None = None
    for start, end in _list_lines(file, body):
        line = file.text[start:end]
        kind = "text"
        opened = _FENCE.match(line)
        if fence:
            kind = "prose"
            if opened and opened.group(1).startswith(fence) and not line[opened.end() :].strip():
                fence = ""
        elif in_comment or line.lstrip().startswith("<!--"):
            closed = line.find("-->", 0 if in_comment else line.find("<!--") + 4)
            in_comment = closed < 0
            kind = "quiet" if in_comment or not line[closed + 3 :].strip() else "text"
            start = start if kind == "quiet" else start + closed + 3
        elif opened:
            fence = opened.group(1)[:3]
            kind = "prose"
        elif not line.strip():
            kind = "blank"
        elif heading := _HEADING.match(line):
            words = (start + heading.start(2), start + heading.end(2))
            yield (before := _Line("heading", start, end, len(heading.group(1)), words))
            continue
        elif (
            (bold := _BOLD.match(line) or _CAPITALS.match(line))
            and (before is None or before.kind == "blank")
            and _is_title(bold["words"])
        ):
            words = (start + bold.start("words"), start + bold.end("words"))
            yield (before := _Line("heading", start, end, BOLD_LEVEL, words))
            continue
        elif holds_pictures_only(line):
            kind = "picture"
        elif _ASIDE.match(line) or _TABLE.match(line):
            kind = "prose"
        elif before is not None and (level := _find_underlined(file, before, line)):
            before.kind, before.level, before.words = "heading", level, (before.start, before.end)
            kind = "quiet"
        elif (named := name_before_chain(line)) and _is_title(line[:named]):
            yield _Line("heading", start, start + named, BOLD_LEVEL, (start, start + named))
            start += named + 1
        elif told := tells_pattern(line):
            yield _Line("text", start, start + told)
            start += told + 1
        this = _Line(kind, start, end)
        yield this
        before = this


def _is_title(words: str) -> bool:
    """Is a line in bold letters a title, "Ear (make 2)", and neither a row nor what the rows below are for?"""
    is_row = find_label(words) or find_label(f"{words}:") or is_flow(words)
    is_other = is_notes(words) or SPECIAL.search(words)
    return not is_row and not is_other and re.search(r"\bsizes?\b|\bonly\b|[.!?]$", words, re.IGNORECASE) is None


def _find_underlined(file: SourceFile, before: _Line, line: str) -> int:
    """1 or 2 where a line of = or - makes a heading of the line above it, else 0."""
    mark = _UNDERLINE.match(line)
    above = file.text[before.start : before.end]
    if (
        mark is None
        or before.kind != "text"
        or _BULLET.match(above)
        or find_label(above.lstrip())
        or is_flow(above.lstrip())
    ):
        return 0
    return 1 if mark.group(1)[0] == "=" else 2


def _split_sections(lines: list[_Line]) -> Iterator[list[_Line]]:
    """Lines from each heading up to the next; what stands before the first comes first."""
    section: list[_Line] = []
    for line in lines:
        if line.kind == "heading" and section:
            yield section
            section = []
        section.append(line)
    if section:
        yield section


def _build_part(
    file: SourceFile, lines: list[_Line], body: int
) -> tuple[Part | None, list[SpecialStitch], list[Finding]]:
    """The part under one heading; None where nothing stands there."""
    heading = lines[0] if lines and lines[0].kind == "heading" else None
    if heading is None:
        blocks, findings = _build_blocks(file, lines, in_notes=False)
        if not blocks:
            return None, [], findings
        return Part("", 2, tuple(blocks), blocks[0].span.to(blocks[-1].span)), [], findings
    words = Span(file, *heading.words)
    title, make, findings = read_heading(words)
    blocks, told = _build_blocks(file, lines[1:], in_notes=is_notes(title))
    findings += told
    defined: list[SpecialStitch] = []
    if SPECIAL.search(title):
        blocks, defined = _take_definitions(blocks)
        if not blocks:
            return None, defined, findings
    return Part(title, heading.level, tuple(blocks), words, make), defined, findings


def _take_definitions(blocks: list[RowLine | Prose]) -> tuple[list[RowLine | Prose], list[SpecialStitch]]:
    """Prose without the stitches it defines, and those stitches, each with the pictures right behind it."""
    kept: list[RowLine | Prose] = []
    defined: list[SpecialStitch] = []
    is_behind = False
    for block in blocks:
        if isinstance(block, RowLine):
            kept.append(block)
            is_behind = False
        elif block.images and is_behind:
            defined[-1] = replace(defined[-1], images=defined[-1].images + block.images)
        elif block.images:
            kept.append(block)
        else:
            stitches, rest = find_definitions(block.span)
            defined += [replace(stitch, text=take_pictures_out(stitch.text).strip()) for stitch in stitches]
            kept += [Prose(take_pictures_out(span.text), span) for span in rest]
            is_behind = bool(stitches) and not (rest and rest[-1].start > stitches[-1].span.start)
    return kept, defined


def _build_blocks(file: SourceFile, lines: list[_Line], in_notes: bool) -> tuple[list[RowLine | Prose], list[Finding]]:
    """Rows, runs of prose and pictures, in order."""
    _mark_rows(file, lines, in_notes)
    blocks: list[RowLine | Prose] = []
    run: list[_Line] = []
    for line in lines:
        if run and (line.kind in ("row", "quiet") or (run[0].kind == "row" and line.kind != "more")):
            blocks += _close_run(file, run)
            run = []
        if line.kind not in ("quiet", "heading") and (run or line.kind != "blank"):
            run.append(line)
    blocks += _close_run(file, run)
    apart = [set_pictures_apart(block) for block in blocks]
    return [block for some, _ in apart for block in some], [finding for _, told in apart for finding in told]


def _close_run(file: SourceFile, run: list[_Line]) -> list[RowLine | Prose]:
    """The blocks of one run of lines: a row with its further lines, or prose."""
    if not run:
        return []
    start, end = run[0].start, run[-1].end
    text = file.text[start:end].rstrip()
    if run[0].kind != "row":
        return [Prose(_drop_comments(text), Span(file, start, start + len(text)))] if text.strip() else []
    cuts = _cut_rows(text)
    blocks: list[RowLine | Prose] = []
    for first, last in zip(cuts, [*cuts[1:], len(text)], strict=True):
        piece = text[first:last].rstrip()
        if piece.endswith("-->"):
            piece = piece[: max(0, piece.rfind("<!--"))].rstrip()
        if not piece.strip():
            continue
        span = Span(file, start + first, start + first + len(piece))
        is_row = find_label(piece) is not None or is_flow(piece) or first > 0
        blocks.append(RowLine(piece, span) if is_row else Prose(piece, span))
    return blocks


def _cut_rows(text: str) -> list[int]:
    """Offsets in a run of row lines at which a row starts."""
    label = find_label(text)
    return [0, *find_inner_labels(text, label.end if label else 0)]


def _drop_comments(text: str) -> str:
    return re.sub(r"<!--.*?-->", "", text, flags=re.DOTALL)


def _mark_rows(file: SourceFile, lines: list[_Line], in_notes: bool) -> None:
    """Settle what each text line is: the start of a row, more of the row above, or prose."""
    row_lists = _find_row_lists(file, lines)
    before = ""  # the kind of the line above
    before_text = ""
    for at, line in enumerate(lines):
        if line.kind != "text":
            before, before_text = line.kind, ""
            continue
        text = file.text[line.start : line.end]
        bullet = _BULLET.match(text) if find_label(text.lstrip()) is None else None
        lead = bullet.end() if bullet else len(text) - len(text.lstrip())
        words = text[lead:]
        in_row = before in ("row", "more") and not bullet
        in_list = bullet is not None and at not in row_lists
        if _starts_row(words, in_row, before, before_text, in_notes, in_list):
            line.kind = "row"
            line.start += lead
        else:
            line.kind = "more" if in_row else "prose"
        before, before_text = line.kind, text


def _starts_row(words: str, in_row: bool, before: str, before_text: str, in_notes: bool, in_list: bool) -> bool:
    """Whether a line starts a row: by a label, by a label inside it, or as an instruction of the flow."""
    runs_on = before in ("row", "more", "prose") and ends_open(before_text)
    label = find_label(words)
    if label is not None:
        has_colon = ":" in words[label.start : label.end]
        is_apart = before in ("", "blank", "quiet", "heading", "picture")
        return not runs_on and (has_colon or is_apart or ends_sentence(before_text))
    if in_row:
        return ends_sentence(before_text) and stands_for_rows(words)
    if not in_notes and not in_list and is_flow(words):
        return before != "prose" or ends_sentence(before_text)
    return bool(find_inner_labels(words, 0)) and not runs_on


def _find_row_lists(file: SourceFile, lines: list[_Line]) -> set[int]:
    """Positions of the lines of each list that holds a labelled row: its other items are instructions too."""
    found: set[int] = set()
    run: list[int] = []
    has_label = False
    for at, line in enumerate([*lines, _Line("blank", 0, 0)]):
        if line.kind == "picture":
            continue
        if line.kind != "text":
            found.update(run if has_label else ())
            run, has_label = [], False
            continue
        text = file.text[line.start : line.end]
        bullet = _BULLET.match(text)
        has_label = has_label or find_label(text, bullet.end() if bullet else 0) is not None
        run.append(at)
    return found
