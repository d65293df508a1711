"""Numbers of two words: "twenty-one" is read as twenty, a dash and one, and put together."""

from dataclasses import replace

from booklet.rows.tokens import Token


def join_number_words(tokens: list[Token]) -> list[Token]:
    """The tokens with every ten and one that a dash joins made one number."""
    joined: list[Token] = []
    for token in tokens:
        tens = joined[-2] if len(joined) > 1 and joined[-1].is_mark("-") else None
        if tens is not None and _are_ten_and_one(tens, token):
            both = replace(tens, value=f"{tens.value}-{token.value}", end=token.end)
            joined[-2:] = [replace(both, numbers=(tens.numbers[0] + token.numbers[0],))]
        else:
            joined.append(token)
    return joined


def _are_ten_and_one(tens: Token, one: Token) -> bool:
    words = tens.kind == one.kind == "num" and str(tens.value).isalpha() and str(one.value).isalpha()
    return words and tens.numbers[0] % 10 == 0 and 0 < one.numbers[0] < 10
