"""How pages are filled, and what they end and begin with, by pages whose measures are known."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from booklet.output.fills import PageFill
from booklet.output.pdf import PrintJob, lay_pages

from .test_pdf import make_png

MakeJob = Callable[..., PrintJob]
PAGE = "<style>@page { size: 100mm 120mm; margin: 10mm } body { margin: 0 } p, h2 { margin: 0 }</style>"
HEAD = "<table><thead><tr><th>Size</th></tr></thead>"
COLUMNS = "<div style='columns: 2; height: 30mm; column-fill: auto'>"


def lay(make_job: MakeJob, body: str) -> tuple[PageFill, ...]:
    job = make_job(body, resources={"dot.png": make_png()})
    return lay_pages(replace(job, html=job.html.replace("</head>", f"{PAGE}</head>"))).pages


def test_a_page_is_as_full_as_its_lowest_line_or_picture(make_job: MakeJob) -> None:
    tall = '<img src="dot.png" alt="" style="display: block; width: 20mm; height: 50mm">'
    half, rest = lay(make_job, f"{tall}<div style='break-before: page; height: 10mm'>text</div>")
    assert half.share == pytest.approx(0.5)
    assert rest.share < 0.1


@pytest.mark.parametrize(
    ("end", "is_open"),
    [
        ("<h2>Neckband</h2>", True),
        ("<h2>Neckband</h2><p>Ch 6.</p>", False),
        ("<p style='break-after: avoid'>Sizes: S (M)</p>", True),
        ("<p class='row' style='break-after: avoid'>Row 1</p>", False),
        (f"{HEAD}</table>", True),
        (f"{HEAD}<tbody><tr><td>S</td></tr></tbody></table>", False),
        (f"{HEAD}<tbody><tr><td><input type='text'></td></tr></tbody></table>", False),
        (f"{COLUMNS}<h2 style='break-after: column'>A</h2><p>b</p></div>", True),
        (f"{COLUMNS}<p style='break-after: column'>a</p><p>b</p></div>", False),
    ],
)
def test_what_ends_a_page_may_belong_to_the_next(make_job: MakeJob, end: str, is_open: bool) -> None:
    first, *_ = lay(make_job, f"<p>Work even.</p>{end}<p style='break-before: page'>Next.</p>")
    assert first.is_open_ended == is_open


def test_the_picture_that_a_page_begins_with(make_job: MakeJob) -> None:
    """Its height, what stands round it and the highest it may be, in shares of a page of 100 mm."""
    body = (
        "<p style='height: 90mm'>One.</p><section style='break-inside: avoid; margin-top: 8mm'>"
        "<h2 style='height: 10mm'>Schematic</h2>"
        "<figure style='margin: 0; break-inside: avoid'><img src='dot.png' alt='' style='display: block; width: 40mm;"
        " height: 40mm; max-height: 60mm'><figcaption style='height: 5mm'>To scale.</figcaption></figure></section>"
    )
    before, page = lay(make_job, body)
    assert before.opening is None
    assert page.opening is not None
    assert page.opening.address == "dot.png"
    assert page.opening.height == pytest.approx(0.4)
    assert page.opening.most == pytest.approx(0.6)
    assert page.opening.around == pytest.approx(0.08 + 0.10 + 0.05)


def test_a_picture_at_its_true_size_is_never_made_smaller(make_job: MakeJob) -> None:
    (page,) = lay(make_job, "<img src='dot.png' alt='' style='display: block; width: 40mm; height: 40mm'>")
    assert page.opening is None
