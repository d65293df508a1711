"""A sized pattern's rows, all read: the pass from prose to trees."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache

from booklet.findings import Finding
from booklet.model.parsed import Label, ParsedPart, ParsedPattern, Row, StitchDefinition
from booklet.model.pattern import Part, Pattern, Prose, RowLine, SizedPattern
from booklet.model.tree import OtherSide, Unread
from booklet.rows import messages
from booklet.rows.colour_order import read_colour_order
from booklet.rows.each_piece import work_along_each
from booklet.rows.legends import SQUARES, needs_squares, read_letters
from booklet.rows.made_groups import define_made
from booklet.rows.multiples import read_multiples
from booklet.rows.numbering import check_numbering, number_alternate
from booklet.rows.row import is_works, list_works, parse_row
from booklet.rows.rules import DEFINITION, define_usual_squares, read_chain_rules, read_definitions
from booklet.rows.scopes import read_scope, split_scope
from booklet.rows.sections import goes_round_all, starts_afresh
from booklet.rows.stream import TOLD
from booklet.rows.taken_over import asks_for_piece, names_piece, take_over
from booklet.rows.tokens import Numbers, Token
from booklet.rows.vocabulary import FILET, NUMBER_WORDS, Vocabulary, build_vocabulary
from booklet.terms import load_table

LETTER = re.compile(
    r"\b(?:[Ww]ith|[Jj]oin|[Cc]hang(?:e|ing) to|[Ss]witch(?:ing)? to|[Uu]sing|[Cc]olou?r|[Yy]arn)"
    r"\s+([A-Z]|MC|CC\d?)\b(?![-'])"
)


NEW_SENTENCE = re.compile(r"[.)\]!][ \t]*\n\s*(?:\*\*|__)?(?P<word>[A-Z][a-z]+)\b")
ROWS_AGAIN = re.compile(
    r"[.)\]]\s+(?P<rest>(?:Then\s+)?(?:Rep(?:eat)?|Work)\s+(?:the\s+)?"
    r"(?:(?:last|these|previous)\s+(?:\w+\s+)?|\d+(?:st|nd|rd|th)\s+(?:(?:to|and|-)\s*\d+(?:st|nd|rd|th)\s+)?)?"
    r"(?:rows?|rnds?|rounds?)\b(?!\s*\d+\s*:))",
    re.IGNORECASE,
)


SHAPING_NUMBERS = ("changes", "every", "times", "then_every", "then_times", "rest")  # what a shaping yields
MOST_ABOVE = 60  # letters of a line that names what the rows below do: "Shape armhole"
NEED_WORDS = ("shell", "v-st")  # how many stitches they are is for the pattern to say
NOT_STITCHES = re.compile(
    r"(?:notes?|tips?|stripes?|materials?|gauge|tension|sizes?|yarn|hooks?|multiple|rows?|rnds?|rounds?|next|finish\w*|colou?rs?|level|"
    r"abbreviations?|special|pattern|measure\w*|notions?|finished|make|chain|step|part|level|care)\b"
    r"|(?:on\s+)?(?:all|every|each|alternate|even|odd|[rw]s)\b.*\b(?:rows?|rnds?|rounds?)\b",
    re.IGNORECASE,
)


def parse_pattern(sized: SizedPattern) -> tuple[ParsedPattern, tuple[Finding, ...]]:
    """Every row of every piece as a tree, with the rules that the prose gives."""
    pattern = sized.pattern
    vocabulary = pattern_vocabulary(pattern)
    refused = _list_refused(sized)
    values = {name: number.values for name, number in sized.numbers.items() if name not in refused}
    numbers = Numbers(values, len(pattern.size_names), refused, pattern.size_names)
    findings: list[Finding] = []
    used: dict[str, None] = {}
    parts: list[ParsedPart] = []
    sections: list[ParsedPart] = []
    umbrella = ParsedPart("", 1, (), pattern.source.whole())
    for part in pattern.parts:
        own, found = _parse_part(part, vocabulary, numbers, used)
        parsed, found = _take_from_others(own, found, (*sections, *parts))
        alone = part.title and len(own.rows) == 1 and isinstance(part.blocks[0], RowLine)
        if alone and not parsed.rows and names_piece(own.rows[0]):
            found.append(messages.unread_words(own.rows[0].words, "this line"))
        sections.append(parsed := work_along_each(parsed, sections))
        findings.extend(found)
        if part.level <= 2:
            umbrella = parsed
        if not parsed.rows:
            continue
        goes_on = bool(parts) and not starts_afresh(parsed, parts[-1])
        if goes_on and not (part.level <= 2 and goes_round_all(parts[-1], parsed)):
            title = parts[-1].title
            if umbrella.title not in ("", title):
                title = pattern.kind.capitalize() or title
            parts[-1] = replace(parts[-1], title=title, rows=(*parts[-1].rows, *parsed.rows))
        else:
            parts.append(replace(parsed, title=umbrella.title or parsed.title, make=max(umbrella.make, parsed.make)))
    for piece in parts:
        findings.extend(check_numbering(piece.rows, len(pattern.size_names)))
    definitions = read_definitions(pattern, vocabulary, numbers)
    squares = define_usual_squares(vocabulary, {definition.name for definition in definitions}, numbers)
    definitions += [*squares, *define_made(parts, vocabulary, definitions)]
    parts, undefined = tell_undefined(parts, definitions, vocabulary)
    findings.extend(undefined)
    return ParsedPattern(
        sized,
        tuple(parts),
        tuple(read_chain_rules(pattern, parts, vocabulary)),
        read_multiples(pattern),
        tuple(definitions),
        tuple(used),
        read_colour_order(pattern),
    ), tuple(findings)


def _list_refused(sized: SizedPattern) -> frozenset[str]:
    """The names of numbers that could not be worked out, each told where it stands."""
    pattern = sized.pattern
    refused = frozenset(rule.name for rule in pattern.numbers if rule.name not in sized.numbers)
    refused |= {path[1] for path in pattern.refused if len(path) > 1 and path[0] == "numbers"}
    shaped = {shaping.rule.name for shaping in sized.shaping}
    return refused | {
        f"{rule.name}_{part}" for rule in pattern.shaping if rule.name not in shaped for part in SHAPING_NUMBERS
    }


def cut_prose(line: RowLine, vocabulary: Vocabulary) -> RowLine:
    """The line up to where, on a line of its own, words of another kind follow: "… (18)\nEmbroider the eyes …"."""
    for match in NEW_SENTENCE.finditer(line.text):
        first = match["word"].lower()
        follows = line.text[match.start("word") :].split("\n")[0].lower()
        begins = any(vocabulary.look_up(" ".join(follows.split()[:n]).rstrip(".,;:")) for n in (1, 2, 3))
        if not begins and first not in NUMBER_WORDS and first not in ("in", "with", "using"):
            return RowLine(
                line.text[: match.start("word")].rstrip(),
                line.span.sub(0, len(line.text[: match.start("word")].rstrip())),
            )
    return line


def split_line(line: RowLine) -> list[RowLine]:
    """A line whose later sentence repeats whole rows ("… across. Rep Row 2 until …") is two lines of instructions."""
    starts = [match.start("rest") for match in ROWS_AGAIN.finditer(line.text)]
    ends = [*starts, len(line.text)]
    return [RowLine(line.text[a:b], line.span.sub(a, b)) for a, b in zip([0, *starts], ends, strict=True)]


def _take_from_others(
    part: ParsedPart, found: Sequence[Finding], earlier: Sequence[ParsedPart]
) -> tuple[ParsedPart, list[Finding]]:
    """The section with the rows that it takes over from other pieces, and the findings that still stand.

    A line that asks for another piece up to a place that is not found in it is told, and on trust.
    """
    part, replaced = take_over(part, earlier)
    kept = [finding for finding in found if not any(stands_in(finding, row) for row in replaced)]
    kept += [messages.unread_words(row.words, "this line") for row in part.rows if asks_for_piece(row)]
    rows = [
        replace(row, steps=(Unread(row.words, row.words.text, TOLD),)) if asks_for_piece(row) else row
        for row in part.rows
    ]
    return replace(part, rows=tuple(rows)), kept


def pattern_vocabulary(pattern: Pattern) -> Vocabulary:
    """The words of the pattern's terms, its own stitches and its colour letters."""
    known = build_vocabulary(pattern.terms, old=pattern.old_terms)
    own = {special.abbreviation for special in pattern.special_stitches}
    own |= {special.name for special in pattern.special_stitches}
    own |= set(pattern.abbreviations) | _names_defined_in_prose(pattern)
    fresh = tuple(sorted(name for name in own if name and known.look_up(name.lower()) is None))
    letters = tuple(sorted({colour.letter for colour in pattern.colours} | _letters_in(pattern)))
    squares = {name for name in own | _names_defined(pattern) if name.lower() in FILET}
    if not squares and needs_squares(pattern):
        squares = set(SQUARES)
    legend = tuple(sorted(read_letters(pattern, known).items()))
    words = _words_outside_rows(pattern)
    return build_vocabulary(pattern.terms, fresh, letters, words, tuple(sorted(squares)), legend, pattern.old_terms)


def _words_outside_rows(pattern: Pattern) -> frozenset[str]:
    """The words of the front matter, the headings and the prose, in small letters."""
    text = pattern.source.text
    inside = [(line.span.start, line.span.end) for part in pattern.parts for line in part.rows]
    outside, at = [], 0
    for start, end in sorted(inside):
        outside.append(text[at:start])
        at = max(at, end)
    outside.append(text[at:])
    return frozenset(word.lower() for word in re.findall(r"[A-Za-z]{2,}", " ".join(outside)))


def _names_defined_in_prose(pattern: Pattern) -> set[str]:
    """Names that a line of prose defines ("Bean st: …") and that the rows use."""
    rows = " ".join(line.text.lower() for part in pattern.parts for line in part.rows)
    found = {name for name in _names_defined(pattern) if NOT_STITCHES.match(name) is None}
    return {name for name in found if re.search(rf"\b{_forms_of(name)}\b", rows)}


def _forms_of(name: str) -> str:
    """A pattern for a name in small letters, one or several; "bullion st" is "bullion stitch"."""
    short = re.sub(r" (?:st|stitch)$", "", name.lower())
    if short == name.lower():
        return rf"{re.escape(short)}s?"
    return rf"{re.escape(short)} (?:sts?|stitch(?:es)?)"


def _names_defined(pattern: Pattern) -> set[str]:
    """Every name before a colon at the start of a line of prose, and the abbreviation in brackets behind it."""
    found: set[str] = set()
    for part in pattern.parts:
        for block in part.blocks:
            if isinstance(block, Prose):
                for match in DEFINITION.finditer(block.text):
                    found.update(name for name in (match["name"], match["short"]) if name)
    return found


def tell_undefined(
    parts: list[ParsedPart], definitions: list[StitchDefinition], vocabulary: Vocabulary
) -> tuple[list[ParsedPart], list[Finding]]:
    """Shells and V-stitches that the pattern uses and does not define: told once, their rows taken on trust."""
    known = {definition.name for definition in definitions}
    findings: dict[str, Finding] = {}
    told: list[ParsedPart] = []
    for part in parts:
        rows = []
        for row in part.rows:
            missing = next((w for w in list_works(row.steps) if w.stitch in NEED_WORDS and w.stitch not in known), None)
            if missing is not None:
                findings.setdefault(missing.stitch, messages.stitch_undefined(missing.span, missing.stitch))
                row = replace(row, steps=(*row.steps, Unread(row.words, row.words.text, TOLD)))
            rows.append(row)
        told.append(replace(part, rows=tuple(rows)))
    return told, list(findings.values())


def _letters_in(pattern: Pattern) -> set[str]:
    """Colour letters that the rows name, listed or not: "With B", "change to C", "MC"."""
    found: set[str] = set()
    for part in pattern.parts:
        for line in part.rows:
            found.update(LETTER.findall(line.text))
    return found


def _parse_part(
    part: Part, vocabulary: Vocabulary, numbers: Numbers, used: dict[str, None]
) -> tuple[ParsedPart, list[Finding]]:
    rows: list[Row] = []
    findings: list[Finding] = []
    for line, scope, above in list_lines(part, vocabulary, numbers.names):
        row, tokens, found = parse_row(line, vocabulary, replace(numbers, scope=scope))
        rows.append(replace(row, section=part.title, above=above))
        findings.extend(found if not asks_for_piece(row) else ())
        _note_label(row.label, used)
        for token in tokens:
            _note_term(token, row.words.text, used)
    return ParsedPart(part.title, part.make, tuple(_carry_side(number_alternate(rows))), part.span), findings


def _carry_side(rows: Sequence[Row]) -> Iterator[Row]:
    """The rows; what a line of its own says of the side to go on at, "Join yarn to foundation edge", is the next's."""
    side: OtherSide | None = None
    for row in rows:
        if side is not None and is_works(row.steps):
            row, side = replace(row, steps=(side, *row.steps)), None
        elif not row.label.text and not is_works(row.steps):
            side = next((step for step in row.steps if isinstance(step, OtherSide)), side)
        yield row


def list_lines(
    part: Part, vocabulary: Vocabulary, names: Sequence[str]
) -> Iterator[tuple[RowLine, tuple[int, ...], str]]:
    """The lines of instructions, each with the sizes that a line above says it is for, () for all, and that line."""
    scope = last = read_scope(part.title, names, ()) or ()
    above = ""
    for block in part.blocks:
        if isinstance(block, RowLine):
            own, begins = split_scope(block.text, names, last)
            whole = cut_prose(RowLine(block.text[begins:], block.span.sub(begins, len(block.text))), vocabulary)
            for piece in split_line(whole):
                yield piece, scope if own is None else own, above
                above = ""
            continue
        for line in block.text.split("\n"):
            above = line.strip(" *_:.") if len(line) <= MOST_ABOVE else ""
            found = read_scope(line, names, last)
            if found is not None:
                scope, last = found, found or last


def stands_in(finding: Finding, row: Row) -> bool:
    """Is it about that row?"""
    return finding.span.file is row.span.file and row.span.start <= finding.span.start < row.span.end


def _note_term(token: Token, text: str, used: dict[str, None]) -> None:
    """Stitches by their US name; other abbreviations of the trade as its table of words spells them."""
    if token.kind == "st":
        used.setdefault(str(token.value))
    elif token.kind in ("chsp", "chn"):
        used.setdefault("ch-sp")
    elif token.kind == "w":
        _note_word(text[token.start : token.end], used)


def _note_word(word: str, used: dict[str, None]) -> None:
    abbreviation = _abbreviations().get(word.lower().rstrip("."))
    if abbreviation:
        used.setdefault(abbreviation)


@cache
def _abbreviations() -> dict[str, str]:
    """The table's abbreviations, in small letters, one and several ("st", "sts")."""
    table = load_table("words")
    return {form: key for key in table for form in (key.lower(), f"{key.lower()}s")}


def _note_label(label: Label, used: dict[str, None]) -> None:
    for word in re.findall(r"[A-Za-z]+", label.text):
        _note_word(word, used)
