"""All rows of a pattern carried into the other set of English terms, each one proved by reading it back.

A row is printed from its tree. Where the tree does not hold all that the author says (a place where new
yarn is joined, a word of advice), the author's own words are carried over instead, name by name. What
comes out is read in the other set and has to give the same tree; a row that does not is told.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern, Row
from booklet.model.pattern import Pattern, RowLine
from booklet.model.tree import Aside, Free, Group, Node, PerSize, Repeat, Unread, Work
from booklet.rows.dialect_messages import row_not_carried
from booklet.rows.lexing import read_tokens
from booklet.rows.parts import pattern_vocabulary
from booklet.rows.print import PrintedRow, print_row
from booklet.rows.print_names import name_stitch
from booklet.rows.print_prose import carry_prose
from booklet.rows.row import find_unread, parse_row
from booklet.rows.stream import TOLD
from booklet.rows.tokens import Numbers, Token
from booklet.rows.vocabulary import Vocabulary
from booklet.rows.walking import walk_steps
from booklet.source import SourceFile, Span

# Words that a tree need not hold, and that a maker would miss.
TELLING = frozenset(
    {"magic ring", "loosely", "place marker", "marker", "weave", "first", "last", "fasten off", "unworked"}
)
PASSED_OVER = frozenset({1, 2})  # "1 sc" is sc, "twice" is 2


@dataclass(frozen=True, slots=True)
class CarriedRows:
    """Rows in the other terms by the start and end of their line: from the tree, or as carried text of the line."""

    printed: Mapping[tuple[int, int], PrintedRow] = field(default_factory=dict)
    texts: Mapping[tuple[int, int], str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Readers:
    """What rows are read by, in the pattern's terms and in the other ones."""

    own: Vocabulary
    other: Vocabulary
    numbers: Numbers


def carry_rows(parsed: ParsedPattern, carried: Pattern) -> tuple[CarriedRows, tuple[Finding, ...]]:
    """Every row of the pattern in the terms of `carried`, which is the same pattern with its prose carried over."""
    pattern = parsed.sized.pattern
    readers = make_readers(parsed, carried)
    rows = [row for part in parsed.parts for row in part.rows]
    printed: dict[tuple[int, int], PrintedRow] = {}
    texts: dict[tuple[int, int], str] = {}
    findings: list[Finding] = []
    for line in (line for part in pattern.parts for line in part.rows):
        within = [row for row in rows if line.span.start <= row.span.start < line.span.end]
        place = (line.span.start, line.span.end)
        whole = _print_line(line, within, readers)
        if whole is not None:
            printed[place] = whole
            continue
        texts[place] = carry_prose(line.text, readers.own.dialect, readers.other.dialect)
        if not all(_reads_the_same(row, carry_row_words(row, readers), readers) for row in within):
            findings.append(row_not_carried(line.span, within[0].label.text if within else "", carried.terms))
    return CarriedRows(printed, texts), tuple(findings)


def make_readers(parsed: ParsedPattern, carried: Pattern) -> Readers:
    """The readers of a pattern and of the same pattern carried over."""
    pattern = parsed.sized.pattern
    values: dict[str, PerSize] = {name: number.values for name, number in parsed.sized.numbers.items()}
    names = pattern.size_names
    numbers = Numbers(values, len(names), names=names)
    return Readers(pattern_vocabulary(pattern), pattern_vocabulary(carried), numbers)


def carry_row_words(row: Row, readers: Readers) -> str:
    """The author's own line with the names of its stitches in the other terms."""
    return carry_prose(row.span.text, readers.own.dialect, readers.other.dialect)


def _print_line(line: RowLine, rows: Sequence[Row], readers: Readers) -> PrintedRow | None:
    """The rows of one line, and the prose at its end; None where one of them is better told in its author's words."""
    whole: PrintedRow | None = None
    for row in rows:
        printed = print_held(row, readers)
        if printed is None:
            return None
        whole = printed if whole is None else join_rows(whole, printed)
    return add_rest(line, rows[-1], whole, readers) if whole is not None else None


def print_held(row: Row, readers: Readers) -> PrintedRow | None:
    """The row in the other terms from its tree; None where the tree does not hold all that its author says."""
    if find_unread(row.steps) or row.label.faulty or breaks_off(row.steps, row.words):
        return None
    printed = print_row(row, readers.other.dialect, written_in=readers.own.dialect)
    if _loses_words(row, printed.text, readers) or not _reads_the_same(row, printed.text, readers):
        return None
    return printed


def add_rest(line: RowLine, last: Row, whole: PrintedRow, readers: Readers) -> PrintedRow:
    """The printed line with the prose behind its last row."""
    rest = " ".join(line.span.file.text[last.span.end : line.span.end].split())
    carried = carry_prose(rest, readers.own.dialect, readers.other.dialect)
    return replace(whole, after=" ".join(part for part in (whole.after, carried) if part))


def breaks_off(steps: Sequence[Node], words: Span) -> bool:
    """Does a note start within a clause, so that its first words went into the step before it?"""
    for step in walk_steps(steps):
        if isinstance(step, Aside):
            before = words.file.text[words.start : step.span.start].rstrip()
            if before and before[-1] not in ",;.:([" and not step.text.startswith("("):
                return True
    return False


def join_rows(first: PrintedRow, second: PrintedRow) -> PrintedRow:
    """Two rows of one line as one."""
    body = " ".join(part for part in (first.body, first.count, first.after, second.body) if part)
    return PrintedRow(first.label, body, second.count, second.after)


def _loses_words(row: Row, printed: str, readers: Readers) -> bool:
    """Does the author's row say anything that the printed one does not, or the printed one a word of its own?"""
    body = printed.partition(": ")[2] if row.label.text else printed
    said, told = _count_words(row.words.text, readers.own, readers), _count_words(body, readers.other, readers)
    return bool(said - told) or any(isinstance(word, tuple) and word[0] == "w" for word in told - said)


def _count_words(text: str, vocabulary: Vocabulary, readers: Readers) -> Counter[object]:
    """What a row tells beside its grammar: stitches, spaces, numbers, colours, words of the author's own."""
    tokens, _ = read_tokens(text, vocabulary, readers.numbers)
    other = readers.other.dialect
    return Counter(word for token in tokens for word in _list_telling(token, text, vocabulary.dialect, other))


def _list_telling(token: Token, text: str, dialect: str, other: str) -> Iterator[object]:
    if token.kind == "st":
        yield name_stitch(str(token.value), other, dialect).lower()
    elif token.kind in ("chsp", "chn"):
        yield "chains", token.value
    elif token.kind == "num" and (len(token.numbers) > 1 or token.numbers[0] not in PASSED_OVER):
        yield token.numbers
    elif token.kind in ("ord", "colour") or token.is_word(*TELLING):
        yield token.kind, token.value
    elif token.kind == "word" and str(token.value).isalpha():
        yield carry_prose(text[token.start : token.end], dialect, other).lower()


def _reads_the_same(row: Row, text: str, readers: Readers) -> bool:
    """Does the text, read in the other terms, give the tree of the row?"""
    span = SourceFile("carried.md", text).span(0, len(text))
    back, _, _ = parse_row(RowLine(text, span), readers.other, readers.numbers)
    own, other = readers.own.dialect, readers.other.dialect
    same_label = (back.label.kind, back.label.numbers, back.label.varied, back.label.side) == (
        row.label.kind,
        row.label.numbers,
        row.label.varied,
        row.label.side,
    )
    return same_label and back.stated == row.stated and list_read(back, other, other) == list_read(row, own, other)


def list_read(row: Row, dialect: str, other: str) -> list[Node]:
    """The steps as they are compared; what was told of a row as a whole is not part of its words."""
    told = [step for step in row.steps if isinstance(step, Unread) and step.word == TOLD]
    return [_compare_by(step, dialect, other) for step in row.steps if step not in told]


def _compare_by(step: Node, dialect: str, other: str) -> Node:
    """The step with the names of the pattern's own stitches as in the other terms, and without the words of notes."""
    if isinstance(step, Aside | Free):
        return replace(step, text="")
    if isinstance(step, Unread):
        return replace(step, text="", word="")
    if isinstance(step, Repeat):
        instead = tuple(_compare_by(inner, dialect, other) for inner in step.instead)
        return replace(step, steps=tuple(_compare_by(inner, dialect, other) for inner in step.steps), instead=instead)
    if isinstance(step, Group):
        return replace(step, steps=tuple(_compare_by(inner, dialect, other) for inner in step.steps))
    if isinstance(step, Work):
        return replace(step, stitch=name_stitch(step.stitch, other, dialect))
    return step
