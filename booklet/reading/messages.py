"""The words of everything that reading a source can find."""

import re
from collections.abc import Sequence
from difflib import get_close_matches

from booklet.findings import Finding, Note, counted, error, warning
from booklet.source import Span
from booklet.source.yaml_loader import YamlProblem

# Headline, what is expected, and the fix, for each cause that the YAML reader names. `{text}` is the
# stretch of text concerned.
_SYNTAX = {
    "tab": ("a tab stands where spaces are needed", "spaces at the start of the line", "replace the tab with 2 spaces"),
    "colon in value": (
        "a second colon stands on the line",
        "one key, a colon and its value; keys that belong together start in the same column",
        "put the value in quotes if the colon is part of it",
    ),
    "colon missing": ("the line has no colon", "a key, a colon, a space and a value", 'write "key: value"'),
    "quote not closed": ("a quotation mark is not closed", "a second quotation mark", "close the quotation mark"),
    "bracket not closed": (
        "a bracket is not closed",
        "commas between the items, and the closing bracket",
        "close the bracket, or put the value in quotes if the bracket is part of it",
    ),
    "comma": (
        "a comma ends the value inside brackets",
        "the value in quotes, as it holds a comma",
        'write "{whole}" with the quotes',
    ),
    "indent": (
        "the line does not fit the lines above it",
        "keys that belong together in the same column, and nothing after a closing quotation mark",
        "move the text to the column of its key, or put the whole value in quotes",
    ),
    "start": ('a value cannot start with "{text}"', "a value in quotes", "put the value in quotes"),
    "alias": (
        'a value cannot start with "*" or "&"',
        "a value in quotes, or the value written out",
        "put the value in quotes",
    ),
    "tag": ('a value cannot start with "!"', "a value in quotes", "put the value in quotes"),
    "backslash": ("a backslash stands inside double quotes", "text without it", "use single quotes"),
    "character": ("a character that cannot be printed ({text})", "ordinary text", "delete the character"),
    "no keys": ("the text is not made of keys and values", "lines such as title: Harbour Hat", ""),
    "key": ("a list or a group stands where a key is expected", "a word, a colon and a value", ""),
    "second document": ("the front matter ends twice", "one --- above and one --- below", "delete the extra line"),
    "too long": ("the front matter is too long", "at most {text} characters", ""),
    "too deep": ("the values are nested too deep", "at most {text} levels", ""),
    "too many values": ("the front matter holds too many values", "at most {text} values", ""),
    "other": ("the text cannot be read: {text}", "keys and values, one to a line", ""),
}


def yaml_finding(problem: YamlProblem) -> Finding:
    """The finding for one problem of the YAML reader."""
    if problem.kind == "duplicate" and problem.other is not None:
        return same_key_twice(problem.text, problem.span, problem.other)
    if problem.kind == "trap":
        return warning(
            "yaml-trap",
            f'"{problem.text}" is taken as text',
            problem.span,
            label=f"other programs read {problem.cause} here",
            expected="quotes, so that every program reads the same",
            fix=f'write "{problem.text}" with the quotes',
        )
    if problem.kind == "comment":
        return error(
            "value-in-comment",
            f"{_shorten(problem.text)} counts as a comment, not as a value",
            problem.span,
            label="# begins a comment",
            expected="the value in quotes",
            fix=f'write "{problem.text}" with the quotes',
        )
    headline, expected, fix = _SYNTAX[problem.cause]
    text = _shorten(problem.text)
    notes: tuple[Note, ...] = ()
    if problem.other is not None and problem.other.line != problem.span.line:
        notes = (Note(problem.other, "the reader comes to a halt here"),)
    return error(
        "yaml-syntax",
        headline.replace("{text}", text),
        problem.span,
        notes=notes,
        expected=expected.replace("{text}", text),
        fix=_fix_colon(problem.span) if problem.cause == "colon in value" else fix.replace("{whole}", problem.text),
    )


def _fix_colon(span: Span) -> str:
    """The line with its value in quotes; where the line has one colon only, it stands in the wrong column."""
    line = span.file.lines[span.line - 1]
    match = re.match(r"(\s*(?:- )?[^\s:][^:]*:)\s+(.*)$", line[: span.column - 1] + span.text)
    if match is None or match.end(1) >= span.column:
        return "move the key to the column of the keys it belongs to"
    quote = "'" if '"' in match.group(2) else '"'
    return f"write {match.group(1).strip()} {quote}{match.group(2).strip()}{quote}"


def front_matter_open(opening: Span) -> Finding:
    return error(
        "yaml-syntax",
        "the front matter is not closed",
        opening,
        label="it opens here",
        expected="a line of three hyphens below the last key",
        fix='write "---" on a line of its own above the first row',
    )


def same_key_twice(name: str, second: Span, first: Span) -> Finding:
    return error(
        "yaml-duplicate-key",
        f'"{_shorten(second.text)}" stands twice',
        second,
        label="this one is not read",
        notes=(Note(first, f'"{_shorten(first.text)}" stands here already'),),
        expected="each key once" if first.text == second.text else f'one of the two; both mean "{name}"',
        fix="delete one of the two",
    )


def unknown_key(name: str, where: str, known: Sequence[str], span: Span) -> Finding:
    close = get_close_matches(name.lower(), known, 1, 0.6)
    return error(
        "unknown-key",
        f'"{_shorten(name)}" is not a key of {where}',
        span,
        expected=f'the key "{close[0]}"' if close else "one of " + ", ".join(known),
        fix=f'write "{close[0]}"' if close else "delete the line, or move it into the text",
    )


def missing_key(name: str, where: str, expected: str, span: Span) -> Finding:
    return error(
        "wrong-value",
        f"{where} has no {name}",
        span,
        expected=expected,
        fix=f'add "{name}: ..."',
    )


def wrong_value(code: str, message: str, where: str, span: Span, expected: str, fix: str) -> Finding:
    """A value that could not be read; `message` says how it stands, `where` under which key."""
    headline = f"{where}: {message}" if where else message
    return error(code, _shorten(headline, 90), span, expected=expected, fix=fix)


def missing_title(span: Span, heading: str, has_front_matter: bool) -> Finding:
    title = heading or "Harbour Hat"
    lines = f'"title: {title}"'
    return error(
        "missing-title",
        "the pattern has no title",
        span,
        expected="a title above the rows",
        fix=f"write {lines} below the first ---"
        if has_front_matter
        else f"write three lines at the top: ---, then {lines}, then ---",
    )


def size_count_differs(name: str, given: int, sizes: Sequence[str], span: Span, sizes_span: Span | None) -> Finding:
    there = f"the pattern has {counted(len(sizes), 'size')}" if sizes else "the pattern lists no sizes"
    return error(
        "size-count-differs",
        f"{name} gives {counted(given, 'number')}, but {there}",
        span,
        notes=() if sizes_span is None else (Note(sizes_span, counted(len(sizes), "size")),),
        expected=f"1 number for all sizes, or {len(sizes)}: " + ", ".join(sizes)
        if len(sizes) > 1
        else "1 number, or a list of sizes that says what the others are for",
        fix="" if sizes else 'add "sizes:" with one name for each number',
    )


def wrong_name(name: str, what: str, expected: str, span: Span, fix: str = "") -> Finding:
    return error("wrong-value", f'"{_shorten(name)}" cannot be the name of {what}', span, expected=expected, fix=fix)


ADDRESS_CURE = "save the picture beside the pattern, and write the name of its file"


def missing_picture(file: str, problem: str, span: Span, close: str = "") -> Finding:
    """`problem` says why the picture cannot be used: "is not there", "lies outside the folder" ..."""
    return error(
        "missing-picture",
        f'"{_shorten(file)}" {problem}',
        span,
        expected="a JPEG, PNG or WebP file in the pattern's folder",
        fix=f'write "{close}"' if close else ADDRESS_CURE if "address" in problem else "",
    )


# Why a picture cannot be printed where it stands, and the cure.
_PICTURES = {
    "other": (
        "a picture is written in a way that cannot be printed",
        "write ![what it shows](file.jpg) on a line of its own",
    ),
    "row": ("a picture stands among the words of a row", "put it on a line of its own below the row"),
    "table": ("a picture stands in a table", "put it on a line of its own below the table"),
    "facts": ("a picture stands in the front matter's text", "list it under `images:`, or put it into the text below"),
}


def picture_in_text(span: Span, where: str) -> Finding:
    """`where` is a key of _PICTURES."""
    headline, fix = _PICTURES[where]
    return warning(
        "picture-in-text",
        headline,
        span,
        label="left out of the booklet",
        expected="pictures between the rows, or between paragraphs",
        fix=fix,
    )


def missing_alt(file: str, span: Span, fix: str = "") -> Finding:
    return warning(
        "missing-alt",
        f'"{_shorten(file)}" has no words for those who cannot see it',
        span,
        expected="what the picture shows, in one sentence",
        fix=fix or f'write {{file: {file}, alt: "..."}}',
    )


def missing_shade(letter: str, name: str, shade: str, span: Span) -> Finding:
    return warning(
        "missing-shade",
        f"colour {letter} has no shade",
        span,
        label=f"drawn in {shade}",
        expected="the shade, so that legend and drawings look like the yarn",
        fix=f'write {{name: {name or letter}, shade: "{shade}"}} with the right shade',
    )


def make_differs(span: Span) -> Finding:
    return error(
        "wrong-value",
        "the heading gives several numbers to make",
        span,
        expected="one number that holds for all sizes, such as (make 2)",
        fix="give each number a heading of its own, or say it in the finishing",
    )


def unknown_hazard(has: str, hazards: Sequence[str], words: Sequence[str], span: Span) -> Finding:
    close = get_close_matches(has.lower(), words, 1, 0.6)
    return warning(
        "unknown-hazard",
        f'no safety note is known for "{_shorten(has)}"',
        span,
        expected="words such as " + ", ".join(hazards),
        fix=f'write "{close[0]}"' if close else "say it in the notes if it needs care",
    )


def no_rows(span: Span) -> Finding:
    return warning(
        "no-rows",
        "the pattern has no rows",
        span,
        expected='lines that start with a label, such as "Row 1 (RS):" or "Rnd 2:"',
        fix='write "kind: guide" above if it is meant to have none',
    )


def source_unreadable(reason: str, span: Span, fix: str = "") -> Finding:
    return error("source-unreadable", reason, span, expected="a text file in UTF-8 that holds a pattern", fix=fix)


def _shorten(text: str, most: int = 40) -> str:
    text = " ".join(text.split())
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"
