"""Rows as printed: label, body with colour patches, count, and one box to tick for each row worked."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from markupsafe import Markup, escape

from booklet.findings import join_words
from booklet.model.parsed import Row
from booklet.model.pattern import RowLine
from booklet.model.style import Style
from booklet.model.work import WorkedRow
from booklet.pages.figures import print_size_list
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import fill_names
from booklet.pages.size_marks import FOR_SIZES, find_numbers, list_repeats, mark_all_only, mark_numbers, name_sizes
from booklet.pages.typography import set_type
from booklet.pages.views import RowView, TickGroup
from booklet.rows.print_labels import close_before, frame_count

MAX_TICKS = 240
MAX_WORDS = 8

_WORDS_BEFORE_COLOUR = (
    "with", "With", "to", "in", "In", "using", "Using", "join", "Join", "drop", "Drop", "carry", "Carry",
    "cut", "Cut", "off", "up", "colour", "color", "yarn", "and", "of",
)  # fmt: skip
_BEFORE_COLOUR = "|".join([rf"(?<=\b{word} )" for word in _WORDS_BEFORE_COLOUR] + [r"(?<=[(/])", r"(?<=[,;:] )"])

_LABEL = re.compile(
    r"^\s*(?:[-*+]\s+)?(?:\*\*)?(?P<label>"
    r"(?:(?:Row|Rnd|Round|R|Rows|Rnds|Rounds|Foundation|Set-up|Setup|Next|Last|Inc|Dec|Edging|Border)\b[^:.*]{0,60}"
    r"|\d+(?:st|nd|rd|th)\b[^:.*]{0,40}|R?\d+(?:\s*[-–]\s*R?\d+)?))\s*[:.]\s*(?:\*\*)?\s*",
    re.IGNORECASE,
)
_COUNT = re.compile(
    r"\s*(?:[—–;]\s*)?(?P<count>[(\[](?=[^()\[\]]*\d)[^()\[\]]*(?:[(\[][^()\[\]]*[)\]][^()\[\]]*)*[)\]])\s*\.?\s*$"
)
_COUNT_WITHIN = re.compile(r"[(\[][^()\[\]]*(?:[(\[][^()\[\]]*[)\]][^()\[\]]*)*[)\]]\.?(?=\s+[A-Z])")
_COUNT_WORDS = re.compile(
    r"^[(\[][\d\s,()\[\]–-]*[)\]]$"
    r"|^[(\[]\s*(?:(?:total|now|sts):?\s+|=\s*)?\d.*\b(?:(?:[FB]P)?(?:sc|hdc|dc|tr|htr|dtr|ttr)|sts?|stitch|stitches|chs?"
    r"|sps?|lps?|loops?|inc|decs?|clusters?|shells?|picots?|puffs?|bobbles?|popcorns?|rep(?:eat)?s?)\b"
)


_FASTENING = re.compile(r"(?<=[.;)\]])\s+(?P<after>(?:Fasten|Break|Finish|End)\s+off\b.*)$", re.DOTALL)
_ROW_THEN_TIMES = re.compile(
    r"(\b(?:Rows?|Rnds?|Rounds?|R) ?\d+(?:(?: ?[-–] ?|, | and | & | to |, and )\d+)*)"
    r"(?= \d+(?: ?\([\d, ]+\))* (?:more |additional )?times\b)",
    re.IGNORECASE,
)
_UNTIL = re.compile(r"rep(?:eat)? .*\buntil\b", re.IGNORECASE | re.DOTALL)
_SIZE_LIST = re.compile(r"\d+ \(\d[\d, ½¼¾]{0,22}\)")

LONG_LIST = 18  # letters
SIZE_LIST_MARK = 'class="sizes'


@dataclass(frozen=True, slots=True)
class RowText:
    """A row in its author's words with every number filled in."""

    label: str
    body: str
    count: str
    after: str = ""  # what is done when the row is complete
    is_silent: bool = False  # its count is left out on purpose


def show_row(
    row: RowLine, anchor: str, manuscript: BookletInput, worked: Mapping[int, list[list[WorkedRow]]]
) -> RowView:
    """The row ready to print. `worked` are the worked rows by the start of their span, a list a size."""
    made = worked.get(row.span.start, [])
    trees, sizes = manuscript.trees_of(row), manuscript.pattern.size_names
    text = manuscript.rows.get((row.span.start, row.span.end)) or read_row_text(row, manuscript.numbers, made)
    count, style = text.count, manuscript.pattern.style
    if not count and not text.is_silent:  # a row printed from its tree states what it said
        count = frame_computed(_compute_count(text.body, made), style)
    body, after = (part_numbers(fill_names(words, manuscript.numbers)).strip() for words in (text.body, text.after))
    body = close_before(body, count, style) if count != text.count else body
    letters = [colour.letter for colour in manuscript.pattern.colours]
    label = set_type(text.label.strip().rstrip(":."))
    body, after = (mark_colours(set_type(words), letters) for words in (body, after))
    view = RowView(
        anchor=anchor,
        label=label,
        body=body,
        count=set_type(count.strip()),
        groups=_group_ticks(label, text.body, made, sizes),
        after=after,
        on_own_line=bool(count) and style.count_place == "own line",
        start=row.span.start,
        line=row.span.line,
        name=label or _first_words(text.body),
    )
    if idle := find_idle(text.body, made):
        view = replace(view, after=Markup(" ").join(filter(None, (after, _say_idle([sizes[at] for at in idle])))))
    if manuscript.parsed is None:
        return replace(view, body=_keep_size_lists(body), count=_keep_size_lists(escape(view.count)))
    marked = _mark_row(view, trees, sizes)
    working = [at for at in range(len(sizes)) if at not in idle]
    return replace(marked, only=name_sizes(working, len(sizes))) if idle else marked


def find_idle(body: str, made: Sequence[Sequence[WorkedRow]]) -> tuple[int, ...]:
    """The sizes, by their places, in which "rep last row until there are 18 rows" finds that there are so many.

    None where no size, or every size, works the row.
    """
    idle = tuple(at for at, rows in enumerate(made) if not rows)
    return idle if _UNTIL.match(body.strip()) and len(idle) < len(made) else ()


def _say_idle(names: Sequence[str]) -> Markup:
    words = f"Not worked in size{'s' if len(names) > 1 else ''} {set_type(join_words(names))}."
    return Markup('<span class="only">{}</span>').format(words)


def _mark_row(row: RowView, trees: Sequence[Row], sizes: Sequence[str]) -> RowView:
    """The row with each size's numbers marked, and the sizes that work it."""
    known = find_numbers(trees)
    named = {name.lower() for tree in trees for name in tree.label.sizes}
    return replace(
        row,
        label=mark_numbers(escape(mark_all_only(str(row.label), FOR_SIZES)), len(sizes), known),
        body=mark_numbers(row.body, len(sizes), known),
        count=mark_numbers(escape(row.count), len(sizes), known),
        after=mark_numbers(row.after, len(sizes), known),
        only=name_sizes([at for at, name in enumerate(sizes) if name.lower() in named], len(sizes)),
        repeats=list_repeats(trees),
    )


def part_numbers(words: str) -> str:
    """`Rep Rows 5–10, 5 more times`: a comma between two numbers that would be read as one."""
    return _ROW_THEN_TIMES.sub(r"\1,", words)


def read_row_text(row: RowLine, numbers: Mapping[str, tuple[int, ...]], made: Sequence[Sequence[WorkedRow]]) -> RowText:
    """The row taken from its source line; a count that the line does not state is the computed one."""
    text = fill_names(" ".join(row.text.split()), numbers)
    label, body, count = "", text, ""
    if found := _LABEL.match(text):
        label, body = found["label"], text[found.end() :]
    body, after = _part_fastening(body)
    if found := _find_count(body):
        body, count = body[: found.start()], found["count"]
    elif found := _find_count(after):
        after, count = after[: found.start()], found["count"]
    return RowText(label.replace("**", "").strip(), body, count or _compute_count(body, made), after)


def _compute_count(body: str, made: Sequence[Sequence[WorkedRow]]) -> str:
    """The worked count, for a row that states none; empty where one stands before the row's last sentence."""
    if any(_COUNT_WORDS.search(within[0].rstrip(".")) for within in _COUNT_WITHIN.finditer(body)):
        return ""
    if any(rows and rows[-1].stated is not None for rows in made):  # among the words: "join — 80 sc."
        return ""
    if made and all(rows and rows[-1].status == "worked" for rows in made) and made[0][-1].kind != "foundation":
        counts = [rows[-1].made for rows in made]
        return f"({print_size_list(counts)} sts)" if any(counts) else ""
    return ""


def frame_computed(count: str, style: Style) -> str:
    """A computed count in the house's frame."""
    words = count[1:-1]
    if not count or not style.counts + style.count_form:
        return count
    return frame_count(words.removesuffix(" sts") if style.count_form == "number" else words, style)


def _find_count(text: str) -> re.Match[str] | None:
    """The stated count at the end of a text."""
    found = _COUNT.search(text)
    if found and _COUNT_WORDS.search(found["count"]) and not _is_size_list(text[: found.start()], found["count"]):
        return found
    return None


def _part_fastening(body: str) -> tuple[str, str]:
    """The row, and from `Fasten off` on what is done after it; a line of nothing else stays whole."""
    found = _FASTENING.search(body)
    return (body[: found.start()], found["after"]) if found else (body, "")


def _is_size_list(before: str, bracket: str) -> bool:
    """Whether the bracket belongs to a number in the sentence, as in `ch 114 (154, 194)`."""
    in_groups = re.search(r"\d [(\[][\d, ]+[)\]]$", before) is not None  # "74 (82, 90) (98, 106)"
    return (before[-1:].isdigit() or in_groups) and not re.search(r"[a-z]", bracket)


def mark_colours(text: str, letters: Sequence[str]) -> Markup:
    """The text with every colour letter set as a patch of its colour.

    A single letter is taken for a colour where the words before it or the mark after it say so, as
    in `with A`, `change to B`, `A, B and C`; `A` at the start of a sentence is an article.
    """
    if not letters:
        return escape(text)
    names = "|".join(sorted((re.escape(letter) for letter in letters), key=len, reverse=True))
    many = "|".join(re.escape(letter) for letter in letters if len(letter) > 1) or r"(?!)"
    pattern = re.compile(rf"(?:{_BEFORE_COLOUR})(?:{names})(?!\w)|\b(?:{names})(?=[,;:)])|\b(?:{many})\b")
    pieces: list[Markup] = []
    at = 0
    for found in pattern.finditer(text):
        letter = found.group()
        pieces += [
            escape(text[at : found.start()]),
            Markup('<b class="patch patch-{}">{}</b>').format(letters.index(letter), letter),
        ]
        at = found.end()
    pieces.append(escape(text[at:]))
    return Markup().join(pieces)


def group_worked_rows(manuscript: BookletInput) -> dict[int, list[list[WorkedRow]]]:
    """The worked rows by the start of the span that they come from: one list for each size."""
    grouped: dict[int, list[list[WorkedRow]]] = {}
    for part in manuscript.worked.parts:
        for size, rows in enumerate(part.rows):
            for row in rows:
                sizes = grouped.setdefault(row.span.start, [[] for _ in part.rows])
                while len(sizes) <= size:
                    sizes.append([])
                sizes[size].append(row)
    return grouped


def holds_size_list(row: RowView) -> bool:
    """Whether a number of the row or its count differs from size to size."""
    return any(SIZE_LIST_MARK in text for text in (row.body, row.count)) or _SIZE_LIST.search(row.count) is not None


def _keep_size_lists(words: Markup) -> Markup:
    """The words with every short list of sizes marked, so that no line ends within one.

    A list as long as half a line of large type is marked `long`, so that such type may part it.
    """

    def mark(found: re.Match[str]) -> str:
        long = " long" if len(found[0]) > LONG_LIST else ""
        return f'<span {SIZE_LIST_MARK}{long}">{found[0]}</span>'

    return Markup(_SIZE_LIST.sub(mark, str(words)))  # noqa: S704 - escaped before


def _group_ticks(
    label: str, body: str, made: Sequence[Sequence[WorkedRow]], sizes: Sequence[str]
) -> tuple[TickGroup, ...]:
    """A box for each row that the line stands for, in groups at whose ends some sizes stop; at least one box."""
    name = label or _first_words(body)
    most = max((len(rows) for rows in made), default=0)
    if most < 2 or most > MAX_TICKS:
        return (TickGroup((name,)),)
    longest = next(rows for rows in made if len(rows) == most)
    names = [row.label for row in longest]
    if len(set(names)) < most:
        names = [f"{name}, {at} of {most}" for at in range(1, most + 1)]
    stops = sorted({len(rows) for rows in made if rows})
    groups: list[TickGroup] = []
    for start, stop in pairwise([0, *stops]):
        ends = [sizes[at] for at, rows in enumerate(made) if len(rows) == stop and at < len(sizes)]
        going_on = [at for at, rows in enumerate(made) if len(rows) >= stop]
        words = set_type(", ".join(ends)) if len(stops) > 1 else ""
        groups.append(TickGroup(tuple(names[start:stop]), words, name_sizes(going_on, len(sizes))))
    return tuple(groups)


def _first_words(body: str) -> str:
    """What a line without a label is called: its words up to the first mark, not more than eight."""
    words = re.split(r"[.;:(]", set_type(body.strip()))[0].split()
    return " ".join(words[:MAX_WORDS]) or "Step"
