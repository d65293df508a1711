"""What the fields of a form still need after WeasyPrint: a face that every viewer can type in, and an empty box.

WeasyPrint names the page's own font for a field, which is coded by glyphs and not by characters, so that
viewers cannot type in it. Helvetica is one of the faces that every viewer has (ISO 32000-1, 9.6.2.2). A
box that is not ticked gets an appearance of its own, for viewers that otherwise draw one of theirs.
"""

from typing import Any

import pydyf

FACE = "Helv"
TICKS = "ZaDb"
POINTS = 10


def finish_form(pdf: Any) -> None:
    """Called just before the file is put together, while its objects can still be changed."""
    form = pdf.catalog.get("AcroForm")
    if form is None:
        return
    face = pydyf.Dictionary(
        {"Type": "/Font", "Subtype": "/Type1", "BaseFont": "/Helvetica", "Encoding": "/WinAnsiEncoding"}
    )
    ticks = pydyf.Dictionary({"Type": "/Font", "Subtype": "/Type1", "BaseFont": "/ZapfDingbats"})
    for font in (face, ticks):
        pdf.add_object(font)
    form["DR"] = pydyf.Dictionary({"Font": pydyf.Dictionary({FACE: face.reference, TICKS: ticks.reference})})
    by_number = {item.number: item for item in pdf.objects}
    for item in list(pdf.objects):
        if not isinstance(item, pydyf.Dictionary) or item.get("Subtype") != "/Widget":
            continue
        if item.get("FT") == "/Tx":
            item["DA"] = pydyf.String(f"0 g /{FACE} {POINTS} Tf")
        elif item.get("FT") == "/Btn":
            item["DA"] = pydyf.String(f"0 g /{TICKS} 0 Tf")
            _draw_empty_box(pdf, item, by_number)


def _draw_empty_box(pdf: Any, field: Any, by_number: dict[int, Any]) -> None:
    """The appearance of a box that is not ticked: nothing inside its border."""
    shapes = field["AP"]["N"]
    ticked = by_number[int(bytes(next(iter(shapes.values()))).split()[0])]
    empty = pydyf.Stream([], {**ticked.extra, "Type": "/XObject", "Subtype": "/Form"})
    pdf.add_object(empty)
    shapes["Off"] = empty.reference
    field.pop("MK", None)
