"""A booklet as HTML: the view filled into the theme's templates.

Templates run in a sandbox with nothing but the view; they cannot loop over numbers of their own,
reach a file outside their theme, or change what they are given.
"""

import base64
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from jinja2 import FileSystemLoader, StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from booklet.findings import Finding
from booklet.model.style import PLAIN, Style
from booklet.pages import messages
from booklet.pages.booklet_view import view_booklet
from booklet.pages.edition import Edition
from booklet.pages.embedding import embed_resources, write_font_faces
from booklet.pages.fitting import list_wide_tables
from booklet.pages.house_marks import write_style_rules
from booklet.pages.illustrations import picture_address
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose_names import find_unfilled_names
from booklet.pages.size_marks import write_size_rules
from booklet.pages.table_parts import part_tables
from booklet.pages.theme import Theme
from booklet.pages.views import ColourPatch
from booklet.source import SourceFile, Span

STYLE_FOLDER = "css"

# What a theme's template can fail with: the view is complete by then, so none of these is ours.
_TEMPLATE_MISTAKES = (
    TemplateError,
    ArithmeticError,
    AttributeError,
    LookupError,
    RecursionError,
    TypeError,
    ValueError,
)


@dataclass(frozen=True)
class Rendered:
    """A page as HTML text, and the files it refers to by relative address."""

    html: str
    resources: Mapping[str, bytes]


def render_booklet(
    booklet: BookletInput, edition: Edition, theme: Theme, addresses: Mapping[str, str] | None = None
) -> tuple[Rendered, tuple[Finding, ...]]:
    """The booklet in one edition. Where a template fails the page is empty and a finding says why.

    `addresses` say where pictures lie by the address that they have in the booklet.
    """
    view = view_booklet(booklet)
    if edition.plain:
        view = list_wide_tables(view)
    if edition.most_columns:
        view = part_tables(view, edition.most_columns)
    shown = [one for picture in booklet.pictures for one in (picture, picture.narrow) if one is not None]
    pictures = {picture_address(picture): picture.png for picture in shown}
    if addresses is None:
        addresses = embed_resources(pictures) if edition.self_contained else {name: name for name in pictures}
    findings = find_unfilled_names(booklet)
    try:
        styles = _read_styles(view, edition, theme, view.style)
        script = _read_script(edition, theme)
    except (OSError, UnicodeDecodeError) as mistake:
        place = SourceFile(str(theme.folders[0]), "").whole()
        return Rendered("", {}), (*findings, messages.theme_unreadable(theme.name, str(mistake), place))
    css = Markup("\n".join(styles.values()))  # noqa: S704 - the theme's own files, and shades that were checked
    try:
        names = [f"{name}.html" for name in (edition.name, edition.based_on) if name]
        template = _make_environment(theme).select_template(names)
        html = template.render(
            book=view,
            edition=edition,
            styles=[*styles],
            css=css,
            address=addresses,
            script=script,
            look=Look(theme.cover),
        )
    except _TEMPLATE_MISTAKES as mistake:
        return Rendered("", {}), (*findings, messages.template_wrong(_place_of(mistake, theme), str(mistake)))
    if edition.self_contained:
        return Rendered(html, {}), findings
    used = {name: content for name, content in pictures.items() if name in html}
    return Rendered(html, {**used, **{name: text.encode() for name, text in styles.items()}}), findings


@dataclass(frozen=True, slots=True)
class Look:
    """What a theme decides about its templates without changing them."""

    cover: str  # "picture", "colours" or "words"


@dataclass(frozen=True, slots=True)
class Script:
    """What a page may run, and by which hash its browser knows that it is this and nothing else."""

    text: Markup = Markup()
    hash: str = ""


def _read_script(edition: Edition, theme: Theme) -> Script:
    """The theme's script for the edition; empty where it has none."""
    path = theme.find_file(f"scripts/{edition.name}.js")
    if path is None:
        return Script()
    text = path.read_text(encoding="utf-8").replace("</", r"<\/")  # or it would end its element
    digest = base64.b64encode(hashlib.sha256(f"\n{text}".encode()).digest()).decode("ascii")
    return Script(Markup(text), f"sha256-{digest}")  # noqa: S704 - the theme's own file


class Styled(Protocol):
    """What the styles of a page depend on beside its edition and its theme."""

    @property
    def patches(self) -> tuple[ColourPatch, ...]: ...
    @property
    def sizes(self) -> int: ...


def render_sheet(sheet: Styled, edition: Edition, theme: Theme) -> tuple[Rendered, tuple[Finding, ...]]:
    """A page that is no booklet and has no pictures; its template sees it as `book`."""
    try:
        styles = _read_styles(sheet, edition, theme)
        css = Markup("\n".join(styles.values()))  # noqa: S704 - the theme's own files
        template = _make_environment(theme).get_template(f"{edition.name}.html")
        html = template.render(book=sheet, edition=edition, styles=[*styles], css=css)
    except (OSError, UnicodeDecodeError) as mistake:
        place = SourceFile(str(theme.folders[0]), "").whole()
        return Rendered("", {}), (messages.theme_unreadable(theme.name, str(mistake), place),)
    except _TEMPLATE_MISTAKES as mistake:
        return Rendered("", {}), (messages.template_wrong(_place_of(mistake, theme), str(mistake)),)
    return Rendered(html, {} if edition.self_contained else {name: text.encode() for name, text in styles.items()}), ()


def _make_environment(theme: Theme) -> ImmutableSandboxedEnvironment:
    environment = ImmutableSandboxedEnvironment(
        loader=FileSystemLoader([folder / "templates" for folder in theme.folders]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.globals.clear()
    return environment


def _read_styles(view: Styled, edition: Edition, theme: Theme, style: Style = PLAIN) -> dict[str, str]:
    """The edition's stylesheets by their address, in the order in which they apply."""
    styles = {f"{STYLE_FOLDER}/palette.css": _write_palette(view, edition, theme)}
    if edition.self_contained:
        styles[f"{STYLE_FOLDER}/fonts.css"] = write_font_faces(theme)
    for number, path in enumerate(theme.stylesheets("shared", *filter(None, (edition.based_on, edition.name)))):
        styles[f"{STYLE_FOLDER}/{number}-{path.stem}.css"] = path.read_text(encoding="utf-8")
    if rules := write_style_rules(style, edition.name):
        styles[f"{STYLE_FOLDER}/house.css"] = rules
    return styles


def _write_palette(view: Styled, edition: Edition, theme: Theme) -> str:
    """The theme's colours and fonts as custom properties, the paper, and the pattern's own shades."""
    rules = [f":root{{{_list_properties(theme.colours)}{_list_fonts(theme)}}}"]
    if edition.paper_mm:
        width, height = edition.paper_mm
        # Margin boxes inherit from the page, which knows no custom properties.
        text = f"color:{theme.colours['quiet']};font-family:{theme.fonts['text'].css}"
        rules.append(f"@page{{size:{width}mm {height}mm;{text}}}")
        rules.append(
            f":root{{--fit:{edition.fit};--picture-fit:{edition.picture_fit};--type:{edition.type_pt or 10}pt}}"
        )
    elif theme.dark_colours:
        rules.append(
            f"@media screen and (prefers-color-scheme:dark){{:root{{{_list_properties(theme.dark_colours)}}}}}"
        )
    if edition.self_contained:
        rules.append(write_size_rules(view.sizes))
    rules += [
        f".patch-{number}{{background-color:{patch.shade};color:{patch.ink}}}"
        for number, patch in enumerate(view.patches)
    ]
    return "\n".join(rules)


def _list_properties(colours: Mapping[str, str]) -> str:
    return "".join(f"--{name}:{shade};" for name, shade in colours.items())


def _list_fonts(theme: Theme) -> str:
    return "".join(f"--{name}-font:{font.css};" for name, font in theme.fonts.items())


def _place_of(mistake: Exception, theme: Theme) -> Span:
    """The line of the template that failed, as far as it is known."""
    name, line = "", 1
    if isinstance(mistake, TemplateSyntaxError):
        name, line = mistake.name or "", mistake.lineno
    else:
        trace = mistake.__traceback__
        while trace is not None:  # the innermost template is the last one on the way down
            file = trace.tb_frame.f_code.co_filename
            if any(Path(file).is_relative_to(folder) for folder in theme.folders):
                name, line = file, trace.tb_lineno
            trace = trace.tb_next
    path = next(
        (folder / "templates" / name for folder in theme.folders if (folder / "templates" / name).is_file()), None
    )
    if path is None:
        return SourceFile(name or str(theme.folders[0]), "").whole()
    source = SourceFile(str(path), path.read_text(encoding="utf-8"))
    start = source.line_starts[min(line, len(source.line_starts)) - 1]
    return source.span(start, start + max(1, len(source.lines[source.place(start)[0] - 1])))
