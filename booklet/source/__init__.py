"""Text with positions: what every other part points back to."""

from booklet.source.files import SourceFile, Span

__all__ = ["SourceFile", "Span"]
