"""The findings of reading a row, each from facts and places."""

from difflib import get_close_matches

from booklet.findings import Finding, Note, counted, error, warning
from booklet.source import Span


def unclosed_bracket(span: Span, mark: str) -> Finding:
    closing = {"(": ")", "[": "]"}[mark]
    return error(
        "unclosed-bracket",
        f"the bracket “{mark}” is opened here and never closed",
        span,
        label="no closing bracket follows",
        expected=f"a “{closing}” where the repeat, group or remark ends",
        fix=f"add “{closing}”",
    )


def unopened_bracket(span: Span, mark: str) -> Finding:
    return error(
        "unopened-bracket",
        f"the bracket “{mark}” closes nothing",
        span,
        label="no bracket is open here",
        expected="an opening bracket before it",
        fix=f"remove “{mark}”, or open the bracket before it",
    )


def unknown_stitch(span: Span, word: str, known: list[str]) -> Finding:
    close = get_close_matches(word, known, n=1, cutoff=0.6)
    fix = (
        f"write “{close[0]}”, or define {word} under Special stitches"
        if close
        else f"define {word} under Special stitches, or write it in known terms"
    )
    return error(
        "unknown-stitch",
        f"“{word}” is not a stitch or term that the pattern defines",
        span,
        label="the row is taken on trust from here",
        expected="a stitch of the chosen terms, or one defined in the pattern",
        fix=fix,
    )


def misspelt_term(span: Span, word: str, term: str) -> Finding:
    return warning(
        "misspelt-term",
        f"“{word}” is no term of the trade, and close to “{term}”",
        span,
        label="read past",
        expected=f"“{term}”, or a word that cannot be taken for it",
        fix=f"write “{term}”",
    )


def stitch_undefined(span: Span, name: str) -> Finding:
    return error(
        "stitch-undefined",
        f"“{name}” is used and nowhere defined, so its stitches cannot be counted",
        span,
        label="the rows with it are taken on trust",
        expected="a line such as “Shell: 5 dc in same st” under Special stitches",
        fix=f"define {name}",
    )


def unread_words(span: Span, label: str) -> Finding:
    return warning(
        "unread-words",
        f"{label or 'this line'} has words that could not be read as stitches",
        span,
        label="not read; the row is taken at its stated count",
        expected="stitches, places and repeats in the trade's notation",
        fix="write it as stitches, or put a comment on a line of its own that starts with “>”",
    )


def repeat_without_mark(span: Span) -> Finding:
    return error(
        "repeat-without-mark",
        "the repeat names a mark that does not stand before it",
        span,
        label="where the repeat starts is not marked",
        expected="a “*” at the first stitch of the repeat",
        fix="put “*” where the repeat starts",
    )


def formula_wrong(span: Span, why: str) -> Finding:
    return error(
        "formula-wrong",
        why,
        span,
        label="cannot be worked out",
        expected="names from `numbers:` with + - * / and brackets",
        fix="correct the name or the sum",
    )


def size_list_differs(span: Span, found: int, sizes: int) -> Finding:
    return error(
        "size-count-differs",
        f"the list has {counted(found, 'number')}, the pattern has {counted(sizes, 'size')}",
        span,
        label=counted(found, "number"),
        expected=f"one number for every size: {sizes}",
        fix="add the missing numbers or take out the extra ones",
    )


def label_backwards(span: Span, first: int, last: int) -> Finding:
    return error(
        "row-range-backwards",
        f"the range runs backwards, from {first} to {last}",
        span,
        expected="the lower number first",
        fix=f"write {last}–{first}, or correct a number",
    )


def label_too_long(span: Span, first: int, last: int, limit: int) -> Finding:
    return error(
        "row-range-too-long",
        f"the range {first}–{last} stands for more than {limit} rows",
        span,
        expected=f"at most {limit} rows in one line",
        fix="correct the number, or split the range",
    )


def row_number_again(span: Span, number: int, earlier: Span, kind: str) -> Finding:
    return error(
        "row-number-again",
        f"{kind} {number} stands here a second time",
        span,
        notes=(Note(earlier, f"{kind} {number} stands here first"),),
        expected="each number once in a piece",
        fix="renumber one of the two",
    )


def row_number_gap(span: Span, expected: int, found: int, earlier: Span, kind: str) -> Finding:
    return error(
        "row-number-gap",
        f"{kind} {found} follows, where {kind} {expected} is due",
        span,
        notes=(Note(earlier, f"the {kind.lower()} before ends here"),),
        expected=f"{kind} {expected}",
        fix=f"write {expected}, or add the missing rows",
    )


def range_count_differs(span: Span, stands_for: int, stated: int) -> Finding:
    return error(
        "range-count-differs",
        f"the label stands for {counted(stands_for, 'row')}, and says {stated}",
        span,
        expected=f"({counted(stands_for, 'row')})",
        fix="correct the range or the number of rows",
    )
