"""A theme: a folder with `theme.yaml`, templates and CSS, found beside the sources or in the package.

A theme may be based on another; what it does not have itself is taken from there, its CSS comes
after the other's, and its colours and fonts replace those of the same name.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from booklet.drawings.picture import Ink
from booklet.findings import Finding
from booklet.model.pattern import Image
from booklet.pages import messages
from booklet.pages.legibility import check_legibility
from booklet.source import SourceFile, Span
from booklet.source.files import open_source
from booklet.source.yaml_loader import YamlMapping, YamlNode, YamlScalar, read_yaml

DEFAULT_THEME = "wayside"
MAX_BASES = 4

COLOUR_NAMES = ("ink", "quiet", "accent", "warm", "line", "tint", "paper")
GENERIC_FAMILIES = ("serif", "sans-serif", "monospace", "system-ui")
FONT_NAMES = ("text", "display", "plain")

_NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,60}")
_SHADE = re.compile(r"#[0-9a-fA-F]{6}")
_FAMILY = re.compile(r"[\w][\w -]{0,60}")
_FALLBACK = re.compile(r"[\w, -]{0,120}")
_FACE = re.compile(r"([1-9]00)( italic)?")
KEYS = ("title", "based on", "colours", "dark colours", "fonts", "logo", "cover", "pictures")
COVERS = ("picture", "colours", "words")
PICTURES = ("in colour", "grey")
PALENESS = 0.5  # of grey drawings, which are there to spare ink


@dataclass(frozen=True, slots=True)
class Font:
    """A family with what stands in for it, and the files that a web page carries, by weight and style."""

    family: str
    fallback: tuple[str, ...]
    web_files: Mapping[str, Path]  # "400", "400 italic", "600" …

    @property
    def css(self) -> str:
        """The value of a `font-family` in CSS: names in quotes, generic families without."""
        names = (name if name in GENERIC_FAMILIES else f'"{name}"' for name in (self.family, *self.fallback))
        return ",".join(names)


@dataclass(frozen=True, slots=True)
class Theme:
    """How booklets look. `folders` are the theme's own first, then those it is based on."""

    name: str
    title: str
    folders: tuple[Path, ...]
    colours: Mapping[str, str]
    dark_colours: Mapping[str, str]
    fonts: Mapping[str, Font]
    font_folders: tuple[Path, ...]
    cover: str = COVERS[0]
    pictures: str = PICTURES[0]
    logo: Image | None = None  # a file in `logo_folder`
    logo_folder: Path = Path()

    def stylesheets(self, *names: str) -> tuple[Path, ...]:
        """The files of these names that exist, in the order in which they apply: the base's before its own."""
        found = (folder / "css" / f"{name}.css" for name in names for folder in reversed(self.folders))
        return tuple(path for path in found if path.is_file())

    def find_file(self, name: str) -> Path | None:
        """The theme's own file of this name, else that of the theme it is based on."""
        return next((folder / name for folder in self.folders if (folder / name).is_file()), None)

    @property
    def fonts_folder(self) -> Path:
        """The first folder with font files: the theme's own where it has one."""
        return self.font_folders[0]

    def ink(self) -> Ink:
        """The same colours for drawings."""
        return Ink(
            fonts=self.fonts_folder,
            text=self.colours["ink"],
            line=self.colours["quiet"],
            accent=self.colours["accent"],
            ground=self.colours["tint"],
            paleness=PALENESS if self.pictures == "grey" else 0.0,
        )


def themes_folder() -> Path:
    """The themes that come with the tool: inside the installed package, or at the top of its repository."""
    package = Path(__file__).resolve().parent.parent
    for folder in (package / "_themes", package.parent / "themes"):
        if (folder / DEFAULT_THEME / "theme.yaml").is_file():
            return folder
    raise FileNotFoundError("the themes that belong to the booklet package are not installed")


def load_theme(
    name: str, folders: Sequence[Path] = (), asked_at: Span | None = None
) -> tuple[Theme, tuple[Finding, ...]]:
    """The theme of that name, looked for in `folders` first; the default one where it cannot be used.

    `asked_at` is where the pattern or the house file names it. An empty name asks for the default.
    """
    name = name or DEFAULT_THEME
    places = [*folders, themes_folder()]
    theme, findings = _read_theme(name, places, asked_at or SourceFile(name, "").whole(), ())
    if theme is None:
        theme, _ = _read_theme(DEFAULT_THEME, [themes_folder()], SourceFile(name, "").whole(), ())
        if theme is None:
            raise FileNotFoundError("the default theme of the booklet package cannot be read")
    shades = {"colours": theme.colours, "dark colours": theme.dark_colours}
    faint = check_legibility(theme.name, shades, asked_at or SourceFile(name, "").whole())
    return theme, (*findings, *faint)


def list_themes(folders: Sequence[Path]) -> list[str]:
    """Names of all themes in these folders."""
    return sorted({path.parent.name for folder in folders for path in folder.glob("*/theme.yaml")})


def _read_theme(
    name: str, places: Sequence[Path], asked_at: Span, above: tuple[str, ...]
) -> tuple[Theme | None, list[Finding]]:
    folder = next(
        (place / name for place in places if _NAME.fullmatch(name) and (place / name / "theme.yaml").is_file()), None
    )
    if folder is None or name in above or len(above) >= MAX_BASES:
        return None, [messages.unknown_theme(name, list_themes(places), asked_at)]
    try:
        source = open_source(folder / "theme.yaml")
    except (OSError, ValueError) as mistake:
        return None, [messages.theme_unreadable(name, str(mistake), asked_at)]
    mapping, problems = read_yaml(source)
    if mapping is None or any(problem.kind in ("syntax", "duplicate") for problem in problems):
        problem = next(problem for problem in problems if problem.kind in ("syntax", "duplicate"))
        return None, [
            messages.theme_wrong(
                problem.span, "theme.yaml cannot be read here", "YAML: keys with values, each key once"
            )
        ]
    reader = _Reader(source, folder)
    base: Theme | None = None
    findings: list[Finding] = []
    if (entry := mapping.entry("based on")) and isinstance(entry.value, YamlScalar):
        base, findings = _read_theme(entry.value.text, places, entry.value.span, (*above, name))
    return reader.read(mapping, name, base), [*findings, *reader.findings]


class _Reader:
    """Reads one theme.yaml; what is wrong in it becomes findings."""

    def __init__(self, source: SourceFile, folder: Path) -> None:
        self.source = source
        self.folder = folder
        self.findings: list[Finding] = []
        folders = (folder / "fonts", folder.parent / "fonts")
        self.font_folders = tuple(place for place in folders if place.is_dir())

    def read(self, mapping: YamlMapping, name: str, base: Theme | None) -> Theme | None:
        for entry in mapping.entries:
            if entry.key.text not in KEYS:
                self._report(entry.key.span, f"a theme has no key {entry.key.text}", f"one of: {', '.join(KEYS)}")
        title = mapping.entry("title")
        theme = Theme(
            name=name,
            title=title.value.text if title and isinstance(title.value, YamlScalar) else name,
            folders=(self.folder, *(base.folders if base else ())),
            colours={**(base.colours if base else {}), **self._read_colours(mapping, "colours")},
            dark_colours={**(base.dark_colours if base else {}), **self._read_colours(mapping, "dark colours")},
            fonts={**(base.fonts if base else {}), **self._read_fonts(mapping)},
            font_folders=(*self.font_folders, *(base.font_folders if base else (themes_folder() / "fonts",))),
            cover=self._read_choice(mapping, "cover", COVERS, base.cover if base else ""),
            pictures=self._read_choice(mapping, "pictures", PICTURES, base.pictures if base else ""),
            logo=base.logo if base else None,
            logo_folder=base.logo_folder if base else self.folder,
        )
        mark = mapping.entry("logo")
        if mark and isinstance(mark.value, YamlScalar):
            logo = Image(mark.value.text, "Logo", "", mark.value.span)
            theme = replace(theme, logo=logo, logo_folder=self.folder)
        missing = [f"colour {key}" for key in COLOUR_NAMES if key not in theme.colours]
        missing += [f"font {key}" for key in FONT_NAMES if key not in theme.fonts]
        if missing:
            self._report(
                self.source.whole(),
                f"{', '.join(missing)} not given",
                "all of them, or `based on` with a theme that has them",
            )
            return None
        return replace(theme, font_folders=tuple(dict.fromkeys(theme.font_folders)))

    def _read_choice(self, mapping: YamlMapping, key: str, choices: tuple[str, ...], otherwise: str) -> str:
        entry = mapping.entry(key)
        if entry is None:
            return otherwise or choices[0]
        if not isinstance(entry.value, YamlScalar) or entry.value.text not in choices:
            self._report(entry.value.span, f"{key} is not one that a theme has", f"one of: {', '.join(choices)}")
            return otherwise or choices[0]
        return entry.value.text

    def _read_colours(self, mapping: YamlMapping, key: str) -> dict[str, str]:
        colours: dict[str, str] = {}
        for name, value in self._pairs(mapping, key):
            if name not in COLOUR_NAMES:
                self._report(value.span, f"a theme has no colour {name}", f"one of: {', '.join(COLOUR_NAMES)}")
            elif not isinstance(value, YamlScalar) or not _SHADE.fullmatch(value.text):
                self._report(value.span, f"{name} is not a shade", 'a shade such as "#1f4a45"')
            else:
                colours[name] = value.text
        return colours

    def _read_fonts(self, mapping: YamlMapping) -> dict[str, Font]:
        fonts: dict[str, Font] = {}
        for name, value in self._pairs(mapping, "fonts"):
            if name not in FONT_NAMES or not isinstance(value, YamlMapping):
                self._report(
                    value.span,
                    f"{name} is not a font of a theme",
                    f"one of: {', '.join(FONT_NAMES)}, each with `family`",
                )
                continue
            texts = {e.key.text: e.value for e in value.entries}
            family, fallback = texts.get("family"), texts.get("fallback")
            if not isinstance(family, YamlScalar) or not _FAMILY.fullmatch(family.text):
                self._report(
                    value.span, f"the family of {name} is not given", "`family:` with the name of a font family"
                )
                continue
            words = (
                fallback.text if isinstance(fallback, YamlScalar) and _FALLBACK.fullmatch(fallback.text) else "serif"
            )
            families = tuple(word.strip() for word in words.split(",") if word.strip())
            fonts[name] = Font(family.text, families, self._read_web_files(texts.get("web")))
        return fonts

    def _read_web_files(self, node: YamlNode | None) -> dict[str, Path]:
        files: dict[str, Path] = {}
        for entry in node.entries if isinstance(node, YamlMapping) else ():
            face, value = entry.key.text, entry.value
            path = self._find_font(value.text) if isinstance(value, YamlScalar) else None
            if not _FACE.fullmatch(face) or path is None:
                self._report(
                    entry.key.span,
                    f"no font file for {face}",
                    "a weight, or a weight and `italic`, with a .woff2 file in fonts/",
                )
            else:
                files[face] = path
        return files

    def _find_font(self, name: str) -> Path | None:
        """The file in the first fonts folder that has it; nothing outside such a folder."""
        paths = ((folder.resolve(), (folder / name).resolve()) for folder in self.font_folders)
        return next(
            (p for folder, p in paths if p.suffix == ".woff2" and p.is_relative_to(folder) and p.is_file()), None
        )

    def _pairs(self, mapping: YamlMapping, key: str) -> list[tuple[str, YamlNode]]:
        entry = mapping.entry(key)
        if entry is None:
            return []
        if not isinstance(entry.value, YamlMapping):
            self._report(entry.key.span, f"{key} has no values under it", "names with values, one a line, indented")
            return []
        return [(pair.key.text, pair.value) for pair in entry.value.entries]

    def _report(self, span: Span, message: str, expected: str) -> None:
        self.findings.append(messages.theme_wrong(span, message, expected))
