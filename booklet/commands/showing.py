"""What every command shows and how it ends: findings on a stream, the exit status."""

import os
import shutil
from collections.abc import Sequence
from typing import Any, TextIO

import click

from booklet.findings import Finding
from booklet.findings.excerpt import leave_plain
from booklet.findings.render import has_errors, render_brief, render_full

FOUND = 1
UNUSABLE = 2

UNUSABLE_CODES = ("source-unreadable", "output-unwritable", "pango-missing")
"""Findings about the machine and its files rather than a pattern: as a wrong command line, they end with 2."""

COLOURS: dict[str, dict[str, Any]] = {
    "error": {"fg": "red", "bold": True},
    "warning": {"fg": "yellow", "bold": True},
    "primary": {"fg": "red"},
    "secondary": {"fg": "blue"},
    "margin": {"dim": True},
}


def show_findings(findings: Sequence[Finding], brief: bool, stream: TextIO) -> None:
    """Each finding in full, or in one line; in colour where someone is watching."""
    width = shutil.get_terminal_size((100, 24)).columns
    paint = _paint if stream.isatty() and not os.environ.get("NO_COLOR") else leave_plain
    for finding in findings:
        click.echo(render_brief(finding) if brief else f"{render_full(finding, width, paint)}\n", file=stream)


def exit_status(findings: Sequence[Finding], strict: bool) -> int:
    """0, FOUND or UNUSABLE."""
    if any(finding.code in UNUSABLE_CODES for finding in findings):
        return UNUSABLE
    return FOUND if has_errors(findings, strict) else 0


def _paint(text: str, role: str) -> str:
    return click.style(text, **COLOURS[role])
