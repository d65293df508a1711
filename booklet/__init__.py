"""From one source in the trade's own notation to a proved, printable pattern booklet."""

__version__ = "0.1.0"
