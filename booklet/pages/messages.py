"""What this part has to say: themes that are missing or broken, templates that fail."""

import difflib
from collections.abc import Sequence

from booklet.findings import Finding, error, warning
from booklet.source import Span


def unknown_theme(name: str, known: Sequence[str], span: Span) -> Finding:
    near = difflib.get_close_matches(name, known, n=1)
    return error(
        "unknown-theme",
        f'there is no theme "{name}"'[:72],
        span,
        expected=f"one of the themes at hand: {', '.join(known)}" if known else "the name of a folder in themes/",
        fix=f'write "{near[0]}"' if near else "",
    )


def theme_unreadable(name: str, reason: str, span: Span) -> Finding:
    return error(
        "theme-wrong",
        f'the theme "{name}" cannot be read'[:72],
        span,
        label=reason,
        expected="theme.yaml as UTF-8 text that may be read",
    )


def theme_wrong(span: Span, message: str, expected: str) -> Finding:
    return error("theme-wrong", message[:72], span, expected=expected)


def text_too_faint(name: str, colour: str, ground: str, ratio: float, least: float, span: Span) -> Finding:
    return warning(
        "text-too-faint",
        f'text of the theme "{name}" is too faint to read'[:72],
        span,
        label=f"{colour} on {ground} has a contrast of {ratio:.1f} : 1",
        expected=f"{least:g} : 1 or more, as WCAG 2.2 asks for text (level AA)",
        fix=f"darken or lighten `{colour.rpartition(' ')[2]}` in theme.yaml, away from `{ground}`",
    )


def template_wrong(span: Span, reason: str) -> Finding:
    return error(
        "template-wrong",
        "a template of the theme cannot be filled in",
        span,
        label=reason,
        expected="a template that uses only what the booklet's view holds",
    )


def name_not_filled(braces: str, close: str, known: Sequence[str], span: Span) -> Finding:
    shown = braces if len(braces) <= 30 else braces[:28] + "…}"
    return warning(
        "name-not-filled",
        f"{shown} has no value and is printed as it stands",
        span,
        expected=f"a number of the pattern: {', '.join(known)}" if known else "a name that is defined under `numbers:`",
        fix=f'write "{{{close}}}"' if close else "",
    )
