"""One row line of the source as a `Row`."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.findings import Finding
from booklet.model.parsed import Label, Row, Stated
from booklet.model.pattern import RowLine
from booklet.model.tree import (
    ANY_STITCH,
    Aside,
    Chain,
    ChangeEvenly,
    Even,
    Free,
    Group,
    Leave,
    Node,
    OtherSide,
    Repeat,
    RepeatRows,
    Ring,
    ShapeRows,
    Skip,
    TakeColour,
    Unread,
    What,
    Where,
    Work,
)
from booklet.reading.size_lists import SIZE_LIST, read_size_list
from booklet.rows import messages
from booklet.rows.each_rules import join_rules
from booklet.rows.far_places import drop_explained, find_earlier_row, go_on_along
from booklet.rows.labels import MAX_ROWS, LabelTrouble, read_label
from booklet.rows.left_unworked import go_on_over_rest
from booklet.rows.lexing import read_tokens
from booklet.rows.markers import goes_by_markers
from booklet.rows.named_rows import name_depths
from booklet.rows.rings import settle_loop
from booklet.rows.row_ends import shape_ends
from booklet.rows.shaping import read_shaping
from booklet.rows.spelling import find_slip
from booklet.rows.steps import parse_steps
from booklet.rows.stream import TOLD, Stream, match_brackets
from booklet.rows.tokens import SAME_LENGTH, Numbers, Token, TokenTrouble
from booklet.rows.told_counts import frame_counts, join_named_sizes
from booklet.rows.vocabulary import Vocabulary
from booklet.rows.walking import walk_steps
from booklet.source import Span

# Rows that say what is to come about, and leave to the maker, a chart or a marker how: taken on trust as a whole.
FREE_ROW = re.compile(
    r"at the same time|\bcharts?\b|work(?:ing)? back from (?!(?:the )?cent)"
    r"|\bneck edge|\barmhole edge|keeping (?:continuity|to patt)|each end (?:of )?every|\b(?:both|each) ends? of"
    r"|\bwork an? (?:row|rnd|round) of|\bwork (?:1|one) (?:row|rnd|round) (?:of )?(?:sc|hdc|dc|tr|sl st)\b"
    r"|(?:inc|dec)\w* \d+ sts? (?:at|each|every|on|in)\b"
    r"[^,.]*(?:every|until|next \d+ r|end)"
    r"|\b(?:sc|hdc|dc|tr|htr) on (?:sc|hdc|dc|tr|htr)\b|\bother (?:shoulder|side) to match",
    re.IGNORECASE,
)
# Rows that go by markers: worked where it is known where these are.
MARKED_ROW = re.compile(r"\bmarked (?:st|sc|dc|hdc|tr)|to (?:the |next |first )*marker", re.IGNORECASE)
# "Sc2tog at neck edge", at the beginning or the end of a row: says which edge that is.
AT_EDGE = re.compile(
    r"(?<=tog),?\s*\(?(?:at\s+)?(?:the\s+)?(?:neck|armhole|front|side|raglan)\s+edge\)?", re.IGNORECASE
)
UNTIL = re.compile(
    rf"until (?:there are|you have) (?P<count>{SIZE_LIST}|\d{{1,6}}) (?:sts?|stitches|sc|hdc|dc|tr)\b", re.IGNORECASE
)
ROWS_TOLD = re.compile(r"[(\[](\d{1,4})\s+(?:rows?|rnds?|rounds?)[)\]]", re.IGNORECASE)


def parse_row(line: RowLine, vocabulary: Vocabulary, numbers: Numbers) -> tuple[Row, list[Token], tuple[Finding, ...]]:
    """row = label steps [count]; the tokens come along for the abbreviation key."""
    label, offset, trouble = read_label(line.span, numbers)
    if numbers.scope and not label.sizes:
        label = replace(label, sizes=tuple(numbers.names[at] for at in numbers.scope))
    numbers = find_scope(label, numbers)
    label = replace(label, places=numbers.scope)
    body = line.span.sub(offset, line.span.end - line.span.start)
    steps, stated, tokens, findings = parse_text(body, vocabulary, numbers)
    if any(isinstance(step, Unread) and step.word == TOLD for step in steps):
        stated = []
    if len(label.numbers) > 1 and not label.count and (told := ROWS_TOLD.search(body.text)):
        label = replace(label, count=int(told[1]))
    if label.colour in vocabulary.colours:
        steps.insert(0, TakeColour(label.span, label.colour))
    shaping = read_shaping(body, numbers.sizes)
    if shaping is not None:
        steps = [shaping]
        findings = []
    elif ends := shape_ends(steps, body):
        steps = ends
    elif FREE_ROW.search(AT_EDGE.sub("", body.text)) and not any(
        isinstance(s, Work) and s.where.how == "along" for s in steps
    ):
        steps = [Free(body, body.text), *(step for step in steps if isinstance(step, Even))]
        findings = []
    placed = [work for work in list_works(steps) if not work.where.bare and work.where.how in PLACED]
    number = label.numbers[0] if label.numbers and label.kind == "round" else 0
    earlier = find_earlier_row(body, number, len(placed))
    if earlier is not None and (rest := go_on_over_rest(steps, earlier)):
        steps = rest
    elif earlier is not None:
        inside = (earlier.span.start, earlier.span.end)
        named = [step for step in steps if isinstance(step, Unread) and _overlap(step.span, inside)]
        steps = [earlier, *_passed_first([step for step in steps if step not in named])]
    elif len(label.numbers) == 1:
        steps = name_depths(steps, label.numbers[0])
    steps = _read_figures(body) or settle_loop(drop_explained(steps), body.text)
    stated = stated or _told_with_free(steps, numbers.sizes)
    stated = stated or _told_in_label(label, vocabulary, numbers)
    stated = [_as_series(count, label) for count in stated]
    unread = _unread_findings(steps, label, vocabulary)
    found = [*_label_findings(label, trouble), *findings, *unread, *_slip_findings(body, tokens, unread, vocabulary)]
    return Row(label, tuple(steps), stated[-1] if stated else None, line.span, body), tokens, tuple(found)


def _is_left_open(text: str, steps: Sequence[Node]) -> bool:
    """Does the row leave to the maker, a chart or a marker how it is worked, and give no number along an edge?"""
    along = any(isinstance(step, Work) and step.where.how == "along" for step in steps)
    if MARKED_ROW.search(text) and (find_unread(steps) or not goes_by_markers(steps)):
        return True
    return FREE_ROW.search(AT_EDGE.sub("", text)) is not None and not along


def _overlap(span: Span, stretch: tuple[int, int]) -> bool:
    return span.start < stretch[1] and stretch[0] < span.end


def find_scope(label: Label, numbers: Numbers) -> Numbers:
    """The numbers as lists are read in a row that is for some sizes alone."""
    wanted = {name.lower() for name in label.sizes}
    scope = tuple(at for at, name in enumerate(numbers.names) if name.lower() in wanted)
    return replace(numbers, scope=scope) if scope != numbers.scope else numbers


def _passed_first(steps: Sequence[Node]) -> list[Node]:
    """The steps of a row worked further down: what it is told to leave at its start is passed over."""
    kept = [step for step in steps if not isinstance(step, OtherSide)]
    if not list_works(tuple(kept)):  # "… for the neck and join yarn": where to go on, and no more
        kept = [Aside(step.span, step.text) if isinstance(step, Unread) else step for step in kept]
    begun = next((at for at, step in enumerate(kept) if isinstance(step, Work | Group | Repeat)), len(kept))
    return [
        Skip(step.span, Where("next", step.count)) if isinstance(step, Leave) and step.count and at < begun else step
        for at, step in enumerate(kept)
    ]


FIGURES = re.compile(r"\s*(\d(?:-\d)+)(?=\s*(?:[(\[.]|$))")


def _read_figures(body: Span) -> list[Node]:
    """ "2-1 (18)", as toys are noted: so many stitches in each of the next places, again and again around"""
    match = FIGURES.match(body.text.translate(SAME_LENGTH))
    if match is None:
        return []
    span = body.sub(match.start(1), match.end(1))
    steps = tuple(Work(span, "st", (int(digit),), Where()) for digit in match[1].split("-"))
    return [Repeat(span, steps, "end", mark="(")]


SERIES = re.compile(r"\W*(?:\d+\s*(?:[,;&]|,?\s*and\b)\s*)+\d+\s*[^\d]*")


def _as_series(stated: Stated, label: Label) -> Stated:
    """ "Rows 4-8: … (30, 38, 46, 54, 62 dc)": a number for each row of the label, and what they all count"""
    kinds = [what for _, what in stated.items]
    alone = all(what == ANY_STITCH for what in kinds[:-1]) and kinds[-1].kind not in ("sp", "ch-sp")
    if len(kinds) < 2 or len(kinds) != len(label.numbers) or label.varied or stated.plus or not alone:
        return stated
    if not SERIES.fullmatch(stated.span.text):
        return stated
    values = tuple(values for values, _ in stated.items)
    return replace(stated, items=((values[-1], kinds[-1]),), series=values)


LABEL_COUNT = re.compile(
    rf"(?:[(\[]|\s[-–—]\s)(?P<count>{SIZE_LIST}|\d{{1,4}})\s*(?P<unit>sts?|stitches|sc|hdc|htr|dc|tr)?\s*(?:[)\]]|$)"
)


def _told_in_label(label: Label, vocabulary: Vocabulary, numbers: Numbers) -> list[Stated]:
    """The count in "Row 2 (22 sc):", and in a pattern of one size in "Rnd 3 (18):"."""
    match = LABEL_COUNT.search(label.span.text)
    values = read_size_list(match["count"]) if match else None
    if match is None or not values or len(values) not in (1, numbers.sizes) or label.varied:
        return []
    if not match["unit"] and numbers.sizes > 1:
        return []
    word = vocabulary.look_up((match["unit"] or "st").lower())
    what = What(str(word[1])) if word is not None and word[0] == "st" else ANY_STITCH
    return [Stated(((values, what),), label.span.sub(match.start("count"), match.end("count")))]


def _told_with_free(steps: Sequence[Node], sizes: int) -> list[Stated]:
    """The count in "inc 6 sts every rnd until there are 36 sts", where how often is left to the maker."""
    for step in steps:
        match = UNTIL.search(step.span.text) if isinstance(step, Free) else None
        values = read_size_list(match["count"]) if match else None
        if match and values and len(values) in (1, sizes):
            span = step.span.sub(match.start("count"), match.end())
            return [Stated(((values, ANY_STITCH),), span)]
    return []


def parse_text(
    span: Span, vocabulary: Vocabulary, numbers: Numbers
) -> tuple[list[Node], list[Stated], list[Token], list[Finding]]:
    """The steps and counts of a stretch of instructions that has no label."""
    tokens, troubles = read_tokens(span.text, vocabulary, numbers)
    tokens = frame_counts(join_named_sizes(tokens, span.text, numbers.names), span)
    closes, unclosed, unopened = match_brackets(tokens)
    findings = [_trouble_finding(span, trouble, numbers) for trouble in troubles if trouble.kind != "told"]
    findings += [
        messages.unclosed_bracket(span.sub(tokens[at].start, tokens[at].end), str(tokens[at].value)) for at in unclosed
    ]
    findings += [
        messages.unopened_bracket(span.sub(tokens[at].start, tokens[at].end), str(tokens[at].value))
        for at in unopened
        if not _numbers_a_list(tokens, at)
    ]
    stream = Stream(tokens, span, findings=findings, closes=closes, numbers=numbers)
    stated: list[Stated] = []
    steps = go_on_along(join_rules(parse_steps(stream, stated)))
    if (
        unclosed
        or any(not _numbers_a_list(tokens, at) for at in unopened)
        or any(trouble.kind in ("formula", "told") for trouble in troubles)
    ):
        steps.append(Unread(span, span.text, TOLD))  # what the row says is not known
    return steps, stated, tokens, findings


def _numbers_a_list(tokens: list[Token], at: int) -> bool:
    """ "1) …" at the start of a line numbers it and closes nothing."""
    return at == 1 and tokens[0].kind == "num"


def _trouble_finding(span: Span, trouble: TokenTrouble, numbers: Numbers) -> Finding:
    place = span.sub(trouble.start, trouble.end)
    if trouble.kind == "formula":
        return messages.formula_wrong(place, trouble.text)
    return messages.size_list_differs(place, trouble.found, numbers.sizes)


def _label_findings(label: Label, trouble: LabelTrouble | None) -> list[Finding]:
    if trouble is not None:
        if trouble.kind == "backwards":
            return [messages.label_backwards(label.span, trouble.first, trouble.last)]
        if trouble.kind == "told":
            return []
        if trouble.kind == "formula":
            return [messages.formula_wrong(label.span, trouble.why)]
        if trouble.kind == "sizes":
            return [messages.size_list_differs(label.span, trouble.first, trouble.last)]
        return [messages.label_too_long(label.span, trouble.first, trouble.last, MAX_ROWS)]
    if label.count and len(label.numbers) > 1 and label.count != len(label.numbers):
        return [messages.range_count_differs(label.span, len(label.numbers), label.count)]
    return []


PLACED = ("next", "each", "first", "last")


def find_unread(steps: Sequence[Node]) -> list[Unread]:
    """Every unread stretch, inside repeats and groups too."""
    return [step for step in walk_steps(steps) if isinstance(step, Unread)]


def _slip_findings(body: Span, tokens: list[Token], told: list[Finding], vocabulary: Vocabulary) -> list[Finding]:
    """Words that are one slip away from a term, where the row could be read all the same."""
    findings = []
    for token in tokens:
        if not token.is_strange:
            continue
        place = body.sub(token.start, token.end)
        term = find_slip(str(token.value), vocabulary)
        if term and not any(f.span.start <= place.start < max(f.span.end, f.span.start + 1) for f in told):
            findings.append(messages.misspelt_term(place, place.text, term))
    return findings


def find_free(steps: Sequence[Node]) -> list[Free]:
    """Every stretch that leaves a number to the maker, inside repeats and groups too."""
    return [step for step in walk_steps(steps) if isinstance(step, Free)]


MOTIONS = re.compile(
    r"\b(?:yo|yarn over|yrh|yoh|insert hook|(?:draw|pull)\w* (?:up|through)|(?:draw|pull)\w* (?:a )?l(?:oo)?p)\b",
    re.IGNORECASE,
)


def _unread_findings(steps: list[Node], label: Label, vocabulary: Vocabulary) -> list[Finding]:
    findings = []
    unread = [step for step in find_unread(steps) if step.word != TOLD]
    motions = [step for step in unread if MOTIONS.search(step.span.text)]
    if len(motions) > 1:  # a stitch told by the motions of the hook is one finding
        whole = motions[0].span.to(motions[-1].span)
        findings.append(messages.unread_words(whole, label.text))
        unread = [step for step in unread if not whole.start <= step.span.start < whole.end]
    for step in unread:
        if step.word and step.word.isascii() and step.word.isalnum():
            at = step.span.text.lower().find(step.word)
            place = step.span.sub(at, at + len(step.word)) if at >= 0 else step.span
            findings.append(messages.unknown_stitch(place, place.text, _known(vocabulary)))
        else:
            findings.append(messages.unread_words(step.span, label.text))
    return findings


def _known(vocabulary: Vocabulary) -> list[str]:
    return [phrase for phrase, (kind, _) in vocabulary.phrases.items() if kind == "st"]


WORKING = (*(Chain, ChangeEvenly, Even, Free, Group, Repeat, RepeatRows, Ring, ShapeRows, Skip, Unread, Work),)


def is_works(steps: tuple[Node, ...]) -> bool:
    """Does any step make or use something, or say which rows to work?"""
    return any(isinstance(step, WORKING) for step in steps)


def list_works(steps: Sequence[Node]) -> list[Work]:
    """Every stitch step, inside repeats and groups too."""
    return [step for step in walk_steps(steps) if isinstance(step, Work)]
