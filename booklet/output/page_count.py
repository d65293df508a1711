"""How many pages a PDF has."""

from io import BytesIO


def count_pages(pdf: bytes) -> int:
    """The pages of a PDF that was made here; raises pikepdf.PdfError where the bytes are none."""
    import pikepdf

    with pikepdf.open(BytesIO(pdf)) as document:
        return len(document.pages)
