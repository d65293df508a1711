"""Picture files that a pattern names: inside its own folder, or not used at all."""

import re
from difflib import get_close_matches
from pathlib import Path

ENDINGS = (".png", ".jpg", ".jpeg", ".webp")
_ADDRESS = re.compile(r"[a-z][a-z0-9+.-]+:|//|www\.", re.IGNORECASE)  # one letter and a colon is a drive


def find_picture(folder: Path, file: str) -> tuple[Path | None, str]:
    """The picture's real path, or None with the reason, as the end of a sentence about the file.

    A path that leaves the folder, by `..` or through a link, is refused, and so is an address.
    """
    if _ADDRESS.match(file):
        return None, "is an address, and nothing is fetched"
    try:
        root = folder.resolve(strict=True)
        path = (root / file).resolve()
        if Path(file).is_absolute() or not path.is_relative_to(root):
            return None, "lies outside the pattern's folder"
        if not path.exists():
            return None, "is not there"
        if not path.is_file():
            return None, "is not a file"
    except (OSError, ValueError, RuntimeError):  # a link that leads to itself, a NUL in the name
        return None, "cannot be opened"
    if path.suffix.lower() not in ENDINGS or Path(file).suffix.lower() not in ENDINGS:
        return None, "is not a JPEG, PNG or WebP file"
    return path, ""


def suggest_picture(folder: Path, file: str) -> str:
    """The name of a picture in the folder that is close to a name that is not there."""
    try:
        names = [path.name for path in folder.iterdir() if path.suffix.lower() in ENDINGS][:1000]
    except OSError:
        return ""
    folded = {name.lower(): name for name in names}
    close = get_close_matches(file.lower(), folded, 1, 0.6)
    return folded[close[0]] if close else ""
