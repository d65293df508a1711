"""Only the fonts that ship with a theme are ever used.

Fontconfig is given a configuration of our own, so that the same source gives the same pages on every
machine, and a character that the theme cannot show is found instead of being taken from whatever font
the machine has.
"""

import atexit
import os
import shutil
import tempfile
from functools import cache
from pathlib import Path
from xml.sax.saxutils import escape

SUFFIXES = (".ttf", ".otf")

_CONFIGURATION = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
{folders}
  <selectfont><rejectfont><glob>*.woff</glob><glob>*.woff2</glob></rejectfont></selectfont>
  <cachedir>{cache}</cachedir>
</fontconfig>
"""


def list_fonts(folders: tuple[Path, ...]) -> tuple[Path, ...]:
    """The font files in these folders; Pango ends the whole process where it is given none at all."""
    found = (path for folder in folders if folder.is_dir() for path in folder.iterdir())
    return tuple(sorted(path for path in found if path.suffix.lower() in SUFFIXES and path.is_file()))


def register_fonts(folders: tuple[Path, ...]) -> None:
    """Makes the fonts in these folders the only ones that typesetting sees from here on.

    Fontconfig reads the file that this names each time a font configuration is made, so several
    themes can be printed in one run. Raises OSError where no temporary file can be written.
    """
    os.environ["FONTCONFIG_FILE"] = str(_write_configuration(tuple(folder.resolve() for folder in folders)))


@cache
def _write_configuration(folders: tuple[Path, ...]) -> Path:
    place = Path(tempfile.mkdtemp(prefix="booklet-fonts-"))
    atexit.register(shutil.rmtree, place, ignore_errors=True)
    # Folders are searched with all that lies below them: a theme's copies for the web are turned away.
    lines = "\n".join(f"  <dir>{escape(str(folder))}</dir>" for folder in folders)
    file = place / "fonts.conf"
    file.write_text(_CONFIGURATION.format(folders=lines, cache=escape(str(place / "cache"))), encoding="utf-8")
    return file
