"""How long a booklet takes, and how much of that is the typesetter's own time.

    .venv/bin/python tests/benchmarks/make.py [SOURCE…]

For each pattern, seconds (median of three in a warm process) for the proof, the drawings, the web page,
and the first paper's HTML and PDF; beside them the same HTML through WeasyPrint with nothing of ours
around it, and the ratio of the whole make to that. The last column is the command from a cold start.
A second table lists the bytes of every drawing, with its pixels and its kind: L is grey of 8 bits.
"""

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from io import BytesIO
from pathlib import Path
from typing import Any

import weasyprint
from PIL import Image

from booklet.drawings.pattern import draw_pattern
from booklet.drawings.picture import Picture
from booklet.output.fetcher import ORIGIN, BookFetcher
from booklet.output.pdf import VARIANT, PrintJob, write_pdf
from booklet.pages.edition import WEB_EDITION, print_edition
from booklet.pages.manuscript import BookletInput
from booklet.pages.render import render_booklet
from booklet.pages.theme import load_theme
from booklet.pipeline import Order, list_sources, make_booklet, prove_file

ROOT = Path(__file__).parents[2]
COLUMNS = ("proof", "draw", "web", "html", "pdf", "whole", "bare", "ratio", "cold")
TIMES = 3


def measure(act: Callable[[], Any]) -> tuple[float, Any]:
    """Median seconds of an act, and what it gives."""
    seconds = []
    for _ in range(TIMES):
        start = time.perf_counter()
        result = act()
        seconds.append(time.perf_counter() - start)
    return statistics.median(seconds), result


def measure_pattern(source: str, out: Path) -> tuple[dict[str, float], Sequence[Picture]]:
    """Seconds of each stage; `whole` and `bare` are both for one paper of the printed edition. And the drawings."""
    took: dict[str, float] = {}
    took["proof"], proof = measure(lambda: prove_file(source))
    theme, _ = load_theme(proof.pattern.theme)
    took["draw"], (pictures, _) = measure(lambda: draw_pattern(proof.sized, proof.worked, proof.amounts, theme.ink()))
    booklet = BookletInput(proof.sized, proof.worked, proof.amounts, pictures)
    took["web"], _ = measure(lambda: render_booklet(booklet, WEB_EDITION, theme))
    edition = print_edition(proof.pattern.papers[0])
    took["html"], (page, _) = measure(lambda: render_booklet(booklet, edition, theme))
    job = PrintJob("print", page.html, page.resources, theme.font_folders, proof.source.whole())
    took["pdf"], _ = measure(lambda: write_pdf(job))
    took["bare"], _ = measure(lambda: set_bare(job))
    order = Order(out, editions=("print",), papers=(edition.paper,))
    took["whole"], _ = measure(lambda: make_booklet(prove_file(source), order))
    took["ratio"] = took["whole"] / took["bare"]
    took["cold"] = measure_command(source, edition.paper, out)
    return took, pictures


def list_sizes(pictures: Sequence[Picture]) -> Iterator[str]:
    """A line for each kind of drawing: how many, their bytes in all, and the largest with its pixels."""
    kinds: dict[str, list[Picture]] = {}
    for picture in pictures:
        kinds.setdefault(picture.name.partition("-")[0], []).append(picture)
    for kind, some in kinds.items():
        largest = max(some, key=lambda picture: len(picture.png))
        with Image.open(BytesIO(largest.png)) as image:
            about = f"{image.width} x {image.height} {image.mode}, {len(largest.png):,} bytes"
        total = sum(len(picture.png) for picture in some)
        yield f"  {kind:<12}{len(some):>3}{total:>12,} bytes   largest {about}"


def set_bare(job: PrintJob) -> bytes:
    """The same HTML as anyone would set it, with the same fonts in sight."""
    html = weasyprint.HTML(string=job.html, base_url=ORIGIN, url_fetcher=BookFetcher(job.resources))
    data: bytes = html.write_pdf(pdf_variant=VARIANT)
    return data


def measure_command(source: str, paper: str, out: Path) -> float:
    """Seconds of one `booklet make` of the printed edition, interpreter and all."""
    command = [
        sys.executable,
        "-m",
        "booklet",
        "make",
        source,
        "--out",
        str(out),
        "--edition",
        "print",
        "--paper",
        paper,
    ]
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    return time.perf_counter() - start


def main() -> None:
    sources = list_sources(sys.argv[1:] or [str(ROOT / "content")])
    print(f"{'seconds':<28}" + "".join(f"{column:>8}" for column in COLUMNS))
    drawn: dict[str, Sequence[Picture]] = {}
    with tempfile.TemporaryDirectory() as out:
        for source in sources:
            took, drawn[source] = measure_pattern(source, Path(out))
            print(f"{Path(source).name:<28}" + "".join(f"{took[column]:>8.2f}" for column in COLUMNS), flush=True)
    for source, pictures in drawn.items():
        print(f"\n{Path(source).name}")
        print("\n".join(list_sizes(pictures)))


if __name__ == "__main__":
    main()
