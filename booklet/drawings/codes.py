"""Square codes (QR, ISO/IEC 18004) that lead a telephone from paper to an address."""

from io import BytesIO

import segno
from PIL import Image

from booklet.drawings.picture import Picture
from booklet.model.pattern import Pattern

MODULE_MM = 0.72  # a side of one module; below 0.4 mm cameras of telephones begin to fail (common practice)
MODULE_PIXELS = 9
QUIET = 4  # modules of white around it, as the standard asks
LONGEST = 300  # letters of an address; a longer one makes modules too many for its place


def draw_codes(pattern: Pattern) -> tuple[Picture, ...]:
    """A code for each address that the pattern gives: its page, its film, its corrections."""
    addresses = (
        ("page", "Scan for the pattern’s page", pattern.page),
        ("video", "Scan for the video", pattern.video),
        ("errata", "Scan for corrections", pattern.publisher.errata),
    )
    return tuple(draw_code(name, title, address) for name, title, address in addresses if _is_address(address))


def draw_code(name: str, title: str, address: str) -> Picture:
    """The code for one address, black on white with its quiet zone."""
    code = segno.make(address, error="m", micro=False, boost_error=False)
    rows = [list(row) for row in code.matrix_iter(scale=1, border=QUIET)]
    side = len(rows)
    image = Image.new("L", (side, side), 255)
    image.putdata([0 if dark else 255 for row in rows for dark in row])
    image = image.resize((side * MODULE_PIXELS, side * MODULE_PIXELS), Image.Resampling.NEAREST)
    file = BytesIO()
    image.save(file, "PNG", optimize=True)
    side_mm = round(side * MODULE_MM, 2)
    return Picture(f"code-{name}", file.getvalue(), side_mm, side_mm, f"QR code that leads to {address}", title)


def _is_address(text: str) -> bool:
    return text.startswith(("https://", "http://")) and len(text) <= LONGEST and not any(c.isspace() for c in text)
