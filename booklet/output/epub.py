"""Clean HTML to an e-book: EPUB 3.3 with EPUB Accessibility 1.1 metadata, the same bytes each time.

Chapters begin at each h2. Pictures go in as they are, fonts do not: an e-book is read in the face and size
that its reader chose.
"""

import re
import uuid
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import PurePosixPath
from xml.etree import ElementTree as ET
from xml.sax.saxutils import escape, quoteattr

import tinyhtml5

XHTML = "http://www.w3.org/1999/xhtml"
STAMP = (1980, 1, 1, 0, 0, 0)  # the first that a zip file can hold
UNDATED = "2000-01-01"  # the standard asks for a date; this one is the same each time
TYPES = {"jpg": "image/jpeg", "png": "image/png"}
_CHAPTER = re.compile(r"(?=<h2\b)")
_HEADING = re.compile(r'<h2 id="([^"]+)">(.*?)</h2>', re.DOTALL)
_TAG = re.compile(r"<[^>]*>")
_PLACE = re.compile(r' id="([^"]+)"')
_LINK = re.compile(r'href="#([^"]+)"')
_FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")  # no XML may hold these

_BREAK = "\n"

_CONTAINER = """<?xml version="1.0" encoding="UTF-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
<rootfiles><rootfile full-path="book/package.opf" media-type="application/oebps-package+xml"/></rootfiles>
</container>
"""


@dataclass(frozen=True, slots=True)
class Ebook:
    """What an e-book is made from.

    `key` names this version of the book and no other. `body` is clean HTML whose sections begin with an h2
    that has an identifier; `pictures` are its files by the address in `body`, `cover` one of these addresses.
    `date` is a calendar date, or "".
    """

    key: str
    title: str
    language: str
    body: str
    style: str
    creator: str = ""
    publisher: str = ""
    description: str = ""
    rights: str = ""
    date: str = ""
    lines: Sequence[str] = ()  # under the title
    cover: str = ""
    cover_alt: str = ""
    pictures: Mapping[str, bytes] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Chapter:
    file: str
    title: str
    anchor: str
    html: str


def write_epub(book: Ebook) -> bytes:
    """The e-book's file."""
    chapters = list(_list_chapters(book.body))
    places = {place: chapter.file for chapter in chapters for place in _PLACE.findall(chapter.html)}
    files = {"META-INF/container.xml": _CONTAINER, "book/package.opf": _write_package(book, chapters)}
    files["book/contents.xhtml"] = _write_contents(book, chapters)
    files["book/title.xhtml"] = _write_page(book, book.title, _write_title(book))
    for chapter in chapters:
        linked = _LINK.sub(lambda link: f'href="{places.get(link[1], "title.xhtml")}#{link[1]}"', chapter.html)
        files[f"book/{chapter.file}"] = _write_page(book, chapter.title, f"<section>{linked}</section>")
    files["book/style.css"] = book.style
    data = BytesIO()
    with zipfile.ZipFile(data, "w") as archive:
        _add(archive, "mimetype", b"application/epub+zip", zipfile.ZIP_STORED)
        for name, text in files.items():
            _add(archive, name, text.encode("utf-8"), zipfile.ZIP_DEFLATED)
        for name, content in book.pictures.items():
            _add(archive, f"book/{name}", content, zipfile.ZIP_STORED)
    return data.getvalue()


def _add(archive: zipfile.ZipFile, name: str, content: bytes, how: int) -> None:
    entry = zipfile.ZipInfo(name, STAMP)
    entry.compress_type = how
    entry.external_attr = 0o644 << 16
    entry.create_system = 3  # whichever system it is made on
    archive.writestr(entry, content)


def _list_chapters(body: str) -> Iterator[_Chapter]:
    for number, html in enumerate((part for part in _CHAPTER.split(body) if _HEADING.match(part)), start=1):
        found = _HEADING.match(html)
        assert found is not None
        title = _TAG.sub("", found[2])
        yield _Chapter(f"chapter-{number:02}.xhtml", _unescape(title), found[1], html)


def _unescape(text: str) -> str:
    for entity, char in (("&nbsp;", "\u00a0"), ("&lt;", "<"), ("&gt;", ">"), ("&quot;", '"'), ("&amp;", "&")):
        text = text.replace(entity, char)
    return text


def _write_page(book: Ebook, title: str, body: str) -> str:
    """HTML made XHTML, by the parser of the HTML standard, so that whatever reads as HTML is well formed."""
    document = tinyhtml5.parse(
        f"<!DOCTYPE html><html><head><title>{escape(title)}</title>"
        f'<link rel="stylesheet" href="style.css" type="text/css"></head><body>{body}</body></html>'
    )
    document.set("lang", book.language)
    document.set("{http://www.w3.org/XML/1998/namespace}lang", book.language)
    ET.register_namespace("", XHTML)
    ET.register_namespace("epub", "http://www.idpf.org/2007/ops")
    text = ET.tostring(document, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE html>\n{_FORBIDDEN.sub("", text)}\n'


def _write_title(book: Ebook) -> str:
    picture = f'<p><img src="{escape(book.cover)}" alt={quoteattr(book.cover_alt)}></p>' if book.cover else ""
    lines = "".join(f"<p>{escape(line)}</p>" for line in book.lines if line)
    return f'<section class="title"><h1>{escape(book.title)}</h1>{lines}{picture}</section>'


def _write_contents(book: Ebook, chapters: Sequence[_Chapter]) -> str:
    entries = "".join(f'<li><a href="{c.file}">{escape(c.title)}</a></li>' for c in chapters)
    page = _write_page(book, "Contents", f"<nav><h1>Contents</h1><ol>{entries}</ol></nav>")
    page = page.replace("<nav>", '<nav epub:type="toc" role="doc-toc">', 1)
    return page.replace("<html ", '<html xmlns:epub="http://www.idpf.org/2007/ops" ', 1)


def _write_package(book: Ebook, chapters: Sequence[_Chapter]) -> str:
    pages = ["title.xhtml", "contents.xhtml", *(chapter.file for chapter in chapters)]
    items = [_write_item("style", "style.css", "text/css")]
    for at, page in enumerate(pages):
        items.append(_write_item(f"page-{at}", page, "application/xhtml+xml", "nav" if page.startswith("con") else ""))
    for at, name in enumerate(book.pictures):
        kind = TYPES[PurePosixPath(name).suffix[1:]]
        items.append(_write_item(f"picture-{at}", name, kind, "cover-image" if name == book.cover else ""))
    order = [f'<itemref idref="page-{at}"/>' for at in range(len(pages))]
    namespace = "http://www.idpf.org/2007/opf"
    opening = f'<package version="3.0" xmlns="{namespace}" unique-identifier="id" xml:lang="{book.language}">'
    return f"""<?xml version="1.0" encoding="UTF-8"?>
{opening}
<metadata xmlns:dc="http://purl.org/dc/elements/1.1/">
{_BREAK.join(_list_metadata(book))}
</metadata>
<manifest>
{_BREAK.join(items)}
</manifest>
<spine>
{_BREAK.join(order)}
</spine>
</package>
"""


def _write_item(name: str, file: str, kind: str, mark: str = "") -> str:
    properties = f' properties="{mark}"' if mark else ""
    return f'<item id="{name}" href={quoteattr(file)} media-type="{kind}"{properties}/>'


def _list_metadata(book: Ebook) -> Iterator[str]:
    identifier = uuid.uuid5(uuid.NAMESPACE_URL, f"pattern:{book.key}")
    yield f'<dc:identifier id="id">urn:uuid:{identifier}</dc:identifier>'
    facts = {
        "title": book.title,
        "language": book.language,
        "creator": book.creator,
        "publisher": book.publisher,
        "description": book.description,
        "rights": book.rights,
        "date": book.date,
    }
    for name, text in facts.items():
        if text:
            yield f"<dc:{name}>{escape(_FORBIDDEN.sub('', text))}</dc:{name}>"
    yield f'<meta property="dcterms:modified">{book.date or UNDATED}T00:00:00Z</meta>'
    for name, text in _list_access(book):
        yield f'<meta property="schema:{name}">{escape(text)}</meta>'


def _list_access(book: Ebook) -> Iterator[tuple[str, str]]:
    """How the book can be read, by the vocabulary of EPUB Accessibility 1.1: all of it in words alone."""
    yield "accessMode", "textual"
    if book.pictures:
        yield "accessMode", "visual"
    yield "accessModeSufficient", "textual"
    for feature in ("structuralNavigation", "tableOfContents", "readingOrder", "displayTransformability"):
        yield "accessibilityFeature", feature
    if book.pictures:
        yield "accessibilityFeature", "alternativeText"
    yield "accessibilityHazard", "none"
    yield (
        "accessibilitySummary",
        (
            "All instructions are text with headings, lists and tables that have head cells. Every drawing has a "
            "description and, where it shows figures, a table with the same figures. Nothing depends on colour."
        ),
    )
