"""A row's text as tokens: numbers (one per size where the text lists sizes), stitches, places, words, marks.

The text is normalised character by character, never changing its length, so that every token's
offsets are offsets in the author's own text.
"""

import re
from dataclasses import replace

from booklet.rows.number_lists import join_number_lists
from booklet.rows.number_words import join_number_words
from booklet.rows.spelling import part_beginning
from booklet.rows.together import join_together
from booklet.rows.tokens import SAME_LENGTH, Numbers, Token, TokenTrouble
from booklet.rows.vocabulary import Vocabulary
from booklet.rows.word_runs import join_words
from booklet.sizing.formula import FormulaError

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


def read_tokens(text: str, vocabulary: Vocabulary, numbers: Numbers) -> tuple[list[Token], list[TokenTrouble]]:
    """The tokens of a row's text, with what could not be read."""
    troubles: list[TokenTrouble] = []
    text = part_beginning(text.translate(SAME_LENGTH))
    pieces = join_words(_split_pieces(text, vocabulary, numbers, troubles), vocabulary)
    words = join_together(join_number_words(pieces), vocabulary)
    return join_number_lists(words, numbers, troubles), troubles


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
