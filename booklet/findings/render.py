"""Findings as text for people (full, or one clickable line) and as plain values for tools."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from booklet.findings.excerpt import Paint, draw_excerpt, leave_plain, show_text, wrap_text
from booklet.findings.finding import Finding, Severity, counted

WIDTH = 100
FOOT = 13  # columns of "   expected  "


def order_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """In the order of the files' places, each told once.

    The same words at the same place are one finding: its sizes are put together. Files stand in the
    order of their paths, as editors list them.
    """
    told: dict[tuple[object, ...], Finding] = {}
    for finding in findings:
        span = finding.span
        key = (finding.code, finding.severity, finding.message, span.file.path, span.start, span.end)
        earlier = told.get(key)
        if earlier is None:
            told[key] = finding
        elif earlier.sizes and finding.sizes:
            told[key] = replace(earlier, sizes=tuple(dict.fromkeys(earlier.sizes + finding.sizes)))
        else:
            told[key] = replace(earlier, sizes=())  # one that is about every size covers the others
    return tuple(sorted(told.values(), key=lambda finding: (*finding.sort_key, finding.message)))


def render_brief(finding: Finding) -> str:
    """One line that editors make clickable: `path:line:col: error[code]: message`."""
    span = finding.span
    place = f"{show_text(span.file.path)}:{span.line}:{span.column}"
    return f"{place}: {finding.severity.value}[{finding.code}]: {show_text(finding.message)}"


def render_full(finding: Finding, width: int = WIDTH, paint: Paint = leave_plain) -> str:
    """The headline, the marked lines, what was expected and what to write, without a line end at the end.

    No line but the headline, which stays whole so that it can be clicked, is wider than `width`.
    """
    width = max(width, 40)
    blocks = [paint(render_brief(finding), finding.severity.value)]
    excerpt = draw_excerpt(finding, width, paint)
    if excerpt:
        blocks.append("\n".join(excerpt))
    elif finding.label:
        blocks.append("\n".join(f"   {words}" for words in wrap_text(finding.label, width - 3)))
    foot = _render_foot(finding, width)
    if foot:
        blocks.append(foot)
    return "\n\n".join(blocks)


def _render_foot(finding: Finding, width: int) -> str:
    lines: list[str] = []
    sizes = ", ".join(size for size in finding.sizes if size)
    for word, text in (("sizes", sizes), ("expected", finding.expected), ("fix", finding.fix)):
        for number, words in enumerate(_wrap_lines(text, width - FOOT)):
            lines.append(f"   {word if number == 0 else '':<{FOOT - 3}}{words}")
    return "\n".join(lines)


def _wrap_lines(text: str, columns: int) -> Iterator[str]:
    """Each line of the text on lines of its own, indented as it is: a fix may be YAML to copy."""
    for line in text.split("\n"):
        indent = min(len(line) - len(line.lstrip(" ")), columns // 2)
        for words in wrap_text(line, columns - indent):
            yield " " * indent + words


def list_as_json(findings: Iterable[Finding]) -> list[dict[str, object]]:
    """Plain values for `--json`; keys are added but never renamed or taken away."""
    return [
        {
            "code": finding.code,
            "severity": finding.severity.value,
            "file": finding.span.file.path,
            "line": finding.span.line,
            "column": finding.span.column,
            "message": finding.message,
            "sizes": list(finding.sizes),
            "expected": finding.expected,
            "fix": finding.fix,
        }
        for finding in findings
    ]


def render_closing(findings: Sequence[Finding], outcome: str = "") -> str:
    """How many were found, and what came of it: `3 errors and 1 warning in 2 files; nothing was written`."""
    errors = sum(finding.severity is Severity.ERROR for finding in findings)
    warnings = len(findings) - errors
    told = [counted(number, word) for number, word in ((errors, "error"), (warnings, "warning")) if number]
    if told:
        files: set[str] = {finding.span.file.path for finding in findings}
        text = f"{' and '.join(told)} in {counted(len(files), 'file')}"
    else:
        text = "nothing wrong was found"
    return f"{text}; {outcome}" if outcome else text


def has_errors(findings: Iterable[Finding], strict: bool = False) -> bool:
    """Whether something stops the booklet; with `strict` a warning does too."""
    return any(strict or finding.severity is Severity.ERROR for finding in findings)
