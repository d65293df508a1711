"""Pictures written into the text, `![what it shows](file.jpg "caption")`: found, checked, and set apart.

A picture becomes a block of its own, behind the paragraph or the list item that it stands in; pictures of
one paragraph stay side by side. The words round it go on as they were, numbered lists with their numbers.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from urllib.parse import unquote

from booklet.findings import Finding
from booklet.model.images import Image
from booklet.model.pattern import Part, Pattern, Prose, RowLine, SpecialStitch
from booklet.reading import messages
from booklet.reading.pictures import find_picture, suggest_picture
from booklet.source import SourceFile, Span

_ALT = r"(?P<alt>(?:[^\[\]\n]|\[[^\[\]\n]*\]|\n(?![ \t]*\n))*)"
_FILE = r"(?:<(?P<marked>[^<>\n]+)>|(?P<file>[^\s()\"“”](?:[^()\n\"“”]|\([^()\n]*\))*?))"
_TITLE = r"(?:\s+(?:\"(?P<title>[^\"\n]*)\"|“(?P<curly>[^“”\n]*)”|'(?P<single>[^'\n]*)'))?"
_PICTURE = rf"!\[{_ALT}\]\(\s*{_FILE}?{_TITLE}\s*\)"
# A picture may be a link as well: it is printed, and leads nowhere.
PICTURE = re.compile(rf"(?<!\\)(?:\[[ \t]*{_PICTURE}[ \t]*\]\([^()\n]*\)|{_PICTURE.replace('?P<', '?P<p_')})")
_OTHER = re.compile(r"(?<!\\)!\[[^\]\n]*\]\[[^\]\n]*\]|<img\b[^>\n]*>", re.IGNORECASE)
_MARKS = re.compile(r"[ \t]*(?:(?:>|[-*+](?=[ \t]|$)|\d{1,3}[.)](?=[ \t]|$))[ \t]*)*")
_ITEM = re.compile(r"[ \t]*(?:[-*+]|\d{1,3}[.)])[ \t]")
_NUMBER = re.compile(r"(\d{1,3})(?=[.)][ \t])")
_TABLE = re.compile(r"[ \t]*\|")
_HIDDEN = re.compile(r"<!--.*?(?:-->|\Z)|^ {0,3}(```|~~~).*?(?:^ {0,3}\1|\Z)|`[^`\n]+`", re.DOTALL | re.MULTILINE)


@dataclass(frozen=True, slots=True)
class _Found:
    """A picture at an offset of its block; `image` is None where it cannot be used."""

    start: int
    end: int
    image: Image | None


def holds_pictures_only(line: str) -> bool:
    """Is the line a picture or several, behind the mark of a list or a quotation or not?"""
    return PICTURE.search(line) is not None and not PICTURE.sub("", line)[_find_marks(line) :].strip()


def _find_marks(line: str) -> int:
    marks = _MARKS.match(line)
    return marks.end() if marks else 0


def set_pictures_apart(block: RowLine | Prose) -> tuple[list[RowLine | Prose], list[Finding]]:
    """The block as words and pictures in their order."""
    text = _HIDDEN.sub(lambda hidden: re.sub(r"[^\n]", "\0", hidden[0]), block.span.text)
    if "![" not in text and "<img" not in text.lower():
        return [block], []
    findings = [messages.picture_in_text(block.span.sub(*other.span()), "other") for other in _OTHER.finditer(text)]
    if isinstance(block, RowLine):
        blocks, told = _split_row(block, text)
    else:
        blocks, told = _split_prose(block, text)
    return blocks, [*findings, *told]


def list_text_images(pattern: Pattern) -> tuple[Image, ...]:
    """The pictures that stand in the text, as often as they do."""
    blocks = [block.images for part in pattern.parts for block in part.blocks if isinstance(block, Prose)]
    stitches = [stitch.images for stitch in pattern.special_stitches]
    return tuple(image for images in (*stitches, *blocks) for image in images)


def take_pictures_out(text: str) -> str:
    """The words alone."""
    return PICTURE.sub("", text)


def find_pictures_in_facts(source: SourceFile, start: int, end: int) -> Iterator[Finding]:
    """Pictures in the texts of the front matter, which have no room for them."""
    for found in PICTURE.finditer(source.text, start, end):
        yield messages.picture_in_text(Span(source, *found.span()), "facts")


def number_pictures(
    parts: Iterable[Part], stitches: Iterable[SpecialStitch]
) -> tuple[tuple[Part, ...], tuple[SpecialStitch, ...]]:
    """The same with names for their pictures, one a file: `step-1` for the first."""
    names: dict[str, str] = {}

    def name(images: tuple[Image, ...]) -> tuple[Image, ...]:
        return tuple(replace(image, name=names.setdefault(image.file, f"step-{len(names) + 1}")) for image in images)

    def name_blocks(part: Part) -> Part:
        blocks = (
            replace(block, images=name(block.images)) if isinstance(block, Prose) and block.images else block
            for block in part.blocks
        )
        return replace(part, blocks=tuple(blocks))

    named = tuple(replace(stitch, images=name(stitch.images)) for stitch in stitches)
    return tuple(name_blocks(part) for part in parts), named


def _split_row(block: RowLine, text: str) -> tuple[list[RowLine | Prose], list[Finding]]:
    """Pictures at the end of a row stand behind it; one among its words cannot be printed."""
    end = len(text)
    trailing: list[_Found] = []
    findings: list[Finding] = []
    for match in reversed(list(PICTURE.finditer(text))):
        if text[match.end() : end].strip():
            findings.append(messages.picture_in_text(block.span.sub(*match.span()), "row"))
            continue
        image, told = _read_picture(block.span, match)
        trailing.insert(0, _Found(match.start(), match.end(), image))
        findings += told
        end = match.start()
    if not trailing:
        return [block], findings[::-1]
    words = text[:end].rstrip()
    row = RowLine(block.text[: len(words)].rstrip(), block.span.sub(0, len(words)))
    return [row, *_make_pictures(block.span, trailing)], findings[::-1]


def _split_prose(block: Prose, text: str) -> tuple[list[RowLine | Prose], list[Finding]]:
    blocks: list[RowLine | Prose] = []
    findings: list[Finding] = []
    pending: list[_Found] = []
    counter = _Counter()
    words: list[str] = []
    words_start = 0

    def close(end: int) -> None:
        """The words so far, and behind them the pictures that stand in them."""
        nonlocal words, pending, words_start
        blocks.extend(_make_words(block.span, "".join(words), words_start, end))
        blocks.extend(_make_pictures(block.span, pending))
        words, pending, words_start = [], [], end

    matches = list(PICTURE.finditer(text))
    at = 0
    while at < len(text):
        end = _find_line_end(text, at, matches)
        line, plain = text[at:end], block.span.text[at:end]
        here = [match for match in matches if at <= match.start() < end]
        if pending and (not line.strip() or _ITEM.match(line)):
            close(at)
        if here and _TABLE.match(line):
            findings += [messages.picture_in_text(block.span.sub(*match.span()), "table") for match in here]
            words.append(_take_out(plain, at, here))
        elif here:
            found, told = _read_pictures(block.span, here)
            findings += told
            if holds_pictures_only(line):
                if not pending or "".join(words).strip():
                    close(at)
                pending = [*pending, *found]
                words_start = end
                counter.follow(line)
            else:
                words.append(counter.follow(_take_out(plain, at, here)))
                pending += found
        else:
            words.append(counter.follow(plain))
        at = end
    close(len(text))
    return blocks, findings


def _find_line_end(text: str, at: int, matches: list[re.Match[str]]) -> int:
    """The start of the next line that no picture runs over."""
    end = at
    while True:
        end = text.find("\n", end) + 1 or len(text)
        if not any(match.start() < end < match.end() for match in matches):
            return end


def _read_pictures(span: Span, matches: list[re.Match[str]]) -> tuple[list[_Found], list[Finding]]:
    found: list[_Found] = []
    findings: list[Finding] = []
    for match in matches:
        image, told = _read_picture(span, match)
        found.append(_Found(match.start(), match.end(), image))
        findings += told
    return found, findings


def _read_picture(span: Span, match: re.Match[str]) -> tuple[Image | None, list[Finding]]:
    """The picture, checked as those of the front matter are."""
    given = {name.removeprefix("p_"): words for name, words in match.groupdict().items() if words is not None}
    alt = " ".join(given.get("alt", "").split())
    caption = next((given[name].strip() for name in ("title", "curly", "single") if name in given), "")
    file = given.get("marked") or given.get("file", "").strip()
    place = span.sub(*match.span())
    folder = span.file.folder
    path, problem = find_picture(folder, file) if file else (None, "is not the name of a file")
    if path is None and unquote(file) != file and find_picture(folder, unquote(file))[0] is not None:
        file, problem = unquote(file), ""
    if problem:
        close = suggest_picture(folder, file) if problem == "is not there" else ""
        return None, [messages.missing_picture(file, problem, place, close)]
    told = [] if alt else [messages.missing_alt(file, place, f"write ![...]({file})")]
    return Image(file, alt or caption or "A picture of this step", caption, place), told


def _take_out(line: str, at: int, matches: list[re.Match[str]]) -> str:
    """The line with spaces for its pictures, so that what follows keeps its place; none at its end."""
    for match in matches:
        start, end = match.start() - at, match.end() - at
        line = line[:start] + " " * (end - start) + line[end:]
    return f"{line.rstrip()}\n" if line.endswith("\n") else line.rstrip()


def _make_words(span: Span, text: str, start: int, end: int) -> Iterator[Prose]:
    words = re.sub(r"<!--.*?-->", "", text, flags=re.DOTALL).rstrip()
    if not words.strip():
        return
    lead = len(words) - len(words.lstrip("\n"))
    is_as_written = span.text[start:].startswith(words)
    length = len(words) if is_as_written else len(span.text[start:end].rstrip())
    yield Prose(_move_left(words[lead:]), span.sub(start + lead, start + max(lead, length)))


def _move_left(text: str) -> str:
    """The text without the indent of its first line, which belonged to an item before the picture."""
    indent = len(text) - len(text.lstrip(" \t"))
    if indent < 2:
        return text
    moved = re.sub(rf"^[ \t]{{1,{indent}}}", "", text, flags=re.MULTILINE)
    # The next item begins a list of its own now, which takes an empty line.
    return moved if _ITEM.match(moved) else re.sub(r"(?<!\n)\n(?=(?:[-*+]|\d{1,3}[.)])[ \t])", "\n\n", moved, count=1)


def _make_pictures(span: Span, found: list[_Found]) -> Iterator[Prose]:
    images = tuple(picture.image for picture in found if picture.image is not None)
    if images:
        images = tuple(replace(image, beside=len(images)) for image in images)
        yield Prose("", span.sub(found[0].start, found[-1].end), images)


class _Counter:
    """The numbers of a list that pictures divide: it goes on where it would have gone on without them."""

    def __init__(self) -> None:
        self.number = 0
        self.is_apart = True  # from what was in the list so far, by an empty line

    def follow(self, line: str) -> str:
        """The line, with the number that it has in its list."""
        found = _NUMBER.match(line)
        was_apart, self.is_apart = self.is_apart, not line.strip()
        if found is None:
            if was_apart and line.strip() and not line[0].isspace() and not holds_pictures_only(line):
                self.number = 0
            return line
        self.number = self.number + 1 if self.number else int(found[1])
        return f"{self.number}{line[found.end() :]}"
