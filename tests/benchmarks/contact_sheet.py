"""Every drawing of a pattern on one sheet, to be looked at: in colour, in grey, and as a telephone shows it.

    .venv/bin/python tests/benchmarks/contact_sheet.py [SOURCE…] [--out build/contact] [--theme NAME] [--dpi 100]

One PNG a pattern. Each drawing stands three times in a line: at its printed size in colour and in grey, `dpi`
dots to the inch, and 320 pixels wide, made from the picture that the web page holds for so narrow a screen. A chart,
which the page lets its reader move along, is cut at 320 pixels instead. Small ones (patches, symbols) share lines.
Behind each name stand its size on paper, its pixels and its bytes.
"""

import argparse
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from booklet.drawings.pattern import draw_pattern
from booklet.drawings.picture import Picture
from booklet.drawings.piece_drawings import draw_narrow
from booklet.drawings.screen import count_pixels, shrink_picture
from booklet.drawings.trimming import trim_picture
from booklet.pages.theme import load_theme
from booklet.pipeline import list_sources, prove_file

ROOT = Path(__file__).parents[2]
FONT = ROOT / "themes/fonts/atkinson-hyperlegible-next-400.ttf"
PHONE = 320  # CSS pixels: the narrowest screen that WCAG 2.2 asks for (success criterion 1.4.10)
GAP = 18
SMALL_MM = 30.0
MOVED_ALONG = ("chart-", "grid-")


def open_picture(picture: Picture) -> Image.Image:
    with Image.open(BytesIO(picture.png)) as opened:
        return opened.convert("RGB")


def show_on_paper(picture: Picture, dpi: int) -> Image.Image:
    """The picture as so many dots to the inch show it."""
    width, height = (max(1, round(mm / 25.4 * dpi)) for mm in (picture.width_mm, picture.height_mm))
    return open_picture(picture).resize((width, height), Image.Resampling.LANCZOS)


def show_on_a_telephone(picture: Picture) -> Image.Image:
    """As the web page shows it where it is 320 pixels wide."""
    image = open_picture(shrink_picture(picture))
    natural = round(picture.width_mm / 25.4 * 96)
    width = natural if picture.name.startswith(MOVED_ALONG) else min(natural, PHONE)
    shown = image.resize((width, max(1, round(image.height * width / image.width))), Image.Resampling.LANCZOS)
    return shown.crop((0, 0, min(width, PHONE), shown.height))


def make_lines(pictures: list[Picture], dpi: int, narrow: dict[str, Picture]) -> list[tuple[str, list[Image.Image]]]:
    """A title and the images under it."""
    lines: list[tuple[str, list[Image.Image]]] = []
    small = [picture for picture in pictures if picture.width_mm < SMALL_MM]
    if small:
        paper = [show_on_paper(picture, dpi) for picture in small]
        lines.append((", ".join(p.name for p in small), [*paper, *(image.convert("L") for image in paper)]))
    for picture in pictures:
        if picture in small:
            continue
        paper_size = show_on_paper(picture, dpi)
        pixels = "{} x {} px".format(*count_pixels(picture))
        on_paper = f"{picture.width_mm:.0f} x {picture.height_mm:.0f} mm"
        title = f"{picture.name}: {on_paper}, {pixels}, {len(picture.png):,} bytes"
        lines.append(
            (title, [paper_size, paper_size.convert("L"), show_on_a_telephone(narrow.get(picture.name, picture))])
        )
    return lines


def lay_sheet(lines: list[tuple[str, list[Image.Image]]]) -> Image.Image:
    """The lines one below the other; images that do not fit into one go on in the next."""
    widest = max(sum(image.width + GAP for image in images) for _, images in lines if len(images) == 3)
    width = widest + GAP
    font = ImageFont.truetype(str(FONT), 15)
    placed: list[tuple[Image.Image, int, int]] = []
    titles: list[tuple[str, int]] = []
    y = GAP
    for title, images in lines:
        titles.append((title, y))
        y += 24
        x, depth = GAP, 0
        for image in images:
            if x > GAP and x + image.width + GAP > width:
                x, y, depth = GAP, y + depth + GAP, 0
            placed.append((image, x, y))
            x, depth = x + image.width + GAP, max(depth, image.height)
        y += depth + GAP
    sheet = Image.new("RGB", (width, y), "#c9cfcc")
    pen = ImageDraw.Draw(sheet)
    for title, at in titles:
        pen.text((GAP, at), title, "#22262b", font)
    for image, x, at in placed:
        sheet.paste(image, (x, at))
    return sheet


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("sources", nargs="*", default=[str(ROOT / "content")])
    parser.add_argument("--out", type=Path, default=ROOT / "build/contact")
    parser.add_argument("--theme", default="")
    parser.add_argument("--dpi", type=int, default=100)
    asked = parser.parse_args()
    asked.out.mkdir(parents=True, exist_ok=True)
    for source in list_sources(asked.sources):
        proof = prove_file(source)
        theme, _ = load_theme(asked.theme or proof.pattern.theme)
        pictures, _ = draw_pattern(proof.sized, proof.worked, proof.amounts, theme.ink())
        trimmed = [trim_picture(picture) if picture.table else picture for picture in pictures]
        path = asked.out / f"{proof.pattern.slug}.png"
        narrow = draw_narrow(proof.pattern, proof.worked, proof.amounts, theme.ink())
        lay_sheet(make_lines(trimmed, asked.dpi, narrow)).save(path)
        print(path)


if __name__ == "__main__":
    main()
