"""A small print job in the fonts that ship with the themes."""

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from booklet.output.pdf import PrintJob
from booklet.source import SourceFile

FONTS = Path(__file__).parents[2] / "themes" / "fonts"


@pytest.fixture
def make_job() -> Callable[..., PrintJob]:
    def make(
        body: str,
        head: str = "",
        resources: Mapping[str, bytes] | None = None,
        fonts: tuple[Path, ...] = (FONTS,),
        source: str = "title: Dune Wrap\n",
    ) -> PrintJob:
        html = (
            f'<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Dune Wrap</title>{head}'
            '<style>@page { size: A4 } body { font-family: "Source Serif 4" }</style></head>'
            f"<body>{body}</body></html>"
        )
        return PrintJob("print A4", html, resources or {}, fonts, SourceFile("wrap.md", source).whole())

    return make
