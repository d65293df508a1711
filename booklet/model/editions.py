"""The editions that a pattern can be made in, by the names that sources and commands use."""

from collections.abc import Mapping
from types import MappingProxyType

EDITIONS: Mapping[str, str] = MappingProxyType(
    {
        "print": "the designed booklet as a PDF on each paper",
        "web": "the web page, one file",
    }
)
"""What each edition is; the names stand in the order in which they are made."""

USUAL_EDITIONS = ("print", "web")
"""Those made where nobody asks for others."""
