"""Themes: found, read, based on one another, and refused with a finding."""

from pathlib import Path

import pytest

from booklet.findings import Severity
from booklet.pages.theme import COLOUR_NAMES, DEFAULT_THEME, FONT_NAMES, load_theme, themes_folder


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "themes"


def write_theme(folder: Path, name: str, text: str) -> None:
    (folder / name).mkdir(parents=True)
    (folder / name / "theme.yaml").write_text(text, encoding="utf-8")


def test_the_default_theme_is_whole() -> None:
    theme, findings = load_theme("")
    assert findings == ()
    assert theme.name == DEFAULT_THEME
    assert set(theme.colours) == set(theme.dark_colours) == set(COLOUR_NAMES)
    assert set(theme.fonts) == set(FONT_NAMES)
    assert all(path.is_file() for font in theme.fonts.values() for path in font.web_files.values())
    assert theme.fonts_folder == themes_folder() / "fonts"
    assert theme.ink().text == theme.colours["ink"]


def test_every_print_font_has_its_licence_beside_it() -> None:
    for family in {path.name.partition("-400")[0].partition("-600")[0].partition("-700")[0] for path in
                   (themes_folder() / "fonts").glob("*.ttf")}:  # fmt: skip
        assert "SIL Open Font License" in (themes_folder() / "fonts" / f"OFL-{family}.txt").read_text(encoding="utf-8")


def test_a_theme_based_on_another_changes_what_it_names(folder: Path) -> None:
    write_theme(folder, "shop", "title: Our shop\nbased on: wayside\ncolours:\n  accent: #123456\n")
    (folder / "shop" / "css").mkdir()
    (folder / "shop" / "css" / "print.css").write_text("h2 { color: black }", encoding="utf-8")
    theme, findings = load_theme("shop", [folder])
    base, _ = load_theme("")
    assert findings == ()
    assert theme.title == "Our shop"
    assert theme.colours == {**base.colours, "accent": "#123456"}
    assert theme.fonts == base.fonts
    assert [path.parent.parent.name for path in theme.stylesheets("shared", "print")] == ["wayside", "wayside", "shop"]


def test_a_font_family_is_quoted_in_css_and_a_generic_one_is_not() -> None:
    theme, _ = load_theme("")
    assert theme.fonts["text"].css == '"Source Serif 4","Georgia","Cambria",serif'


def test_error_unknown_theme_names_those_at_hand() -> None:
    theme, (finding,) = load_theme("waysid")
    assert theme.name == DEFAULT_THEME
    assert (finding.code, finding.severity) == ("unknown-theme", Severity.ERROR)
    assert finding.message == 'there is no theme "waysid"'
    assert finding.expected == "one of the themes at hand: fallow, headland, wayside"
    assert finding.fix == 'write "wayside"'


@pytest.mark.parametrize("name", ["../wayside", "/etc", "WAYSIDE", "a/b", "..", "wayside/"])
def test_error_a_name_cannot_lead_out_of_the_folders(name: str) -> None:
    _, (finding,) = load_theme(name)
    assert finding.code == "unknown-theme"


def test_error_a_theme_based_on_itself(folder: Path) -> None:
    write_theme(folder, "one", "based on: two\n")
    write_theme(folder, "two", "based on: one\n")
    theme, findings = load_theme("one", [folder])
    assert theme.name == DEFAULT_THEME
    assert findings[0].code == "unknown-theme"


@pytest.mark.parametrize(
    ("text", "line", "message"),
    [
        ("based on: wayside\ncolors:\n  ink: '#000000'\n", 2, "a theme has no key colors"),
        ("based on: wayside\ncolours:\n  ink: black\n", 3, "ink is not a shade"),
        ("based on: wayside\ncolours:\n  inc: '#000000'\n", 3, "a theme has no colour inc"),
        ("based on: wayside\nfonts:\n  text: {fallback: serif}\n", 3, "the family of text is not given"),
        ("based on: wayside\nfonts:\n  text: {family: A, web: {'400': ../x.woff2}}\n", 3, "no font file for 400"),
        ("based on: wayside\ncolours: none\n", 2, "colours has no values under it"),
        ("title: [\n", 1, "theme.yaml cannot be read here"),
        ("title: A\ntitle: B\n", 2, "theme.yaml cannot be read here"),
    ],
)
def test_error_theme_wrong_points_at_the_line(folder: Path, text: str, line: int, message: str) -> None:
    write_theme(folder, "shop", text)
    _, findings = load_theme("shop", [folder])
    assert [(finding.code, finding.span.line, finding.message) for finding in findings] == [
        ("theme-wrong", line, message)
    ]


def test_error_a_theme_without_a_base_lists_what_it_lacks(folder: Path) -> None:
    write_theme(folder, "bare", "title: Bare\n")
    _, (finding,) = load_theme("bare", [folder])
    assert finding.message.startswith("colour ink, colour quiet")
    assert len(finding.message) <= 72
