"""The themes that come with the tool, and one made from their documentation alone."""

import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image

from booklet.drawings.shades import contrast, read_shade
from booklet.pages.theme import COLOUR_NAMES, COVERS, FONT_NAMES, KEYS, PICTURES, load_theme, themes_folder
from booklet.pipeline import Order, make_booklet, prove_file

CONTENT = Path(__file__).parents[2] / "content"
NAMES = ("wayside", "fallow", "headland")
BLOCK = re.compile(r"```(?:yaml|html)\n(?:#|<!--) themes/harbour/(\S+)(?: -->)?\n(.*?)```", re.DOTALL)


def make(source: Path, theme: str, out: Path, *editions: str) -> dict[str, Path]:
    paths, findings = make_booklet(prove_file(str(source)), Order(out, editions, ("A4",), theme))
    assert [f"{finding.code}: {finding.message}" for finding in findings] == []
    return {path.suffix: path for path in paths}


def test_each_theme_of_the_list_is_there() -> None:
    table = (themes_folder() / "README.md").read_text(encoding="utf-8")
    there = {path.parent.name for path in themes_folder().glob("*/theme.yaml")}
    assert there == set(NAMES) == set(re.findall(r"^\| `([a-z]+)` \| [^|]+ \| [^|]+ \|$", table, re.MULTILINE))


@pytest.mark.parametrize("name", NAMES)
def test_what_is_read_stands_out_from_its_ground(name: str) -> None:
    """4.5 : 1 for text: WCAG 2.2, success criterion 1.4.3 Contrast (Minimum)."""
    theme, findings = load_theme(name)
    assert findings == ()
    for colours in (theme.colours, theme.dark_colours):
        for ink in ("ink", "quiet", "accent", "warm"):
            for ground in ("paper", "tint"):
                assert contrast(read_shade(colours[ink]), read_shade(colours[ground])) >= 4.5, (ink, ground)


def test_every_key_colour_and_font_of_a_theme_is_documented_and_no_other() -> None:
    text = (themes_folder() / "README.md").read_text(encoding="utf-8")
    rows = dict(re.findall(r"^\| `([a-z ]+)` \| (.*) \|$", text, re.MULTILINE))
    assert set(KEYS) <= set(rows)
    assert set(re.findall(r"`([a-z]+)` [a-z]", rows["colours"])) == set(COLOUR_NAMES)
    assert set(re.findall(r"`(text|display|plain)`", rows["fonts"])) == set(FONT_NAMES)
    assert set(re.findall(r"`([a-z]+)`", rows["cover"])) == set(COVERS)
    assert set(re.findall(r"`([a-z ]+)`", rows["pictures"])) == set(PICTURES)


def test_every_documented_block_is_a_file_and_every_file_is_documented() -> None:
    text = (themes_folder() / "README.md").read_text(encoding="utf-8")
    files = {path.name for path in (themes_folder() / "wayside" / "templates" / "blocks").iterdir()}
    assert files == set(re.findall(r"^\| `([a-z_]+\.html)` \|", text, re.MULTILINE))


@pytest.mark.slow
def test_a_theme_made_from_the_documentation_by_one_file_and_one_block(tmp_path: Path) -> None:
    """The two examples of the documentation, word for word, are the whole theme."""
    files = dict(BLOCK.findall((themes_folder() / "README.md").read_text(encoding="utf-8")))
    assert set(files) == {"theme.yaml", "templates/blocks/cover.html"}
    source = tmp_path / "lantern-hat"
    source.mkdir()
    (source / "pattern.md").write_bytes((CONTENT / "lantern-hat" / "pattern.md").read_bytes())
    for name, text in files.items():
        path = source / "themes" / "harbour" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    made = make(source, "harbour", tmp_path / "build", "print", "web")
    html = made[".html"].read_text(encoding="utf-8")
    assert "--accent:#123a5e" in html
    assert "--ink:#20262a" in html  # the base's
    with pypdfium2.PdfDocument(made[".pdf"]) as pdf:
        cover, second = (" ".join(pdf[page].get_textpage().get_text_range().split()) for page in (0, 1))
        picture = pdf[0].render(scale=1).to_pil().convert("RGB")
    assert "Lantern Hat" in cover
    assert "Sizes Newborn, Baby, Child, Adult, Large Level Easy" in cover
    assert "Crochet pattern" not in cover  # the base's cover would say so
    assert "At a glance" in second
    colours = picture.getcolors(1 << 20) or []
    assert (57, 80, 107) in {shade for _, shade in colours}  # the band of colour A, "#39506b"
    usual = make(source, "wayside", tmp_path / "usual", "print")
    with pypdfium2.PdfDocument(usual[".pdf"]) as pdf:
        assert len(pdf) > 1


def measure_ink(path: Path) -> float:
    """The ink of all pages, in pages printed black: 1 minus the grey of each point, summed."""
    with pypdfium2.PdfDocument(path) as pdf:
        shares = []
        for page in pdf:
            counts = page.render(scale=0.5).to_pil().convert("L").histogram()
            shares.append(sum((255 - grey) * count for grey, count in enumerate(counts)) / 255 / sum(counts))
    return sum(shares)


@pytest.mark.slow
def test_the_quiet_theme_takes_half_the_ink_and_no_colour(tmp_path: Path) -> None:
    inks = {}
    for name in ("wayside", "fallow"):
        made = make(CONTENT / "four-fields-blanket", name, tmp_path / name, "print")
        inks[name] = measure_ink(made[".pdf"])
        if name == "fallow":
            with pypdfium2.PdfDocument(made[".pdf"]) as pdf:
                for page in pdf:
                    red, green, blue = page.render(scale=0.5).to_pil().convert("RGB").split()
                    assert red.tobytes() == green.tobytes() == blue.tobytes()
    assert inks["fallow"] <= 0.7 * inks["wayside"]  # charts, measuring aids and how much of the cover is yarn are alike


def measure_type(page: pypdfium2.PdfPage) -> Counter[float]:
    """How many letters the page has in each size of type, in points as printed."""
    text, sizes = page.get_textpage(), Counter[float]()
    for at in range(text.count_chars()):
        if text.get_text_range(at, 1).strip():
            matrix = pypdfium2.raw.FS_MATRIX()
            pypdfium2.raw.FPDFText_GetMatrix(text.raw, at, matrix)
            sizes[round(pypdfium2.raw.FPDFText_GetFontSize(text.raw, at) * abs(matrix.d), 1)] += 1
    return sizes


@pytest.mark.slow
def test_the_large_theme_has_no_small_type(tmp_path: Path) -> None:
    """Large print begins at 16 points (the usual guides to clear print: 16 to 22); the rows have 18.

    Smaller, but never under 13, are page numbers, the heads of tables and what explains a figure in one.
    """
    made = make(CONTENT / "lantern-hat", "headland", tmp_path, "print")
    with pypdfium2.PdfDocument(made[".pdf"]) as pdf:
        pages = [measure_type(page) for page in list(pdf)[1:]]
    assert min(min(page) for page in pages) >= 13
    letters = sum(pages, Counter[float]())
    assert sum(count for size, count in letters.items() if size >= 16) >= 0.75 * letters.total()
    assert 18.0 in [size for size, _ in letters.most_common(2)]  # the rows; notes and captions have 16


@pytest.mark.slow
@pytest.mark.parametrize("name", ["fallow", "headland"])
def test_every_paper_of_a_theme_passes_the_accessibility_check(name: str, tmp_path: Path) -> None:
    order = Order(tmp_path, ("print", "folded", "tester"), ("A4",), name)
    paths, findings = make_booklet(prove_file(str(CONTENT / "four-fields-blanket")), order)
    assert findings == ()
    checked = 0
    for path in paths:
        if "to-fold" in path.name:  # sheets for the printer, without tags
            continue
        ran = subprocess.run(
            [str(Path(sys.executable).with_name("pdfua")), "check", str(path)],
            capture_output=True,
            text=True,
            check=False,
        )
        assert ran.returncode == 0, ran.stdout + ran.stderr
        checked += 1
    assert checked == 3


def test_a_logo_stands_on_the_cover_and_the_web_page(tmp_path: Path) -> None:
    theme = tmp_path / "hat" / "themes" / "shop"
    theme.mkdir(parents=True)
    (tmp_path / "hat" / "pattern.md").write_bytes((CONTENT / "lantern-hat" / "pattern.md").read_bytes())
    (theme / "theme.yaml").write_text("based on: wayside\nlogo: mark.png\n", encoding="utf-8")
    Image.new("RGB", (900, 200), "#123456").save(theme / "mark.png")
    html = make(tmp_path / "hat", "shop", tmp_path / "out", "web")[".html"].read_text(encoding="utf-8")
    assert html.count('<img class="logo" src="data:image/png;base64,') == 1


@pytest.mark.parametrize(
    ("line", "code"),
    [("logo: ../../secret.png", "picture-unreadable"), ("logo: missing.png", "picture-unreadable"),
     ("cover: blue", "theme-wrong"), ("pictures: [a]", "theme-wrong")],
)  # fmt: skip
def test_error_a_theme_that_asks_for_what_is_not_there(tmp_path: Path, line: str, code: str) -> None:
    theme = tmp_path / "hat" / "themes" / "shop"
    theme.mkdir(parents=True)
    (tmp_path / "hat" / "pattern.md").write_bytes((CONTENT / "lantern-hat" / "pattern.md").read_bytes())
    (theme / "theme.yaml").write_text(f"based on: wayside\n{line}\n", encoding="utf-8")
    paths, findings = make_booklet(
        prove_file(str(tmp_path / "hat")), Order(tmp_path / "out", ("web",), ("A4",), "shop")
    )
    assert paths == ()
    assert [(finding.code, finding.span.line) for finding in findings] == [(code, 2)]
    assert findings[0].span.file.path.endswith("theme.yaml")
