"""Files in the output folder: named safely, and all of a pattern's replaced together or none."""

import contextlib
import os
import re
import tempfile
import unicodedata
from collections.abc import Mapping
from pathlib import Path

from booklet.findings import Finding
from booklet.output import messages
from booklet.source import Span

MAX_NAME = 80

# Device names that no file may have on Windows, with any ending.
_RESERVED = re.compile(r"^(con|prn|aux|nul|com\d|lpt\d)(?=\.|$)", re.IGNORECASE)


def name_file(slug: str, version: str, terms: str, form: str, ending: str) -> str:
    """`slug-v1.0-US-A4.pdf`; a part that is empty is left out, with its dash."""
    parts = [make_safe(slug, "pattern"), make_safe(version and f"v{version.lstrip('vV')}"), make_safe(terms)]
    return "-".join(part for part in [*parts, make_safe(form)] if part) + f".{ending}"


def make_safe(text: str, otherwise: str = "") -> str:
    """The text as part of a file name on any system: plain letters, digits, dots, dashes and _, at most 80."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii")
    plain = re.sub(r"[^A-Za-z0-9._-]+", "-", plain)[:MAX_NAME].strip("-.")
    return _RESERVED.sub(r"\1_", plain) or otherwise


def write_files(folder: Path, files: Mapping[str, bytes], at: Span) -> tuple[tuple[Path, ...], tuple[Finding, ...]]:
    """Writes all the files into the folder, which is made where there is none.

    Each file is first written whole under a temporary name beside its place; only when all of them are
    there do they take the places of the earlier ones. Where that fails, the earlier ones stand again.
    """
    staged: dict[Path, Path] = {}
    kept: dict[Path, Path] = {}
    current = folder
    try:
        try:
            folder.mkdir(parents=True, exist_ok=True)
            for name, data in files.items():
                current = folder / name
                if current.is_dir():
                    raise IsADirectoryError(21, os.strerror(21), str(current))
                staged[current] = _write_beside(current, data)
            for current in staged:
                if current.exists():
                    kept[current] = _keep_earlier(current)
            for current, temporary in staged.items():
                temporary.replace(current)
        except OSError as failure:
            _bring_back(staged, kept)
            return (), (messages.output_unwritable(at, current, failure.strerror or str(failure)),)
        return tuple(staged), ()
    finally:
        for leftover in (*staged.values(), *kept.values()):
            with contextlib.suppress(OSError):  # it was moved into place, or lies on a disk that is gone
                leftover.unlink()


def _write_beside(target: Path, data: bytes) -> Path:
    handle, name = tempfile.mkstemp(prefix=f".{target.name[:40]}.", suffix=".part", dir=target.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        temporary.chmod(_usual_mode(target))
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    return temporary


def _usual_mode(target: Path) -> int:
    """The mode of the file that is replaced, or what the user's mask gives a new one; mkstemp's is private."""
    with contextlib.suppress(FileNotFoundError):
        return target.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _keep_earlier(target: Path) -> Path:
    """A second name for the earlier file, so that it can be brought back without room on the disk."""
    handle, name = tempfile.mkstemp(prefix=f".{target.name[:40]}.", suffix=".kept", dir=target.parent)
    os.close(handle)
    kept = Path(name)
    kept.unlink()
    try:
        os.link(target, kept)
    except OSError:  # a file system without second names
        kept.write_bytes(target.read_bytes())
    return kept


def _bring_back(staged: Mapping[Path, Path], kept: dict[Path, Path]) -> None:
    """The earlier files take their places again; those that were new are taken away."""
    for target, temporary in staged.items():
        if temporary.exists():
            continue  # it never took its place
        with contextlib.suppress(OSError):
            if target in kept:
                kept[target].replace(target)
            else:
                target.unlink()
