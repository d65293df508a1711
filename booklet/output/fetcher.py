"""What typesetting may read: the resources of the booklet in hand, from memory, and nothing else.

No address is ever opened. Every resource is asked for under one made-up origin (RFC 2606 keeps
`.invalid` free), which also keeps the machine's paths out of the PDF.
"""

from collections.abc import Mapping
from pathlib import PurePosixPath
from typing import Any
from urllib.parse import unquote, urlsplit

from weasyprint.urls import URLFetcher, URLFetcherResponse

ORIGIN = "https://book.invalid/"
MAX_BYTES = 20_000_000

TYPES = {
    ".css": "text/css",
    ".jpeg": "image/jpeg",
    ".jpg": "image/jpeg",
    ".otf": "font/otf",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".ttf": "font/ttf",
}


class BookFetcher(URLFetcher):  # type: ignore[misc]  # WeasyPrint has no types
    """Answers from `resources`, which are named by their path below the origin, such as `pictures/hat.png`."""

    def __init__(self, resources: Mapping[str, bytes]) -> None:
        super().__init__(allowed_protocols=(), allow_redirects=False)
        self._resources = resources

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> Any:
        """Raises ValueError for all that is not a resource of the booklet; WeasyPrint logs it and goes on."""
        del headers
        parts = urlsplit(url)
        if f"{parts.scheme}://{parts.netloc}/" != ORIGIN:
            raise ValueError("only the booklet's own pictures, fonts and styles are read")
        name = unquote(parts.path).lstrip("/")
        body = self._resources.get(name)
        if body is None:
            raise ValueError(f"the booklet has no resource {name}")
        kind = TYPES.get(PurePosixPath(name).suffix.lower())
        if kind is None:
            raise ValueError(f"{name} is of no kind that can be printed")
        if len(body) > MAX_BYTES:
            raise ValueError(f"{name} is larger than {MAX_BYTES // 1_000_000} MB")
        return URLFetcherResponse(ORIGIN + name, body, {"Content-Type": kind})
