"""From what was typed on the command line to the source it means."""

from difflib import get_close_matches
from pathlib import Path

from booklet.findings import Finding
from booklet.reading import messages
from booklet.source import SourceFile
from booklet.source.files import open_source

PATTERN_FILE = "pattern.md"
ENDINGS = (".md", ".markdown")


def find_source(argument: str) -> tuple[SourceFile | None, tuple[Finding, ...]]:
    """The source in a folder (its pattern.md), or any Markdown file."""
    path = Path(argument)
    try:
        if path.is_dir():
            path = path / PATTERN_FILE
        if not path.exists():
            return None, (_refuse(path, *_explain_absence(path)),)
        if not path.is_file():
            return None, (_refuse(path, "this is not a file", ""),)
        if path.suffix.lower() not in ENDINGS:
            return None, (_refuse(path, "this is not a Markdown file", "name a file that ends in .md"),)
        source = open_source(path)
    except OSError as problem:
        return None, (_refuse(path, f"the file cannot be opened: {problem.strerror or 'unknown reason'}", ""),)
    except ValueError as problem:  # too large, not UTF-8, a NUL in the name
        fix = "save the file as UTF-8 text" if "UTF-8" in str(problem) else ""
        return None, (_refuse(path, str(problem), fix),)
    if not source.text.strip():
        return None, (messages.source_unreadable("the file is empty", source.whole()),)
    return source, ()


def _refuse(path: Path, reason: str, fix: str) -> Finding:
    return messages.source_unreadable(reason, SourceFile(str(path), "").whole(), fix)


def _explain_absence(path: Path) -> tuple[str, str]:
    folder = path.parent
    if not folder.is_dir():
        near = folder.parent
        return "there is no such folder", _suggest(near, folder.name, folders=True)
    if path.name == PATTERN_FILE:
        return "the folder holds no pattern.md", _suggest(folder, path.name)
    return "there is no such file", _suggest(folder, path.name, folders=not path.suffix)


def _suggest(folder: Path, name: str, folders: bool = False) -> str:
    """The name in a folder that is closest to one that is not there."""
    try:
        names = [p.name for p in folder.iterdir() if (p.is_dir() if folders else p.suffix.lower() in ENDINGS)]
    except OSError:
        return ""
    close = get_close_matches(name, names[:1000], 1, 0.6)
    return f'name "{folder / close[0]}"' if close else ""
