"""Words joined to the longest phrase of the trade that they are."""

from booklet.rows.spelling import is_plain
from booklet.rows.tokens import Token
from booklet.rows.vocabulary import MAX_WORDS, NUMBER_WORDS, ORDINAL_WORDS, Vocabulary


def join_words(tokens: list[Token], vocabulary: Vocabulary) -> list[Token]:
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
