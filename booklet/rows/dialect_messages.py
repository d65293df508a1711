"""The findings about US and UK terms, each from facts and places."""

from collections.abc import Sequence

from booklet.findings import Finding, Note, warning
from booklet.source import Span

MAX_NOTES = 3


def terms_mixed(
    span: Span, words: str, says: str, terms: str, declared: Span | None, others: Sequence[tuple[Span, str]], own: str
) -> Finding:
    """`says` are the terms of the words, `own` their translation: "" where all of the pattern agrees with them."""
    notes = [Note(declared, f"{terms} terms are named here")] if declared else []
    notes += [Note(place, f"{says} terms as well: {other}") for place, other in others[:MAX_NOTES]]
    return warning(
        "terms-mixed",
        f"“{words}” belongs to {says} terms, and the pattern is in {terms}",
        span,
        label=f"read in {terms} terms",
        notes=tuple(notes),
        expected=f"one set of terms throughout: {terms}, or {says} with “terms: {says}” in the front matter",
        fix=f"write “{own}”"
        if own
        else f"write “terms: {says}” in the front matter, or put the words into {terms} terms",
    )


def terms_undeclared(span: Span, words: str, says: str, terms: str, others: Sequence[tuple[Span, str]]) -> Finding:
    return warning(
        "terms-undeclared",
        f"no terms are named, and “{words}” belongs to {says} terms",
        span,
        label=f"read in {terms} terms",
        notes=tuple(Note(place, f"{says} terms as well: {other}") for place, other in others[:MAX_NOTES]),
        expected=f"a line “terms: {says}” or “terms: {terms}” in the front matter",
        fix=f"write “terms: {says}” in the front matter",
    )


def row_not_carried(span: Span, label: str, terms: str) -> Finding:
    return warning(
        "terms-not-carried",
        f"{label or 'this line'} may not say the same in {terms} terms",
        span,
        label=f"carried over word for word; check it in the {terms} booklet",
        expected="a row that is read in full",
        fix="write it as stitches, places and repeats in the trade's notation",
    )


def prose_not_carried(span: Span, terms: str) -> Finding:
    return warning(
        "terms-not-carried",
        f"this line speaks of both sets of terms, and stands as it is in the {terms} booklet",
        span,
        label="not carried over",
        expected="one set of terms, or a stitch by both its names as in “sc (UK dc)”",
        fix="write each stitch as “sc (UK dc)”, or leave the line out: the booklet has a table of both sets",
    )
