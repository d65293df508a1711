"""Pictures that stand for a pattern where it is only pointed to: an upright card and a wide one.

Everything keeps a margin from the edges, since the places that show cards cut their corners or sides.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont, ImageOps

from booklet.drawings.faces import find_face, open_face
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.shades import read_shade

TALL = (1000, 1500)  # 2 : 3
WIDE = (1200, 630)  # 1.91 : 1
MARGIN = 64
GAP = 8
MAY_BE_CUT = ("cover", "fabric", "photo")  # pictures of a drawing's kind lose words at their edges
AIR = 0.03  # around a drawing, of its longer side
STRIP = 28  # the band of the pattern's colours between picture and words
LINE = 1.12  # of the size of type
LEAST_TITLE, LEAST_TEXT = 40, 22
QUALITIES = (86, 80, 74, 66)
MAX_BYTES = 200_000
PIXELS_TO_MM = 25.4 / 300


@dataclass(frozen=True, slots=True)
class CardWords:
    """What a card says: what it is, its title, facts of a line each, and who made it."""

    kind: str
    title: str
    facts: tuple[str, ...]
    maker: str


@dataclass(frozen=True, slots=True)
class CardStyle:
    """The colours and faces of a theme; `display` is the font file of titles, None for the bold face of `ink`."""

    ink: Ink
    paper: str
    warm: str
    display: Path | None = None


def draw_cards(
    words: CardWords, shades: Sequence[str], picture: Picture | None, style: CardStyle
) -> tuple[Picture, ...]:
    """The upright card and the wide one, as `card-tall` and `card-wide`; without a picture, words and colours.

    Raises NoFontError where the theme has no font to set the words in.
    """
    shown = None
    if picture is not None:
        with Image.open(BytesIO(picture.png)) as opened:
            shown = opened.convert("RGB")
        if not picture.name.startswith(MAY_BE_CUT):
            shown = ImageOps.expand(shown, round(max(shown.size) * AIR), read_shade(style.paper))
    is_cut = picture is None or picture.name.startswith(MAY_BE_CUT)
    alt = ". ".join(text for text in (f"{words.kind}: {words.title}", *words.facts) if text)
    return (
        _finish("card-tall", _Card(TALL, style, shades, is_cut).draw(words, shown, upright=True), alt),
        _finish("card-wide", _Card(WIDE, style, shades, is_cut).draw(words, shown, upright=False), alt),
    )


class _Card:
    """One card while it is drawn."""

    def __init__(self, size: tuple[int, int], style: CardStyle, shades: Sequence[str], is_cut: bool = True) -> None:
        self.size = size
        self.is_cut = is_cut
        self.style = style
        self.shades = [read_shade(shade) for shade in shades] or [read_shade(style.ink.accent)]
        self.image = Image.new("RGB", size, read_shade(style.paper))
        self.pen = ImageDraw.Draw(self.image)

    def draw(self, words: CardWords, shown: Image.Image | None, upright: bool) -> Image.Image:
        width, height = self.size
        if upright:
            split = round(height * (0.57 if shown else 0.3))
            self._fill((0, 0, width, split), shown)
            self._draw_strip((0, split, width, split + STRIP), upright)
            self._write(words, (MARGIN, split + STRIP, width - MARGIN, height - MARGIN), (104, 38))
        else:
            split = round(width * (0.46 if shown else 0.2))
            self._fill((0, 0, split, height), shown)
            self._draw_strip((split, 0, split + STRIP, height), upright)
            self._write(words, (split + STRIP + MARGIN, 0, width - MARGIN, height - MARGIN), (78, 30))
        return self.image

    def _fill(self, box: tuple[int, int, int, int], shown: Image.Image | None) -> None:
        """The picture over the whole box, its middle kept; a drawing whole; without one the pattern's colours."""
        left, top, right, bottom = box
        room = (right - left, bottom - top)
        if shown is not None:
            set_in = ImageOps.fit if self.is_cut else ImageOps.contain
            laid = set_in(shown, room, Image.Resampling.LANCZOS)
            self.image.paste(laid, (left + (room[0] - laid.width) // 2, top + (room[1] - laid.height) // 2))
            return
        self._draw_bands(box, along_width=right - left >= bottom - top)

    def _draw_strip(self, box: tuple[int, int, int, int], upright: bool) -> None:
        """The pattern's colours, set off from the picture, which may be of the same, by a line of paper."""
        left, top, right, bottom = box
        self._draw_bands((left, top + GAP, right, bottom) if upright else (left + GAP, top, right, bottom), upright)

    def _draw_bands(self, box: tuple[int, int, int, int], along_width: bool) -> None:
        left, top, right, bottom = box
        length = right - left if along_width else bottom - top
        for at, shade in enumerate(self.shades):
            start, end = (round(length * place / len(self.shades)) for place in (at, at + 1))
            if along_width:
                self.pen.rectangle((left + start, top, left + end - 1, bottom - 1), fill=shade)
            else:
                self.pen.rectangle((left, top + start, right - 1, top + end - 1), fill=shade)

    def _write(self, words: CardWords, box: tuple[int, int, int, int], largest: tuple[int, int]) -> None:
        """Kind and title from the top of the box, facts and maker up from its foot; the title takes what is left.

        `largest` are the sizes of title and facts in pixels, where there is room for them.
        """
        left, top, right, bottom = box
        width = right - left
        foot = bottom
        ink = self.style.ink
        lines = [(words.maker, False, ink.line)] if words.maker else []
        lines += [(fact, True, ink.text) for fact in reversed(words.facts)]
        for text, is_bold, colour in lines:
            font, fitted = self._fit_line(text, is_bold, largest[1], width)
            foot -= round(font.size * (1.5 if is_bold else 1.75))  # the maker stands a little apart
            self.pen.text((left, foot + (0 if is_bold else font.size // 4)), fitted, font=font, fill=read_shade(colour))
        head = top + round(MARGIN * 0.8)
        font, kind = self._fit_line(words.kind, True, largest[1], width)
        self.pen.text((left, head), kind, font=font, fill=read_shade(self.style.warm))
        head += round(font.size * 1.7)
        font, title = self._fit_title(words.title, largest[0], width, foot - head - 20)
        for line in title:
            self.pen.text((left, head), line, font=font, fill=read_shade(ink.accent))
            head += round(font.size * LINE)

    def _fit_line(self, text: str, is_bold: bool, size: int, width: int) -> tuple[ImageFont.FreeTypeFont, str]:
        """The text on one line: smaller type first, then fewer words."""
        path = find_face(self.style.ink, is_bold, text)
        for smaller in range(size, LEAST_TEXT - 1, -1):
            if open_face(path, smaller).getlength(text) <= width:
                return open_face(path, smaller), text
        return open_face(path, LEAST_TEXT), _shorten(open_face(path, LEAST_TEXT), text, width)

    def _fit_title(self, title: str, largest: int, width: int, height: int) -> tuple[ImageFont.FreeTypeFont, list[str]]:
        """The title as large as it fits in whole words; where even the smallest is too large, its beginning."""
        path = self.style.display or find_face(self.style.ink, True, title)
        for size in range(largest, LEAST_TITLE - 1, -2):
            font = open_face(path, size)
            lines = _break_words(font, title, width)
            fits = all(font.getlength(line) <= width for line in lines)
            if fits and len(lines) * size * LINE <= height:
                return font, lines
        font = open_face(path, LEAST_TITLE)
        lines = _break_words(font, title, width)
        most = max(1, int(height / (LEAST_TITLE * LINE)))
        kept = [*lines[: most - 1], " ".join(lines[most - 1 :])]
        return font, [_shorten(font, line, width) for line in kept if line]


def _break_words(font: ImageFont.FreeTypeFont, text: str, width: int) -> list[str]:
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and font.getlength(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _shorten(font: ImageFont.FreeTypeFont, text: str, width: int) -> str:
    if font.getlength(text) <= width:
        return text
    while text and font.getlength(f"{text.rstrip()}…") > width:
        text = text[:-1]
    return f"{text.rstrip()}…"


def _finish(name: str, image: Image.Image, alt: str) -> Picture:
    data = b""
    for quality in QUALITIES:
        file = BytesIO()
        image.save(file, "JPEG", quality=quality, optimize=True, progressive=True)
        data = file.getvalue()
        if len(data) <= MAX_BYTES:
            break
    width, height = image.size
    return Picture(name, data, width * PIXELS_TO_MM, height * PIXELS_TO_MM, alt, media_type="image/jpeg")
