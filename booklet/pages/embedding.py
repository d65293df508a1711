"""Pictures and fonts put into the page itself, so that one file is the whole web page."""

import base64
from collections.abc import Mapping
from pathlib import PurePosixPath

from booklet.pages.theme import Theme

_TYPES = {".png": "image/png", ".jpg": "image/jpeg", ".woff2": "font/woff2"}


def write_data_uri(name: str, content: bytes) -> str:
    """The bytes as an address that holds them; the ending of the name says what they are."""
    kind = _TYPES[PurePosixPath(name).suffix]
    return f"data:{kind};base64,{base64.b64encode(content).decode('ascii')}"


def embed_resources(resources: Mapping[str, bytes]) -> dict[str, str]:
    """Every picture's address in the booklet with the data that replaces it."""
    return {name: write_data_uri(name, content) for name, content in resources.items()}


def write_font_faces(theme: Theme) -> str:
    """The theme's web fonts as CSS, their files inside. A face that fails leaves the fallback."""
    rules: list[str] = []
    for font in theme.fonts.values():
        for face, path in font.web_files.items():
            weight, _, style = face.partition(" ")
            rules.append(
                f'@font-face{{font-family:"{font.family}";font-weight:{weight};font-style:{style or "normal"};'
                f"font-display:swap;src:url({write_data_uri(path.name, path.read_bytes())}) format('woff2')}}"
            )
    return "\n".join(dict.fromkeys(rules))
