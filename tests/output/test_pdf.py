"""PDF from HTML: tagged, the same bytes twice, and nothing read or shown that is not the booklet's own."""

import io
import pickle
import subprocess
import sys
import zlib
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest

from booklet.findings import Severity
from booklet.output.pdf import PrintJob, write_pdf

MakeJob = Callable[..., PrintJob]


def make_png() -> bytes:
    """One grey pixel (PNG, third edition, section 5)."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")

    head = (1).to_bytes(4, "big") * 2 + bytes([8, 0, 0, 0, 0])
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\x00\x80")) + chunk(b"IEND", b"")
    )


def open_pdf(data: bytes | None) -> pikepdf.Pdf:
    assert data is not None
    return pikepdf.open(io.BytesIO(data))


def test_a_pdf_is_tagged_titled_and_has_a_language_and_bookmarks(make_job: MakeJob) -> None:
    data, findings = write_pdf(make_job("<h1>Dune Wrap</h1><p>Rows</p><h2>Body</h2><p>Row 1</p>"))
    assert findings == ()
    with open_pdf(data) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang) == "en"
        assert pdf.docinfo["/Title"] == "Dune Wrap"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert "pdfuaid" in pdf.Root.Metadata.read_bytes().decode()
        with pdf.open_outline() as outline:
            assert [item.title for item in outline.root] == ["Dune Wrap"]
            assert [item.title for item in outline.root[0].children] == ["Body"]


def test_the_same_job_gives_the_same_bytes_in_another_process_and_folder(make_job: MakeJob, tmp_path: Path) -> None:
    job = make_job(
        "<h1>Dune Wrap</h1><img src='pictures/a.png' alt='one pixel'>", resources={"pictures/a.png": make_png()}
    )
    script = (
        "import sys, pickle, pathlib\n"
        "from booklet.output.pdf import PrintJob, write_pdf\n"
        "from booklet.source import SourceFile\n"
        "html, resources, fonts = pickle.loads(sys.stdin.buffer.read())\n"
        "job = PrintJob('x', html, resources, fonts, SourceFile('elsewhere.md', '').whole())\n"
        "sys.stdout.buffer.write(write_pdf(job)[0])\n"
    )
    again = subprocess.run(
        [sys.executable, "-c", script],
        input=pickle.dumps((job.html, dict(job.resources), job.fonts)),
        cwd=tmp_path,
        env={"PYTHONHASHSEED": "77", "TZ": "Asia/Tokyo", "PATH": ""},
        capture_output=True,
        check=True,
    )
    data, findings = write_pdf(job)
    assert findings == ()
    assert again.stdout == data


def test_only_the_fonts_of_the_theme_are_in_the_file(make_job: MakeJob) -> None:
    data, findings = write_pdf(make_job("<h1>One</h1><p style='font-family: DejaVu Sans, sans-serif'>Row 1</p>"))
    assert findings == ()
    with open_pdf(data) as pdf:
        names = {str(o.BaseFont) for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and "/BaseFont" in o}
    assert names
    assert not [name for name in names if "DejaVu" in name]


def test_error_a_character_without_a_glyph_is_found_in_the_source(make_job: MakeJob) -> None:
    job = make_job("<h1>One</h1><p>Work \U0001f9f6 now, and ᚠ</p>", source="title: One\n\nWork \U0001f9f6 now\n")
    _, findings = write_pdf(job)
    assert [(f.code, f.severity, f.span.line, f.span.column) for f in findings] == [
        ("glyph-missing", Severity.ERROR, 3, 6),
        ("glyph-missing", Severity.ERROR, 1, 1),
    ]
    assert findings[0].message == 'the fonts of the theme have no "\U0001f9f6" (U+1F9F6)'


@pytest.mark.parametrize(
    ("body", "head"),
    [
        ("<img src='https://example.org/a.png' alt='a'>", ""),
        ("<img src='file:///etc/hostname' alt='a'>", ""),
        ("<img src='../../etc/hostname' alt='a'>", ""),
        ("<img src='data:image/png;base64,AAAA' alt='a'>", ""),
        ("<img src='https://book.invalid@example.org/a.png' alt='a'>", ""),
        ("<img src='notes.txt' alt='a'>", ""),
        ("", "<link rel=stylesheet href='http://127.0.0.1/a.css'>"),
        ("", "<style>@import url(http://127.0.0.1/a.css)</style>"),
        ("", "<link rel=attachment href='file:///etc/hostname'>"),
    ],
)
def test_error_nothing_outside_the_booklet_is_read(make_job: MakeJob, body: str, head: str) -> None:
    data, findings = write_pdf(make_job(f"<h1>One</h1>{body}", head, {"notes.txt": b"x"}))
    assert [finding.code for finding in findings] == ["typesetting-warning"]
    with open_pdf(data) as pdf:
        assert not list(pdf.attachments)
        assert not [o for o in pdf.objects if isinstance(o, pikepdf.Stream) and o.get("/Subtype") == "/Image"]


def test_no_path_of_the_machine_is_in_the_file(make_job: MakeJob) -> None:
    job = make_job(
        "<h1>One</h1><img src='a.png' alt='a'><p><a href='#x'>to x</a></p><p id=x>x</p>",
        resources={"a.png": make_png()},
    )
    data, _ = write_pdf(job)
    with open_pdf(data) as pdf:
        for item in pdf.objects:
            text = item.read_bytes() if isinstance(item, pikepdf.Stream) else item.unparse()
            for word in (b"/work/", b"/home/", b"/tmp/", b"book.invalid", str(Path.cwd()).encode()):
                assert word not in text


def test_error_a_booklet_beyond_measure_is_refused(make_job: MakeJob) -> None:
    body = "<h1>One</h1>" + "<p style='break-after: page'>x</p>" * 320
    data, findings = write_pdf(make_job(body))
    assert data is None
    assert [finding.code for finding in findings] == ["too-many-pages"]


def test_error_text_nested_too_deep_is_refused(make_job: MakeJob) -> None:
    data, findings = write_pdf(make_job("<h1>One</h1>" + "<ul><li>" * 400))
    assert data is None
    assert [finding.code for finding in findings] == ["nesting-too-deep"]


def test_error_a_theme_without_fonts_is_refused_before_the_typesetter_crashes(
    make_job: MakeJob, tmp_path: Path
) -> None:
    data, findings = write_pdf(make_job("<h1>One</h1>", fonts=(tmp_path, tmp_path / "none")))
    assert data is None
    assert [finding.code for finding in findings] == ["fonts-missing"]


def test_error_missing_pango_says_what_to_install(
    make_job: MakeJob, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    def refuse() -> None:
        raise OSError("cannot load library 'libgobject-2.0-0': no such file. Additionally, …")

    monkeypatch.setattr("booklet.output.pdf._load_weasyprint", refuse)
    data, findings = write_pdf(make_job("<h1>One</h1>"))
    assert data is None
    (finding,) = findings
    assert finding.code == "pango-missing"
    assert "libgobject-2.0-0" in finding.label
    for words in ("apt-get install", "brew install pango", "pacman -S"):
        assert words in finding.fix
    assert capfd.readouterr() == ("", "")


def test_nothing_is_left_in_the_temporary_folder(tmp_path: Path) -> None:
    script = (
        "import pathlib, tempfile, os\n"
        "from booklet.output.fonts import register_fonts\n"
        "register_fonts((pathlib.Path('.'),))\n"
        "assert pathlib.Path(os.environ['FONTCONFIG_FILE']).is_file()\n"
    )
    subprocess.run([sys.executable, "-c", script], check=True, env={"TMPDIR": str(tmp_path), "PATH": ""})
    assert list(tmp_path.iterdir()) == []


def test_pdf_module_does_not_load_weasyprint() -> None:
    script = "import booklet.output.pdf, booklet.output.files, sys; assert 'weasyprint' not in sys.modules"
    subprocess.run([sys.executable, "-c", script], check=True)


def test_head_cells_say_which_way_they_point(make_job: MakeJob) -> None:
    table = (
        "<table><thead><tr><th>Size</th><th>S</th></tr></thead><tbody><tr><th>Width</th><td>1</td></tr></tbody></table>"
    )
    data, findings = write_pdf(make_job(f"<h1>One</h1>{table}"))
    assert findings == ()
    with open_pdf(data) as pdf:
        cells = [o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and o.get("/S") == "/TH"]
        assert [str(cell.A.Scope) for cell in cells] == ["/Column", "/Column", "/Row"]
