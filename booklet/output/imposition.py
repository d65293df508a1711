"""Pages put in order for folding and stapling: two on each side of a sheet, so that the folded stack reads on.

The content of two pages is written onto one, with the numbers of its marked content counted on, and tags,
links and bookmarks follow. So the imposed file too can be read by a screen reader in the order of the text,
whatever the order of the sheets.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import pikepdf

POINTS_PER_MM = 72 / 25.4
PAPER_MM = 0.1  # thickness of office paper of 80 g/m2, by which each sheet pushes those inside it outwards

Spread = tuple[int | None, int | None]
"""The pages at the left and at the right of one side of a sheet, counted from 0; None for a blank one."""


def order_spreads(pages: int) -> list[Spread]:
    """The sides of all sheets in printing order: front and back of the outermost sheet first.

    Blank pages follow the last one, up to a multiple of four.
    """
    padded = max(4, -(-pages // 4) * 4)

    def page(number: int) -> int | None:
        return number if number < pages else None

    spreads: list[Spread] = []
    for sheet in range(padded // 4):
        first, last = 2 * sheet, padded - 1 - 2 * sheet
        spreads += [(page(last), page(first)), (page(first + 1), page(last - 1))]
    return spreads


@dataclass(frozen=True, slots=True)
class Place:
    """Where a page has come to lie: its side of a sheet, how far right it was moved in points, and how far on the
    numbers of its marked content are counted."""

    side: pikepdf.Object
    right: float
    counted_on: int


def impose_pages(data: bytes, sheet_mm: tuple[float, float], page_mm: tuple[float, float]) -> bytes:
    """The PDF with its pages two to a side; `sheet_mm` is the open sheet, wider than high.

    Pages lie against the fold. Those of inner sheets are moved towards it by as much as folding pushes them
    out, so that outer margins are even after trimming. The same input gives the same bytes. Raises ValueError
    for a PDF whose pages do not share their resources, which the typesetter's do.
    """
    width, height = (side * POINTS_PER_MM for side in sheet_mm)
    page_width = page_mm[0] * POINTS_PER_MM
    with pikepdf.open(BytesIO(data)) as pdf:
        pages = [page.obj for page in pdf.pages]
        if len({page.Resources.objgen for page in pages}) > 1:
            raise ValueError("pages are imposed only where all of them share their resources")
        parents = _read_parents(pdf)
        places: dict[tuple[int, int], Place] = {}
        for index, spread in enumerate(order_spreads(len(pages))):
            creep = (index // 2) * PAPER_MM * POINTS_PER_MM
            lefts = (width / 2 - page_width + creep, width / 2 - creep)
            placed = [(pages[at], x) for at, x in zip(spread, lefts, strict=True) if at is not None]
            side = _make_side(pdf, placed, parents, places)
            side.MediaBox = pikepdf.Array([0, 0, _round(width), _round(height)])
            pdf.pages.append(pikepdf.Page(side))
        del pdf.pages[: len(pages)]
        _move_annotations(pages, places)
        _retag(pdf, places)
        _write_parents(pdf, parents)
        _redirect(pdf, places)
        pdf.Root.ViewerPreferences = pikepdf.Dictionary(
            DisplayDocTitle=True, Duplex=pikepdf.Name.DuplexFlipShortEdge, PrintScaling=pikepdf.Name("/None")
        )
        file = BytesIO()
        pdf.save(file, deterministic_id=True)
        return file.getvalue()


def _make_side(
    pdf: pikepdf.Pdf,
    placed: Sequence[tuple[pikepdf.Object, float]],
    parents: dict[int, Any],
    places: dict[tuple[int, int], Place],
) -> pikepdf.Object:
    """A side of a sheet with the content of its pages; `parents` and `places` are told where all of it is."""
    side = pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.Page, Tabs=pikepdf.Name.S))
    streams: list[bytes] = []
    counted = 0
    for page, x in placed:
        side.Resources = page.Resources
        places[page.objgen] = Place(side, x, counted)
        streams.append(b"q 1 0 0 1 %.3f 0 cm\n%b\nQ" % (x, _write_content(pdf, page, x, counted)))
        if "/StructParents" in page:
            own = parents.pop(int(page.StructParents))
            if "/StructParents" not in side:
                side.StructParents = page.StructParents
                parents[int(page.StructParents)] = pikepdf.Array()
            for element in own:
                parents[int(side.StructParents)].append(element)
            counted += len(own)
    side.Contents = pdf.make_stream(b"\n".join(streams))
    return side


def _write_content(pdf: pikepdf.Pdf, page: pikepdf.Object, right: float, counted_on: int) -> bytes:
    """The page's content, marked content counted on; patterns keep to the page and not to the sheet."""
    written: list[Any] = []
    for instruction in pikepdf.parse_content_stream(pikepdf.Page(page)):
        operands, operator = list(instruction.operands), str(instruction.operator)
        if operator == "BDC" and isinstance(operands[1], pikepdf.Dictionary) and "/MCID" in operands[1]:
            marked = pikepdf.Dictionary(dict(operands[1].items()))
            marked.MCID = int(marked.MCID) + counted_on
            operands[1] = marked
        elif operator in ("scn", "SCN") and operands and isinstance(operands[-1], pikepdf.Name):
            operands[-1] = _move_pattern(pdf, page.Resources, operands[-1], right)
        written.append((operands, instruction.operator) if not _is_inline_image(instruction) else instruction)
    return pikepdf.unparse_content_stream(written)


def _is_inline_image(instruction: Any) -> bool:
    return isinstance(instruction, pikepdf.ContentStreamInlineImage)


def _move_pattern(pdf: pikepdf.Pdf, resources: pikepdf.Object, name: pikepdf.Name, right: float) -> pikepdf.Name:
    """A pattern lies on the sheet wherever the page is (ISO 32000-1, 8.7.3.1), so it is moved along with it."""
    pattern = resources.Pattern[name]
    moved = pikepdf.Name(f"{name}-{round(right * 1000)}")
    if moved not in resources.Pattern:
        copied = _copy(pdf, pattern)
        a, b, c, d, e, f = (float(value) for value in pattern.get("/Matrix", [1, 0, 0, 1, 0, 0]))
        copied.Matrix = pikepdf.Array([a, b, c, d, _round(e + right), f])
        resources.Pattern[moved] = copied
    return moved


def _copy(pdf: pikepdf.Pdf, item: pikepdf.Object) -> pikepdf.Object:
    """A second object with the same entries."""
    if isinstance(item, pikepdf.Stream):
        copied = pdf.make_stream(item.read_bytes())
        for key, value in item.items():
            if key not in ("/Length", "/Filter", "/DecodeParms"):
                copied[key] = value
        return copied
    return pdf.make_indirect(pikepdf.Dictionary(dict(item.items())))


def _read_parents(pdf: pikepdf.Pdf) -> dict[int, Any]:
    """The elements of each page's marked content, and the element of each link, by the page's or link's key."""
    if "/StructTreeRoot" not in pdf.Root:
        return {}
    numbers = list(pdf.Root.StructTreeRoot.ParentTree.Nums)
    return {int(key): value for key, value in zip(numbers[::2], numbers[1::2], strict=True)}


def _write_parents(pdf: pikepdf.Pdf, parents: Mapping[int, Any]) -> None:
    if "/StructTreeRoot" in pdf.Root:
        pairs = [item for key in sorted(parents) for item in (key, parents[key])]
        pdf.Root.StructTreeRoot.ParentTree.Nums = pikepdf.Array(pairs)


def _move_annotations(pages: Sequence[pikepdf.Object], places: Mapping[tuple[int, int], Place]) -> None:
    """Links go with their page."""
    for page in pages:
        place = places[page.objgen]
        for annotation in page.get("/Annots", ()):
            left, bottom, right, top = (float(value) for value in annotation.Rect)
            annotation.Rect = pikepdf.Array([_round(left + place.right), bottom, _round(right + place.right), top])
            if "/P" in annotation:
                annotation.P = place.side
            if "/Annots" not in place.side:
                place.side.Annots = pikepdf.Array()
            place.side.Annots.append(annotation)


def _retag(pdf: pikepdf.Pdf, places: Mapping[tuple[int, int], Place]) -> None:
    """Every element says on which side its content is, and under which numbers."""
    for element in _list_elements(pdf):
        page = element.get("/Pg")
        place = places.get(page.objgen) if page is not None else None
        if place is None:
            continue
        element.Pg = place.side
        kids: Any = element.get("/K")
        if isinstance(kids, int):
            element.K = kids + place.counted_on
        elif isinstance(kids, pikepdf.Array):
            _count_on(kids, place)


def _count_on(kids: Any, place: Place) -> None:
    """Numbers of marked content counted on; links on the page named with its new side."""
    for at in range(len(kids)):
        kid: Any = kids[at]
        if isinstance(kid, int):
            kids[at] = kid + place.counted_on
        elif "/Pg" in kid and kid.get("/Type") == pikepdf.Name.OBJR:
            kid.Pg = place.side


def _list_elements(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Object]:
    """Those of the tree, then those that only the numbers of marked content name; else their pages stay in the file."""
    seen: set[tuple[int, int]] = set()
    for element in _walk(pdf.Root.get("/StructTreeRoot")):
        seen.add(element.objgen)
        yield element
    for item in pdf.objects:
        if isinstance(item, pikepdf.Dictionary) and "/S" in item and "/Pg" in item and item.objgen not in seen:
            yield item


def _walk(element: Any) -> Iterator[pikepdf.Object]:
    """Every element of the structure, those above before those below."""
    waiting = [element] if element is not None else []
    while waiting:
        item = waiting.pop()
        if isinstance(item, pikepdf.Array):
            waiting.extend(item)
        elif isinstance(item, pikepdf.Dictionary) and item.get("/Type") != pikepdf.Name.OBJR:
            yield item
            if "/K" in item:
                waiting.append(item.K)


def _redirect(pdf: pikepdf.Pdf, places: Mapping[tuple[int, int], Place]) -> None:
    """Names, bookmarks and links lead to where their page lies now."""
    names = pdf.Root.get("/Names", pikepdf.Dictionary()).get("/Dests", pikepdf.Dictionary()).get("/Names", ())
    for target in names:
        _redirect_target(target, places)
    for item in pdf.objects:
        if isinstance(item, pikepdf.Dictionary):
            _redirect_target(item.get("/Dest"), places)
            if isinstance(item.get("/A"), pikepdf.Dictionary):
                _redirect_target(item.A.get("/D"), places)


def _redirect_target(target: Any, places: Mapping[tuple[int, int], Place]) -> None:
    """`[page /XYZ left top zoom]`"""
    if not isinstance(target, pikepdf.Array) or len(target) < 2 or not isinstance(target[0], pikepdf.Dictionary):
        return
    place = places.get(target[0].objgen)
    if place is not None:
        target[0] = place.side
        if target[1] == pikepdf.Name.XYZ and len(target) > 2 and target[2] is not None:
            target[2] = _round(float(target[2]) + place.right)


def _round(points: float) -> float:
    return round(points, 3)
