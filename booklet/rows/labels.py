"""The label of a row: "Row 1 (RS):", "Rnds 5-12:", "Row 2 and all even rows:", "Next row:", "Foundation:"."""

import re
from dataclasses import dataclass

from booklet.model.parsed import Label
from booklet.model.tree import PerSize, at_size
from booklet.reading.size_lists import SIZE_LIST, read_size_list
from booklet.rows.rows_until import read_side
from booklet.rows.scopes import find_sizes
from booklet.rows.tokens import SAME_LENGTH, Numbers
from booklet.sizing.formula import FormulaError
from booklet.source import Span

MAX_ROWS = 5_000
ROUND = r"(?:rounds?|rnds?|rn|rd)"
KIND = rf"(?:rows?|rws?|{ROUND}|r)"
SIDE = r"even|odd|(?:foll?\w*\s+)?(?:other|alternate|alt)|rs|ws|right\s+side|wrong\s+side"
INCL = r"(?:\s*incl(?:usive)?\.?)?"
BRACE = r"\{[^{}\n]{1,60}\}"
LIST = r"(?:\s*[(\[]\s*\d+(?:\s*[,:;]\s*\d+)%s\s*[)\]])?"  # "96 (104, 112)": one number a size
NUMBER = rf"(?:\#?\d+(?:[A-Da-d]\b)?{LIST % '+'}|{BRACE})"
EVERY = (
    rf"(?:\s*,?\s+and\s+(?:(?:all|every)\s+|(?=(?:foll?\w*\s+)?alt))(?:(?P<parity>{SIDE})\s*-?)?"
    r"(?:numbered\s+)?(?P<kind8>rows?|rounds?|rnds?)?(?:\s+after)?)?"
)
KIND2 = rf"(?:rows?|{ROUND})"
# What is shaped, or which side is worked, before a colon.
SHAPE = (
    r"shape(?:\s+the)?\s+[a-z]+(?:\s+[a-z]+)?"
    r"|(?:first|second|left|right|other)\s+(?:side|shoulder|front|half|strap)(?:\s+of\s+neck)?"
)
NAMES = (
    r"(?:on\s+)?(?:the\s+)?(?:next|following)|last|final|foundation|set-?up|setup|base|inc(?:rease)?|dec(?:rease)?"
    rf"|border|edging|joining|row|rnd|rs|ws|right side|wrong side|{SHAPE}"
)

ORDINAL = r"\d+(?:st|nd|rd|th|d)"
ORDINALS = rf"{ORDINAL}(?:\s*(?:,\s*and|,|&|and|to|through|-)\s*{ORDINAL})*"
COUNTED = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
AS_FOLLOWS = r"(?:\s+(?:is\s+|are\s+)?(?:worked\s+)?as\s+follows)?"
# "Row 3, sizes S and M only", "Row 3 - Size S", "Row 4 for S only"
FOR_SIZES = r"(?:\s*[,-]?\s*(?:for\s+)?(?P<told_sizes>sizes?\s+[^:.\n]{1,40}|[^:.,\n]{1,30}?\s+only)(?=\s*:))?"

# "Row 5 with A"
IN_COLOUR = r"(?:\s+(?:with|in|using)\s+(?P<colour>(?-i:[A-Z]{1,2}\d?))(?=\s*:))?"
RANGE = r"\d+\s*-\s*\d+"
RANGES = rf"{RANGE}\s*[(\[]\s*{RANGE}(?:\s*[,:;]\s*{RANGE})*\s*[)\]]"  # "7-10 (9-12, 11-14)"


def _label_form(numbers: str) -> re.Pattern[str]:
    return re.compile(
        rf"""^\s*(?:[-*+]\s+)?(?:\*\*|__)?\s*
    (?:
        (?:(?:work\s+(?=[^:\n]{{1,40}}\bas\s+follows))
        |(?P<name1>(?!rep|return|as\b|work|same|like|for\b)[A-Za-z][A-Za-z -]*?)\s+)?
        (?P<kind1>{KIND})\.?\s*(?P<numbers1>{numbers})
      | (?P<ordinals>{ORDINALS})(?:\s*(?P<kind2>rows?|{ROUND})|(?=\s*:|\s*,?\s+and\s+(?:all|every|foll?\w*\s+alt|alt)))
      | (?P<kind7>row|rnd|round)\s+(?P<word>{"|".join(COUNTED)})(?=\s*(?:\*\*|__)?\s*[:.-])
      | (?P<name3>(?:{NAMES})(?:\s+(?:\d+\s*{LIST % "*"}\s*(?={KIND}))?(?:{KIND}|ch|chain))?(?:\s+[A-Z])?)
        (?P<count3>\s+\d+\s+{KIND})?
      | (?P<name6>(?!(?:rep|as|work|same|like|for|row|rnd|round)\b)[A-Za-z][A-Za-z'-]*(?:\s+[A-Za-z'-]+)?
        \s+(?:{KIND2})(?:\s+[A-Z])?(?=\s*(?:[(\[][^()\[\]]{{0,60}}[)\]]\s*)?(?:\*\*|__)?\s*:))
      | (?P<numbers5>\d+)\.?\s+(?P<kind5>row|rnd|round)(?=\s*[:.])
      | (?P<numbers4>\d+(?:\s*-\s*\d+)?)(?=\s*[:.]|\s*\))
    ){EVERY}{INCL}{AS_FOLLOWS}
    (?P<aside>(?:\s*[(\[][^()\[\]]{{0,60}}[)\]])*){IN_COLOUR}{FOR_SIZES}
    \s*(?:\*\*|__)?\s*(?P<end>[:.)=]|-(?=\s)|(?=\s))\s*(?:\*\*|__)?\s*""",
        re.VERBOSE | re.IGNORECASE,
    )


def _number_form(most_end: str) -> str:
    """Numbers and ranges; a list behind the first, or the end of a range, has as few numbers as `most_end` says."""
    end = rf"(?:\#?\d+(?:[A-Da-d]\b)?{LIST % most_end}|{BRACE})"
    words = r"\s*(?:r|rows?|rnds?)?\s*"
    return rf"(?:{RANGES}|{end})(?:\s*(?:(?:-|to|through|thru){words}{end}|(?:,|&|and|,\s*and){words}{NUMBER}))*"


LABEL = _label_form(_number_form("+"))
LABEL_OF_TWO = _label_form(_number_form("*"))  # of two sizes a list has one more number: "Rows 5-12 (14)"
PARTS = re.compile(
    r"(?P<name>\{[^{}]*\})|(?P<number>\d+)(?:\s*[(\[](?P<others>[\d\s,:;]+)[)\]])?|(?P<next>,|&|\band\b)", re.IGNORECASE
)


# "Row 2 - 11 sts:" is Row 2 with its count, and no range.
COUNT_BEHIND = re.compile(
    r"^(?P<label>\W*(?:rows?|rnds?|rounds?|r)\.?\s*\d+(?:\s*-\s*\d+)?) - "
    r"(?P<count>\d+\s*(?:sts?|stitches|sc|hdc|htr|dc|tr))(?=\s*:)",
    re.IGNORECASE,
)
ABOUT_THE_ROW = re.compile(r"\b(?:rs|ws|side|sizes?|rows?|rnds?|rounds?|only)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class LabelTrouble:
    """What is wrong with a label: `kind` is "backwards", "too many", "sizes", "formula" or "told".

    `first` and `last` are the ends of a range, or how many numbers a list has and should have; `why` is what is
    wrong with a formula. "told" is what has been told where it was defined.
    """

    kind: str
    first: int = 0
    last: int = 0
    why: str = ""


ONE_SIZE = Numbers({})


def _find_end(match: re.Match[str]) -> int:
    """Where the label ends; "**" behind it is the row's own mark where no bold letters have begun before it."""
    words = match.group().rstrip()
    opened = "**" in words[:-2]
    return match.start() + len(words) - 2 if words.endswith("**") and not opened else match.end()


def read_label(span: Span, named: Numbers = ONE_SIZE) -> tuple[Label, int, LabelTrouble | None]:
    """The label at the start of a row line, the offset at which the row's own words start, and any trouble."""
    text = COUNT_BEHIND.sub(r"\g<label> (\g<count>)", span.text.translate(SAME_LENGTH), count=1)  # as long as before
    match = (LABEL_OF_TWO if named.sizes == 2 else LABEL).match(text)
    if not match:
        return Label("", (), "", span.sub(0, 0)), 0, None
    end = _find_end(match)
    aside = match["aside"] or ""
    if not match["end"] and aside and not ABOUT_THE_ROW.search(aside):
        end, aside = match.start("aside"), ""  # "R 5 (3 sc, inc) x 6": the bracket is the row's own
    by_size, trouble = _read_numbers(match, named)
    kind = _find_kind(match)
    shown = span.sub(match.start(), match.start("aside") + len(aside)).text.strip(" *_-")
    if match["name1"] and match["end"] not in (":", ".", "=", "-"):
        return Label("", (), "", span.sub(0, 0)), 0, None
    if (
        match["numbers1"] is None
        and match["ordinals"] is None
        and match["word"] is None
        and match["numbers4"] is None
        and match["numbers5"] is None
        and match["end"] not in (":", ".", "-", "=")
    ):
        return Label("", (), "", span.sub(0, 0)), 0, None
    rows = re.search(rf"(\d+)\s*(?:rows?|{ROUND})", aside or match["name3"] or "", re.IGNORECASE)
    listed = re.search(rf"(?<=\s)({SIZE_LIST})\s+(?:rows?|{ROUND})", match["name3"] or "", re.IGNORECASE)
    counts = named.spread(read_size_list(listed[1]) or ()) if listed else ()
    label = Label(
        _kind_of(kind, match["numbers4"] is not None),
        by_size[0],
        shown,
        span.sub(len(text) - len(text.lstrip(" *_-")), match.end("aside")),
        read_side(aside) or read_side(match["parity"] or "") or read_side(match["name3"] or ""),
        (match["name1"] or match["name3"] or match["name6"] or "").strip().lower(),
        int(rows[1]) if rows else 0,
        2 if match["parity"] else 0,
        _read_sizes(shown, aside, match["told_sizes"] or "", named),
        trouble is not None,
        colour=match["colour"] or "",
        varied=by_size if any(numbers != by_size[0] for numbers in by_size) else (),
        counts=counts if len(counts) == named.sizes else (),
    )
    return label, end, trouble


ABOUT_SIZES = re.compile(r"^(?:for\s+)?sizes?\s+|\s+sizes?$|\s+sizes?\s+only$|\s+only$", re.IGNORECASE)


def _read_sizes(shown: str, aside: str, beside: str, named: Numbers) -> tuple[str, ...]:
    """The sizes that the label is for, as the pattern calls them, or as it says where there is no such size."""
    told = re.search(r"\(?\bsizes?\b\s*([^()]*?)\s*only", shown, re.IGNORECASE)
    if not told and beside:
        aside = f"({beside})"
    for words in [told[1]] if told else re.findall(r"[(\[]([^()\[\]]+)[)\]]", aside):
        inner = re.sub(
            r"^(?:for\s+)?sizes?\s+|\s+sizes?$|\s+sizes?\s+only$|\s+only$", "", words.strip(), flags=re.IGNORECASE
        )
        places = find_sizes(inner, named.names)
        if places is not None:
            return tuple(named.names[at] for at in places) if len(places) < len(named.names) else ()
    if told is None:
        return ()
    return tuple(part.strip() for part in re.split(r",\s*(?:and\s+)?|\s+and\s+", told[1]) if part.strip())


def _find_kind(match: re.Match[str]) -> str:
    """What the label calls its rows, or its name."""
    groups = ("kind1", "kind2", "kind5", "kind7", "name3", "name6", "kind8")
    return next((match[group] for group in groups if match[group]), "").lower()


def _kind_of(word: str, bare: bool) -> str:
    if re.search(r"foundation|base|set-?up", word) and not re.search(r"row|r(ou)?nd", word):
        return "foundation"
    if bare or re.search(ROUND, word):
        return "round"
    if word.strip() == "r":
        return "r"
    return "row"


def _read_numbers(match: re.Match[str], named: Numbers) -> tuple[tuple[tuple[int, ...], ...], LabelTrouble | None]:
    """The numbers that the label stands for, in every size."""
    if match["word"]:
        return ((COUNTED.index(match["word"].lower()) + 1,),), None
    ordinals = re.sub(r"(?<=\d)[a-z]+", "", match["ordinals"] or "", flags=re.IGNORECASE)
    written = ordinals or match["numbers1"] or match["numbers5"] or match["numbers4"]
    if not written:
        return ((),), None
    if re.fullmatch(RANGES, written):
        return _read_ranges(written, named)
    ranges: list[list[PerSize]] = [[]]
    for part in PARTS.finditer(written):
        if part["next"]:
            ranges.append([])
            continue
        values = _read_value(part, named)
        if isinstance(values, LabelTrouble):
            return ((),), values
        ranges[-1].append(values)
    ends = [(parts[0], parts[-1]) for parts in ranges if parts]
    sizes = range(named.sizes if any(len(value) > 1 for pair in ends for value in pair) else 1)
    found = [_expand([(at_size(first, size), at_size(last, size)) for first, last in ends]) for size in sizes]
    return tuple(numbers for numbers, _ in found), next((trouble for _, trouble in found if trouble), None)


def _read_ranges(written: str, named: Numbers) -> tuple[tuple[tuple[int, ...], ...], LabelTrouble | None]:
    """A whole range for every size."""
    ends = [int(digits[:9]) for digits in re.findall(r"\d+", written)]
    pairs = list(zip(ends[::2], ends[1::2], strict=True))
    if len(pairs) != named.sizes:
        return ((),), LabelTrouble("sizes", len(pairs), named.sizes)
    found = [_expand([pair]) for pair in pairs]
    return tuple(numbers for numbers, _ in found), next((trouble for _, trouble in found if trouble), None)


def _read_value(part: re.Match[str], named: Numbers) -> PerSize | LabelTrouble:
    """One number, or one for every size: `{rows}`, `96 (104, 112)`."""
    if part["name"]:
        try:
            return named.evaluate(part["name"][1:-1].strip())
        except FormulaError as error:
            told = any(name in named.refused for name in re.findall(r"[A-Za-z_]\w*", part["name"]))
            return LabelTrouble("told" if told else "formula", why=str(error))
    values = tuple(int(digits[:9]) for digits in re.findall(r"\d+", f"{part['number']} {part['others'] or ''}"))
    values = named.spread(values)
    if len(values) not in (1, named.sizes):
        return LabelTrouble("sizes", len(values), named.sizes)
    return values


def _expand(pairs: list[tuple[int, int]]) -> tuple[tuple[int, ...], LabelTrouble | None]:
    numbers: list[int] = []
    for first, last in pairs:
        if last < first:
            return (first,), LabelTrouble("backwards", first, last)
        if last - first >= MAX_ROWS or len(numbers) > MAX_ROWS:
            return (first,), LabelTrouble("too many", first, last)
        numbers.extend(range(first, last + 1))
    return tuple(numbers), None
