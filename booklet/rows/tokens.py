"""A row's text as tokens: numbers (one per size where the text lists sizes), stitches, places, words, marks.

The text is normalised character by character, never changing its length, so that every token's
offsets are offsets in the author's own text.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from booklet.model.tree import PerSize
from booklet.rows.number_words import join_number_words
from booklet.rows.spelling import is_plain, part_beginning
from booklet.rows.together import join_together
from booklet.rows.vocabulary import MAX_WORDS, NUMBER_WORDS, ORDINAL_WORDS, Vocabulary
from booklet.sizing.formula import FormulaError, evaluate_formula

SAME_LENGTH = str.maketrans(
    {
        "×": "x",
        "✕": "x",
        "–": "-",
        "—": "-",
        "−": "-",
        "‑": "-",
        "‒": "-",
        "‘": "'",
        "’": "'",
        "“": '"',
        "”": '"',
        "″": '"',
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
        "‡": "+",
        "†": "+",
        "＊": "*",
        "∗": "*",
        "•": " ",
        "\t": " ",
        "\n": " ",
        "ı": "i",
        "…": ".",
        "→": "-",
    }
)

PIECES = re.compile(
    r"""
    (?P<brace>\{[^{}\n]*\})
  | (?P<chsp>ch(?:ain)?\s?-?\s?(?P<k1>\d+)\s?-?\s?(?:sps?|spaces?|lps?|loops?)\b
          | (?P<k2>\d+)\s?-?\s?ch(?:ain)?\s?-?\s?(?:sps?|spaces?|lps?|loops?|corners?)\b)
  | (?P<chn>ch(?:ain)?-(?P<k3>\d+)s?\b|(?P<k4>\d+)-ch(?:ain)?\b)
  | (?P<letter>(?:CC|MC|C)\d\b)
  | (?P<nth>\d+(?:st|nd|rd|th|d)\b)
  | (?P<compound>\d+-[A-Za-z]+[- ](?:cls?|clusters?|bobbles?|bob|puffs?|pc|popcorns?|shells?|fans?|v-st)\b)
  | (?P<dashed>(?:v-sts?|v-stitch(?:es)?|sl-sts?|t-ch|row-ends?|ch-sps?
      |half-(?:double|treble)|chain-spaces?|f/o|needle-join)\b)
  | (?P<size>\d+(?:-\d+){2,}(?![\w-]))
  | (?P<num>\d+(?![A-Za-z\d]))
  | (?P<glued>\d+(?=[A-Za-z]))
  | (?P<word>[A-Za-z][A-Za-z']*(?:\d+[a-z]+)?(?:\.(?=\s+(?:and|in|for|of)\b))?)
  | (?P<wordnum>[A-Za-z]+(?=\d))
  | (?P<star>\\?\*+|\++|\#|\^[A-Za-z]\b)
  | (?P<p>[()\[\],;.:=\-/"!?&%<>])
  | (?P<other>\S)
    """,
    re.VERBOSE | re.IGNORECASE,
)


# What may stand in braces as a sum; "{dc in next, ch 1}" is a bracket of the older kind.
FORMULA = re.compile(
    r"\{(?!.*\d\s+[A-Za-z])"
    r"\s*(?:[A-Za-z_]\w*\([\w\s.,+*/%-]*\)|[\w.]+|[-+*/%()]|\s(?![A-Za-z_]\w*\s+[A-Za-z_]))*\}"
)


@dataclass(frozen=True, slots=True)
class Token:
    """`kind` is num, ord, st, w, chsp, chn, colour, star, p, or word (a word nobody defined)."""

    kind: str
    value: str | int
    start: int
    end: int
    numbers: PerSize = ()
    plain: bool = False  # an everyday word, or one of the author's own

    def is_word(self, *values: str) -> bool:
        return self.kind == "w" and self.value in values

    @property
    def is_strange(self) -> bool:
        """Is it a word that is no term of the trade, no everyday word and none of the author's own?"""
        return self.kind == "word" and str(self.value).isalpha() and not self.plain

    def is_mark(self, *values: str) -> bool:
        return self.kind == "p" and self.value in values


@dataclass(frozen=True, slots=True)
class Numbers:
    """Named numbers of the pattern per size, and how many sizes there are."""

    values: Mapping[str, PerSize]
    sizes: int = 1
    refused: frozenset[str] = frozenset()  # names whose rule is wrong, which has been told already
    names: tuple[str, ...] = ()  # of the sizes
    scope: tuple[int, ...] = ()  # places of the sizes that the row is for, where it is not for all

    def spread(self, values: PerSize) -> PerSize:
        """A number for every size, of a list that has one for each size the row is for; as it is otherwise."""
        if not self.scope or len(values) in (1, self.sizes) or len(values) != len(self.scope):
            return values
        known = dict(zip(self.scope, values, strict=True))
        return tuple(known.get(at, values[0]) for at in range(self.sizes))

    def evaluate(self, formula: str) -> PerSize:
        """The formula's whole-number value in every size. Raises FormulaError with plain words."""
        results = []
        for size in range(self.sizes):
            names = {name: float(v[size] if len(v) > 1 else v[0]) for name, v in self.values.items()}
            value = evaluate_formula(formula, names)
            if abs(value - round(value)) > 1e-9:
                raise FormulaError(f"{formula} comes to {value:g}, not a whole number")
            results.append(round(value))
        return tuple(results) if len(set(results)) > 1 else (results[0],)


@dataclass(frozen=True, slots=True)
class TokenTrouble:
    """A place in the text that could not become a token: `kind` is formula, told or size-count."""

    kind: str
    start: int
    end: int
    text: str
    found: int = 0


def read_tokens(text: str, vocabulary: Vocabulary, numbers: Numbers) -> tuple[list[Token], list[TokenTrouble]]:
    """The tokens of a row's text, with what could not be read."""
    troubles: list[TokenTrouble] = []
    text = part_beginning(text.translate(SAME_LENGTH))
    pieces = _merge_words(_split_pieces(text, vocabulary, numbers, troubles), vocabulary)
    words = join_together(join_number_words(pieces), vocabulary)
    return _merge_sizes(words, numbers, troubles), troubles


def _split_pieces(text: str, vocabulary: Vocabulary, numbers: Numbers, troubles: list[TokenTrouble]) -> list[Token]:
    tokens: list[Token] = []
    for match in PIECES.finditer(text):
        start, end, piece = match.start(), match.end(), match.group()
        kind = match.lastgroup
        if match["brace"] and (vocabulary.names_colour(piece, numbers.values) or not FORMULA.fullmatch(piece)):
            tokens.append(Token("p", "[", start, start + 1))
            inner = _split_pieces(text[start + 1 : end - 1], vocabulary, numbers, troubles)
            tokens.extend(replace(t, start=t.start + start + 1, end=t.end + start + 1) for t in inner)
            tokens.append(Token("p", "]", end - 1, end))
        elif match["brace"]:
            tokens.append(_read_brace(piece, start, end, numbers, troubles))
        elif match["letter"] and piece in vocabulary.colours:
            tokens.append(Token("colour", piece, start, end))
        elif match["chsp"]:
            tokens.append(Token("chsp", int(match["k1"] or match["k2"]), start, end))
        elif match["chn"]:
            tokens.append(Token("chn", int(match["k3"] or match["k4"]), start, end))
        elif match["nth"]:
            tokens.append(Token("ord", int(re.match(r"\d+", piece)[0]), start, end))  # type: ignore[index]
        elif match["size"]:
            values = tuple(int(part) for part in piece.split("-"))
            if len(values) == numbers.sizes:
                tokens.append(Token("num", piece, start, end, values))
            else:
                tokens.append(Token("word", piece, start, end))
        elif (word := _read_glued(match, vocabulary)) is not None:
            tokens.append(Token("w", word, start, end))
        elif match["num"] or match["glued"]:
            tokens.append(Token("num", piece, start, end, (int(piece[:9]),)))
        elif match["star"]:
            tokens.append(Token("star", piece.lstrip("\\"), start, end))
        elif kind == "p":
            tokens.append(Token("p", piece, start, end))
        elif kind == "other":
            tokens.append(Token("word", piece, start, end))
        else:
            tokens.append(_read_word(piece, start, end, vocabulary))
    return tokens


def _read_glued(match: re.Match[str], vocabulary: Vocabulary) -> str | None:
    """What stands before a number without a blank: "R2" is a row, "dec*6" is six times."""
    text, piece = match.string, match.group()
    if not text[match.end() : match.end() + 1].isdigit():
        return None
    if piece in ("R", "r") and piece not in vocabulary.colours:
        return "rows"
    return "times" if piece == "*" and text[max(0, match.start() - 1) : match.start()].isalnum() else None


def _read_brace(piece: str, start: int, end: int, numbers: Numbers, troubles: list[TokenTrouble]) -> Token:
    try:
        return Token("num", piece, start, end, numbers.evaluate(piece[1:-1].strip()))
    except FormulaError as error:
        told = any(name in numbers.refused for name in re.findall(r"[A-Za-z_]\w*", piece))
        troubles.append(TokenTrouble("told" if told else "formula", start, end, str(error)))
        return Token("num", piece, start, end, (0,))


def _read_word(piece: str, start: int, end: int, vocabulary: Vocabulary) -> Token:
    """One word, not yet joined with its neighbours; its text is kept in `value`."""
    if piece in vocabulary.letters:
        return Token("st", vocabulary.letters[piece], start, end)
    if piece in vocabulary.colours:
        return Token("colour", piece, start, end)
    if len(piece) > 2 and (named := next((c for c in vocabulary.colours if c.lower() == piece.lower()), "")):
        return Token("colour", named, start, end)  # "10 sc blue", where the key is "Blue"
    compound = vocabulary.compound(piece.replace(" ", "-"))
    if compound:
        return Token("st", compound, start, end)
    glued = re.fullmatch(r"([a-z]+)(\d+)", piece, re.IGNORECASE)
    if glued and glued[1].lower() == "x":
        return Token("word", piece, start, end)
    return Token("raw", piece, start, end)


def _merge_words(tokens: list[Token], vocabulary: Vocabulary) -> list[Token]:
    """Join the longest runs of words that are one phrase of the trade."""
    merged: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        if token.kind not in ("raw", "word"):
            merged.append(token)
            index += 1
            continue
        if square := vocabulary.squares.get(str(token.value).lower()) if _starts_clause(merged) else None:
            merged.append(Token("st", square, token.start, token.end))
            index = _pass_squares_below(tokens, index + 1, vocabulary)
            continue
        for length in range(min(MAX_WORDS, len(tokens) - index), 0, -1):
            run = tokens[index : index + length]
            if any(part.kind not in ("raw", "word", "colour") for part in run[1:]):
                continue
            phrase = " ".join(str(part.value) for part in run).lower()
            found = vocabulary.look_up(phrase)
            if found and not (length > 1 and run[-1].kind == "colour"):
                if phrase == "round" and tokens[index + 1 : index + 2] and tokens[index + 1].kind == "num":
                    found = ("w", "rounds")  # "rep Round 14"
                merged.append(Token(found[0], found[1], token.start, run[-1].end))
                index += length
                break
        else:
            merged.append(_read_single(token, vocabulary))
            index += 1
    return merged


def _starts_clause(merged: list[Token]) -> bool:
    """Is the token before a number that begins a step: ", 3 sps", not "in next 3 sps"?"""
    if not merged or merged[-1].kind != "num":
        return False
    return len(merged) < 2 or merged[-2].kind in ("p", "star") or merged[-2].is_word("turn", "and", "work", "make")


def _pass_squares_below(tokens: list[Token], index: int, vocabulary: Vocabulary) -> int:
    """The index behind "over 7 bls": the squares of the row below say no more than the steps do."""
    at = index
    if at < len(tokens) and str(tokens[at].value).lower() == "over":
        at += 1
        at += at < len(tokens) and tokens[at].kind == "num"
        if at < len(tokens) and str(tokens[at].value).lower() in vocabulary.squares:
            return at + 1
    return index


def _read_single(token: Token, vocabulary: Vocabulary) -> Token:
    low = str(token.value).lower()
    if low in NUMBER_WORDS:
        return Token("num", low, token.start, token.end, (NUMBER_WORDS[low],))
    if low in ORDINAL_WORDS:
        return Token("ord", ORDINAL_WORDS[low], token.start, token.end)
    if low == "x":
        return Token("w", "times", token.start, token.end)
    return Token("word", low, token.start, token.end, plain=is_plain(low) or low in vocabulary.own_words)


def _merge_sizes(tokens: list[Token], numbers: Numbers, troubles: list[TokenTrouble]) -> list[Token]:
    """Join `77 (83, 89)`, `40 (44, 48) (52, 56)` and `(50, 54, 58)` into one number per size."""
    merged: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        values, after = _read_list(tokens, index)
        in_bracket = bool(merged) and (merged[-1].is_mark("(", "[") or merged[-1].value == "ch")
        has_colon = index + 1 < len(tokens) and tokens[index + 1].is_mark(":")
        if not values and (in_bracket or (has_colon and not _is_label(merged))):
            values, after = _read_run(tokens, index, numbers.sizes)
            if merged and merged[-1].value == "ch" and not _is_chain_list(tokens, values, after):
                values = ()
            if not values and numbers.scope:
                values, after = _read_run(tokens, index, len(numbers.scope))
        elif not values and index + 1 < len(tokens) and tokens[index + 1].is_mark("/"):  # "80/88"
            values, after = _read_run(tokens, index, numbers.sizes)
        elif not values and numbers.sizes > 2 and not (merged and merged[-1].kind in ("st", "num")):
            values, after = _read_run(tokens, index, numbers.sizes)
            if sorted(values) != list(values) or not _counts_something(tokens, after):
                values = ()
        values = numbers.spread(values)
        if len(values) == numbers.sizes and numbers.sizes > 1:
            merged.append(Token("num", "list", token.start, tokens[after - 1].end, values))
            index = after
        elif token.kind == "num" and (len(values) > 2 or (len(values) == 2 and _lacks_sizes(tokens, after, numbers))):
            troubles.append(TokenTrouble("size-count", token.start, tokens[after - 1].end, "", len(values)))
            fitted = (values + values[-1:] * numbers.sizes)[: numbers.sizes]
            merged.append(Token("num", "list", token.start, tokens[after - 1].end, fitted))
            index = after
        else:
            merged.append(token)
            index += 1
    return merged


def _is_chain_list(tokens: list[Token], values: PerSize, after: int) -> bool:
    """Is "114, 154" behind "ch" one number a size? "ch 2, 2 dc" is not: its second number counts a stitch."""
    rises = all(low < high for low, high in pairwise(values))
    return rises and not (after < len(tokens) and tokens[after].kind == "st")


def _is_label(merged: list[Token]) -> bool:
    """Is the number before a colon that of a row: "After row 1: 16 (24) sts"?"""
    return bool(merged) and merged[-1].is_word("rows", "rounds")


def _is_last_group(token: Token, groups: int) -> bool:
    """Is "{25}" in "17 (19, 21)[23]{25}" one more group of the list?"""
    return groups > 0 and token.kind == "num" and re.fullmatch(r"\{\s*\d+\s*\}", str(token.value)) is not None


def _lacks_sizes(tokens: list[Token], after: int, numbers: Numbers) -> bool:
    """Is "5 (7)", before what it counts, a list of sizes with one left out? At the end of a row it is a count."""
    follows = tokens[after] if after < len(tokens) else None
    return numbers.sizes > 2 and follows is not None and (follows.kind == "st" or follows.is_word("st", "times"))


def _counts_something(tokens: list[Token], after: int) -> bool:
    """Does a stitch, and no number of its own, follow a run of numbers: "11, 13, 15 sc"?"""
    return after < len(tokens) and (
        tokens[after].kind in ("st", "chsp") or tokens[after].is_word("st", "rows", "rounds")
    )


def _read_run(tokens: list[Token], index: int, sizes: int) -> tuple[PerSize, int]:
    """run = number ("," number)+ with one number for each size, as in `(183, 195, 207 sts)`"""
    values: list[int] = []
    at = index
    while at < len(tokens) and tokens[at].kind == "num" and len(tokens[at].numbers) == 1 and len(values) < sizes:
        values.append(tokens[at].numbers[0])
        at += 1
        if len(values) == sizes or at >= len(tokens) or not tokens[at].is_mark(",", ":", ";", "/"):
            break
        at += 1
    return (tuple(values), at) if sizes > 1 and len(values) == sizes else ((), index)


def _read_list(tokens: list[Token], index: int) -> tuple[PerSize, int]:
    """list = number group+ | group ; group = "(" number (("," | ":" | ";" | "-") number)* ")"

    The values and the index after the list; () where no list stands here.
    """
    values: list[int] = []
    if tokens[index].kind == "num" and len(tokens[index].numbers) == 1:
        values.append(tokens[index].numbers[0])
        index += 1
    elif not tokens[index].is_mark("(", "["):
        return (), index
    based = bool(values)
    groups = 0
    while index < len(tokens) and (tokens[index].is_mark("(", "[") or _is_last_group(tokens[index], groups)):
        if tokens[index].kind == "num":
            values.extend(tokens[index].numbers)
            index += 1
            continue
        close = ")" if tokens[index].value == "(" else "]"
        inner, at = [], index + 1
        while at + 1 < len(tokens) and tokens[at].kind == "num" and tokens[at + 1].is_mark(",", ":", ";", "-", close):
            inner.append(tokens[at].numbers[0])
            at += 2
            if tokens[at - 1].is_mark(close):
                break
        if not inner or not tokens[at - 1].is_mark(close):
            break
        if not based and (groups or len(inner) < 2):
            break
        values.extend(inner)
        groups += 1
        index = at
    return (tuple(values), index) if groups else ((), index)
