"""What the fields of a form still need after WeasyPrint: a face that viewers can type in, and what they look like.

WeasyPrint names the page's own font for a field, which is coded by glyphs and not by characters, so that
viewers cannot type in it. The same face is put into the file once more, coded by the characters of Windows code
page 1252 (WinAnsiEncoding in ISO 32000-1, annex D) and cut down to them. Every field gets an appearance of its own,
so that no viewer has to draw one in a face that is not in the file.
"""

import io
import re
from typing import Any

import pydyf
from fontTools import subset
from fontTools.ttLib import TTFont

FACE = "Field"
POINTS = 10
FIRST, LAST = 32, 255  # the codes of WinAnsiEncoding that stand for characters
NONSYMBOLIC, ITALIC = 1 << 5, 1 << 6  # flags of a font descriptor: ISO 32000-1, table 123

_EMPTY = b"/Tx BMC\nEMC"  # table 229: what stands between these is the text, and there is none yet


def finish_form(document: Any, pdf: Any) -> None:
    """Called just before the file is put together, while its objects can still be changed."""
    form = pdf.catalog.get("AcroForm")
    if form is None:
        return
    typed_in = [font for font in document.fonts.values() if font.used_in_forms]
    if not typed_in:
        return
    face = _add_face(pdf, typed_in[0])
    for font in typed_in:
        _cut_whole_font(pdf, font)
    resources = pydyf.Dictionary({"Font": pydyf.Dictionary({FACE: face.reference})})
    form["DR"] = resources
    form["DA"] = pydyf.String(f"0 g /{FACE} {POINTS} Tf")
    form.pop("NeedAppearances", None)
    by_number = {item.number: item for item in pdf.objects}
    for item in list(pdf.objects):
        if not isinstance(item, pydyf.Dictionary) or item.get("Subtype") != "/Widget":
            continue
        if item.get("FT") == "/Tx":
            item["DA"] = pydyf.String(f"0 g /{FACE} {POINTS} Tf")
            _draw_empty_field(pdf, item, resources)
        elif item.get("FT") == "/Btn":
            _draw_empty_box(pdf, item, by_number)


def _add_face(pdf: Any, font: Any) -> Any:
    """The font as a simple one, coded by characters."""
    program, widths = _cut_down(font.file_content, font.index)
    name = f"/{font.hash}+{re.sub('[^A-Za-z0-9-]', '-', font.family)}-Fields"
    is_outline = font.type == "otf"
    extra = {"Subtype": "/OpenType"} if is_outline else {"Length1": len(program)}
    file = pydyf.Stream([program], pydyf.Dictionary(extra), compress=True)
    pdf.add_object(file)
    descriptor = pydyf.Dictionary(
        {
            "Type": "/FontDescriptor",
            "FontName": name,
            "FontFamily": pydyf.String(font.family),
            "Flags": NONSYMBOLIC + (ITALIC if font.style else 0),
            "FontBBox": pydyf.Array([0, font.descent, max(widths), font.ascent]),
            "ItalicAngle": font.italic_angle,
            "Ascent": font.ascent,
            "Descent": font.descent,
            "CapHeight": font.ascent,
            "StemV": font.stemv,
            "FontFile3" if is_outline else "FontFile2": file.reference,
        }
    )
    pdf.add_object(descriptor)
    face = pydyf.Dictionary(
        {
            "Type": "/Font",
            "Subtype": "/Type1" if is_outline else "/TrueType",
            "BaseFont": name,
            "FirstChar": FIRST,
            "LastChar": LAST,
            "Widths": pydyf.Array(widths),
            "Encoding": "/WinAnsiEncoding",
            "FontDescriptor": descriptor.reference,
        }
    )
    pdf.add_object(face)
    return face


def _cut_down(program: bytes, index: int) -> tuple[bytes, list[int]]:
    """The font with the characters of the code page alone, and the widths of their codes in thousandths."""
    characters = [bytes([code]).decode("cp1252", errors="ignore") for code in range(FIRST, LAST + 1)]
    font = TTFont(io.BytesIO(program), fontNumber=index, recalcTimestamp=False)
    options = subset.Options(layout_features=[], name_IDs=[], notdef_outline=True, hinting=False)
    cutter = subset.Subsetter(options)
    cutter.populate(text="".join(characters))
    cutter.subset(font)
    cut = io.BytesIO()
    font.save(cut)
    glyphs, advances, scale = font.getBestCmap(), font["hmtx"], 1000 / font["head"].unitsPerEm
    names = [glyphs.get(ord(character), ".notdef") if character else ".notdef" for character in characters]
    return cut.getvalue(), [round(advances[name][0] * scale) for name in names]


def _cut_whole_font(pdf: Any, font: Any) -> None:
    """WeasyPrint puts the whole of a font into the file for fields: now what the text of pages needs is enough."""
    whole = font.file_content
    if font.to_unicode:
        font.subset(font.to_unicode, False)
        for item in pdf.objects:
            if isinstance(item, pydyf.Stream) and item.stream == [whole]:
                item.stream = [font.file_content]
                item.extra["Length1"] = len(font.file_content)
        return
    for item in pdf.objects:
        if isinstance(item, pydyf.Dictionary) and isinstance(item.get("Font"), dict) and font.hash in item["Font"]:
            _free(pdf, _number(item["Font"].pop(font.hash)))


def _free(pdf: Any, number: int) -> None:
    """Marks a font, its descendants, descriptor, file and map of characters as not in the file."""
    item = pdf.objects[number]
    item.free = "f"
    for key in ("DescendantFonts", "FontDescriptor", "FontFile2", "FontFile3", "ToUnicode", "CIDSet"):
        held = item.get(key) if isinstance(item, dict) else None
        for reference in held if isinstance(held, list) else [held]:
            if isinstance(reference, bytes):
                _free(pdf, _number(reference))


def _number(reference: Any) -> int:
    """Of the object that is meant by `12 0 R`."""
    return int(bytes(reference).split()[0])


def _draw_empty_field(pdf: Any, field: Any, resources: Any) -> None:
    """The appearance of a text field that nothing is typed into yet."""
    left, top, right, foot = field["Rect"]
    width, height = abs(right - left), abs(top - foot)
    box = {"Type": "/XObject", "Subtype": "/Form", "BBox": pydyf.Array((0, 0, width, height)), "Resources": resources}
    empty = pydyf.Stream([_EMPTY], pydyf.Dictionary(box))
    pdf.add_object(empty)
    field["AP"] = pydyf.Dictionary({"N": empty.reference})


def _draw_empty_box(pdf: Any, field: Any, by_number: dict[int, Any]) -> None:
    """The appearance of a box that is not ticked: nothing inside its border."""
    shapes = field["AP"]["N"]
    ticked = by_number[_number(next(iter(shapes.values())))]
    empty = pydyf.Stream([], {**ticked.extra, "Type": "/XObject", "Subtype": "/Form"})
    pdf.add_object(empty)
    shapes["Off"] = empty.reference
    field.pop("MK", None)
