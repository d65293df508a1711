"""Words that are no term: everyday words that may pass, slips of a known term, and words nobody knows."""

import re
from functools import cache

from booklet.rows.vocabulary import Vocabulary
from booklet.terms import load_words

SHORTEST = 2


def is_plain(word: str) -> bool:
    """Is it an everyday word, which works nothing?"""
    low = word.lower().strip("'’")
    plain = load_words("plain_words")
    if not low.isalpha() or len(low) < SHORTEST or low in plain:
        return True
    stems = {low.removesuffix(ending) for ending in ("s", "es", "d", "ed", "ly", "ing", "er", "est", "y", "n't", "'s")}
    return any(stem in plain or f"{stem}e" in plain for stem in stems if len(stem) > 2)


def find_slip(word: str, vocabulary: Vocabulary) -> str:
    """The term of which the word is a slip (one letter more, less or other, or two changed over); "" for none."""
    low = word.lower()
    if is_plain(low) or not low.isalpha():
        return ""
    return next((term for term in _single_terms(vocabulary) if _is_one_slip(low, term)), "")


@cache
def _single_terms(vocabulary: Vocabulary) -> tuple[str, ...]:
    """Terms of one word, the stitches first, the longer first."""
    words = [(kind != "st", -len(term), term) for term, (kind, _) in vocabulary.phrases.items() if term.isalpha()]
    return tuple(term for _, _, term in sorted(words) if len(term) >= SHORTEST)


def _is_one_slip(word: str, term: str) -> bool:
    if word == term or abs(len(word) - len(term)) > 1 or min(len(word), len(term)) < SHORTEST:
        return False
    if len(word) == len(term):
        differ = [i for i, (a, b) in enumerate(zip(word, term, strict=True)) if a != b]
        swapped = len(differ) == 2 and differ[1] == differ[0] + 1 and sorted(word) == sorted(term)
        return swapped or (len(differ) == 1 and len(term) > 3)
    longer, shorter = (word, term) if len(word) > len(term) else (term, word)
    if len(shorter) < 3 and not _is_doubled(longer, shorter):
        return False
    return any(longer[:i] + longer[i + 1 :] == shorter for i in range(len(longer)))


def _is_doubled(longer: str, shorter: str) -> bool:
    """ "scc" for "sc": the same letter twice"""
    return any(
        longer[:i] + longer[i + 1 :] == shorter and longer[i] in (longer[i - 1 : i], longer[i + 1 : i + 2])
        for i in range(len(longer))
    )


BEGINNING = re.compile(r"\b(beg|beginning)-(?=(?:cl|cluster|shell|pc|popcorn|puff|bobble|v-?st)s?\b)", re.IGNORECASE)


def part_beginning(text: str) -> str:
    """ "beg cl" for "beg-cl", letter for letter"""
    return BEGINNING.sub(r"\1 ", text)
