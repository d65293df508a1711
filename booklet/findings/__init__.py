"""What was found: facts with places, and how they are shown."""

from booklet.findings.finding import Finding, Note, Severity, counted, error, join_words, warning

__all__ = ["Finding", "Note", "Severity", "counted", "error", "join_words", "warning"]
