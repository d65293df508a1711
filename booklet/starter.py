"""A first pattern to write over: small, complete and free of findings."""

import re
import unicodedata
from importlib.resources import files
from pathlib import Path


def write_starter(name: str, folder: Path) -> Path:
    """Makes the folder with its `pattern.md` and returns the file.

    Raises FileExistsError where there is something of that name already, ValueError where the name
    cannot be a folder's, OSError where it cannot be written.
    """
    slug = make_slug(name)
    if not slug:
        raise ValueError("a name has at least one letter or digit")
    target = folder / slug
    target.mkdir(parents=False, exist_ok=False)
    text = (files("booklet") / "starter.md").read_text(encoding="utf-8")
    title = " ".join(word.capitalize() for word in re.split(r"[\s_-]+", name.strip()) if word)
    file = target / "pattern.md"
    with file.open("x", encoding="utf-8", newline="\n") as stream:
        stream.write(text.replace("Untitled Washcloth", re.sub(r'["\\\x00-\x1f]', "", title)))
    return file


def make_slug(name: str) -> str:
    """`Harbour Hat` as `harbour-hat`."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60].strip("-")
