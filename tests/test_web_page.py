"""The web page in a browser: what its script does, what it keeps, and how it looks without.

The accessibility checks are those of axe-core (rules for WCAG 2.2 A and AA), at the 320 CSS pixels of WCAG 2.2,
success criterion 1.4.10 (Reflow), and at 1280.
"""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

HAT = "lantern-hat"
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip

pytestmark = [
    pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on this machine; .ci/setup test installs it"),
    pytest.mark.slow,
]


@pytest.fixture
def pages(shelf: Any) -> dict[str, Path]:
    """The web page of the hat."""
    return {HAT: shelf.take(HAT).pick("web.html")}


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield opened
        opened.close()


@pytest.fixture
def hat(browser: Any, pages: dict[str, Path]) -> Iterator[Any]:
    """The page of the hat in five sizes, in a browser that has kept nothing yet; any mistake of its script fails."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    mistakes: list[str] = []
    page.on("pageerror", lambda mistake: mistakes.append(str(mistake)))
    page.on("console", lambda line: mistakes.append(line.text))
    page.on("request", lambda request: None if re.match("file:|data:", request.url) else mistakes.append(request.url))
    page.goto(pages[HAT].as_uri())
    yield page
    assert mistakes == []
    context.close()


def read_text(page: Any, selector: str) -> str:
    return " ".join(page.locator(selector).inner_text().split())


@pytest.mark.of_book(HAT)
def test_one_size_alone(hat: Any) -> None:
    rib = "#piece-3-row-2 p"
    assert read_text(hat, "#piece-2-row-2 p") == (
        "Rep last rnd until there are 5 (6, 8, 10, 11) rnds in the sides. (40 (48, 56, 64, 72) hdc)"
    )
    hat.get_by_role("button", name="Child", exact=True).click()
    assert read_text(hat, "#piece-2-row-2 p") == "Rep last rnd until there are 8 rnds in the sides. (56 hdc)"
    assert read_text(hat, rib).endswith("(28 FPhdc, 28 BPhdc)")
    assert hat.locator("#piece-2-row-2 input:visible").count() == 7  # the eighth round is the one before
    assert read_text(hat, "#news") == "Only the numbers of size Child are shown."
    assert hat.get_by_role("button", name="Child", exact=True).get_attribute("aria-pressed") == "true"
    assert hat.locator("p.alone:visible").all_inner_texts() == [
        "Shown with the numbers of size Child only",
        "Size Child only",
    ]
    # Rounds 8 and 9 are for larger sizes; the tables keep one size.
    assert hat.locator("#piece-1 .row:visible").count() == 7
    assert hat.locator("#sizes thead th:visible").all_inner_texts() == ["Measure", "Child"]
    heads = hat.locator("#materials .table-frame tbody th:visible").all_inner_texts()
    assert heads
    assert all("Child" in head for head in heads)
    hat.get_by_role("button", name="All sizes", exact=True).click()
    assert hat.locator("#piece-1 .row:visible").count() == 9
    assert read_text(hat, rib).endswith("(20 (24, 28, 32, 36) FPhdc, 20 (24, 28, 32, 36) BPhdc)")


@pytest.mark.of_book(HAT)
def test_drawings_are_those_of_the_size_chosen(hat: Any) -> None:
    """The crown grows by 8 stitches a round to 48 sts (Baby), 56 (Child, which is drawn) and 72 (Large)."""
    for size, rounds in (("Baby", 6), ("Child", 7), ("Large", 9)):
        hat.get_by_role("button", name=size, exact=True).click()
        shown = hat.locator("#charts .figure-block:visible")
        assert shown.count() == 2
        assert shown.nth(0).locator("tbody tr").count() == rounds
        assert hat.locator("#plan .figure-block:visible").count() == 1
        assert hat.locator("#schematic .figure-block:visible").count() == 1
    hat.get_by_role("button", name="All sizes", exact=True).click()
    assert hat.locator("#charts figcaption:visible").nth(0).inner_text().startswith("Hat in size Child.")


@pytest.mark.of_book(HAT)
@pytest.mark.parametrize("size", range(1, 6))
def test_no_list_of_sizes_is_left_where_one_is_chosen(hat: Any, size: int) -> None:
    hat.locator(f'[data-choose="{size}"]').click()
    text = hat.locator("main").inner_text()
    assert re.findall(r"\d \([\d½¼¾., ]+\)", text) == []


@pytest.mark.of_book(HAT)
def test_ticks_a_size_and_a_place_are_there_after_a_reload(hat: Any) -> None:
    first = hat.get_by_label("Rnd 1 done", exact=True)
    first.check()
    hat.get_by_role("button", name="Baby", exact=True).click()
    hat.get_by_role("button", name="Here: I am at Rnd 2", exact=True).click()
    assert read_text(hat, "#place a >> nth=0") == "You are at Crown, Rnd 2"
    hat.reload()
    assert first.is_checked()
    assert hat.locator("html").get_attribute("data-size") == "2"
    assert hat.locator("#piece-1-row-2").get_attribute("aria-current") == "step"
    first.uncheck()
    hat.reload()
    assert not first.is_checked()
    assert hat.locator("#place").is_visible()


@pytest.mark.of_book(HAT)
def test_the_place_goes_on_when_its_row_is_ticked_and_not_back(hat: Any) -> None:
    hat.get_by_role("button", name="Here: I am at Rnd 2", exact=True).click()
    hat.get_by_label("Rnd 2 done").check()
    assert read_text(hat, "#news") == "Your place is at Rnd 3."
    hat.get_by_label("Rnd 2 done").uncheck()
    assert hat.locator("[aria-current=step]").get_attribute("id") == "piece-1-row-3"
    hat.get_by_role("button", name="Here: I am at Rnd 3", exact=True).click()
    assert hat.locator("[aria-current=step]").count() == 0
    assert not hat.locator("#place").is_visible()


@pytest.mark.of_book(HAT)
def test_a_row_of_many_boxes_is_done_when_those_of_the_size_are(hat: Any) -> None:
    hat.locator('[data-choose="1"]').click()
    row = hat.locator("#piece-2-row-2")
    for box in row.locator("input:visible").all():
        box.check()
    assert "done" in (row.get_attribute("class") or "").split()
    hat.locator('[data-choose="5"]').click()
    assert "done" not in (row.get_attribute("class") or "").split()


@pytest.mark.of_book(HAT)
def test_repeats_are_counted_up_to_what_the_row_says(hat: Any) -> None:
    counter = hat.get_by_role("group", name="Repeats of Rnd 3")
    assert counter.locator("output").inner_text() == "0 of 8"
    for _ in range(8):
        counter.get_by_label("One repeat more").click()
    assert counter.locator("output").inner_text() == "8 of 8"
    counter.get_by_label("One repeat more").click()  # the next repeat of as many
    assert counter.locator("output").inner_text() == "1 of 8"
    for _ in range(6):
        counter.get_by_label("One repeat more").click()
    hat.reload()
    assert counter.locator("output").inner_text() == "7 of 8"
    counter.get_by_label("Clear the count").click()
    assert counter.locator("output").inner_text() == "0 of 8"


@pytest.mark.of_book(HAT)
def test_starting_afresh_can_be_taken_back(hat: Any) -> None:
    hat.get_by_label("Rnd 4 done").check()
    again = hat.locator("#afresh")
    again.click()
    assert not hat.get_by_label("Rnd 4 done").is_checked()
    again.click()
    assert hat.get_by_label("Rnd 4 done").is_checked()
    again.click()
    hat.reload()
    assert not hat.get_by_label("Rnd 4 done").is_checked()


@pytest.mark.of_book(HAT)
@pytest.mark.parametrize(
    "broken",
    [
        "Object.defineProperty(window, 'localStorage', {get() { throw new Error('refused') }})",
        "localStorage.setItem = () => { throw new Error('full') }; Storage.prototype.setItem = localStorage.setItem",
        "Storage.prototype.getItem = () => 'not what was kept'",
        "Storage.prototype.getItem = () => '[1, {\"ticks\": 3}]'",
        'Storage.prototype.getItem = () => \'{"size": "99", "here": "nowhere", "ticks": [], "counts": 4}\'',
    ],
)
def test_the_page_works_where_nothing_can_be_kept(browser: Any, pages: dict[str, Path], broken: str) -> None:
    page = browser.new_page()
    mistakes: list[str] = []
    page.on("pageerror", lambda mistake: mistakes.append(str(mistake)))
    page.add_init_script(broken)
    page.goto(pages[HAT].as_uri())
    page.get_by_role("button", name="Large", exact=True).click()
    page.get_by_label("Rnd 1 done", exact=True).check()
    assert read_text(page, "#piece-2-row-2 p").endswith("(72 hdc)")
    assert page.get_by_text("This browser keeps nothing").is_visible() == ("throw" in broken)
    assert mistakes == []
    page.close()


@pytest.mark.of_book(HAT)
def test_without_script_all_sizes_stand_there_and_no_tool_shows(browser: Any, pages: dict[str, Path]) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(pages[HAT].as_uri())
    assert page.locator(".tools, .place, .here, .counter, .alone").locator("visible=true").count() == 0
    assert read_text(page, "#piece-2-row-2 p").endswith("(40 (48, 56, 64, 72) hdc)")
    page.get_by_label("Rnd 1 done", exact=True).check()
    context.close()


@pytest.mark.of_book(HAT)
def test_the_print_view_is_clean(hat: Any) -> None:
    hat.locator('[data-choose="2"]').click()
    hat.get_by_role("button", name="Here: I am at Rnd 2", exact=True).click()
    hat.emulate_media(media="print", color_scheme="dark")
    for part in (".tools", ".place", ".here", ".counter", ".jump", ".skip", ".start"):
        assert hat.locator(part).locator("visible=true").count() == 0, part
    assert hat.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(255, 255, 255)"
    assert read_text(hat, "#piece-2-row-2 p").endswith("(48 hdc)")
    patch = "getComputedStyle(document.querySelector('.row .patch'))"
    assert hat.evaluate(f"{patch}.color") == hat.evaluate(f"{patch.replace('.patch', 'p')}.color")  # no white on white
    asked = hat.evaluate(
        "(() => { let n = 0; window.print = () => n++; document.getElementById('print').click(); return n })()"
    )
    assert asked == 1


@pytest.mark.of_book(HAT)
def test_boxes_print_below_the_words_of_their_row(hat: Any) -> None:
    hat.set_viewport_size({"width": 1000, "height": 900})  # more than a sheet, where a row of boxes leaves room
    hat.emulate_media(media="print")
    beside = """() => [...document.querySelectorAll(".row.many")].filter(row =>
        row.querySelector(".ticks").getBoundingClientRect().top < row.querySelector("p").getBoundingClientRect().bottom
    ).length"""
    assert hat.locator(".row.many").count() > 0
    assert hat.evaluate(beside) == 0


@pytest.mark.of_book(HAT)
def test_the_page_may_run_its_own_script_and_ask_for_nothing(browser: Any, pages: dict[str, Path]) -> None:
    """The policy in the page is kept by the browser itself: W3C Content Security Policy Level 3."""
    page = browser.new_page()
    page.goto(pages[HAT].as_uri())
    ran = page.evaluate(
        """async () => {
            const told = [];
            document.addEventListener("securitypolicyviolation", event => told.push(event.effectiveDirective));
            const script = document.createElement("script");
            script.textContent = "window.slipped = true";
            document.body.append(script);
            const image = new Image();
            image.src = "https://nowhere.invalid/a.png";
            await fetch("https://nowhere.invalid/").catch(() => 0);
            await new Promise(done => setTimeout(done, 100));
            return [window.slipped === true, told.sort()];
        }"""
    )
    assert ran == [False, ["connect-src", "img-src", "script-src-elem"]]
    page.close()


def find_barriers(browser: Any, path: Path, width: int, scheme: str) -> list[Any]:
    """What axe finds and what reaches over the edge: as the page opens, and with a size, a tick and a place."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme, bypass_csp=True)
    page = context.new_page()
    page.goto(path.as_uri())
    found: list[Any] = []
    for is_used in (False, True):
        if is_used:
            if page.locator('[data-choose="2"]').count():
                page.locator('[data-choose="2"]').click()
            page.locator(".row input:visible").first.check()
            page.locator(".here:visible").first.click()
        if page.evaluate("document.documentElement.scrollWidth") > width:
            found.append((path.name, "scrolls sideways"))
        told = axe.run(page).response["violations"]
        found += [(path.name, one["id"], [node["target"] for node in one["nodes"]][:3]) for one in told]
    context.close()
    return found


@pytest.mark.parametrize("width", [320, 1280])
def test_no_barrier_and_no_sideways_scrolling(browser: Any, book: Any, width: int) -> None:
    """In the first theme each page in light and dark, in the others light where it is narrow and dark where wide."""
    schemes = ("light", "dark") if book.theme == "wayside" else ("light",) if width == 320 else ("dark",)
    path = book.pick("web.html")
    assert [one for scheme in schemes for one in find_barriers(browser, path, width, scheme)] == []


def test_the_script_works_on_every_page(browser: Any, demo_book: Any) -> None:
    """A size chosen, a row ticked and kept over a reload, taken back, and the print view."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    mistakes: list[str] = []
    page.on("pageerror", lambda mistake: mistakes.append(str(mistake)))
    page.goto(demo_book.pick("web.html").as_uri())
    sizes = [name for name in demo_book.sizes if name]
    for size, name in enumerate(sizes, start=1) if len(sizes) > 1 else ():
        page.locator(f'[data-choose="{size}"]').click()
        assert re.findall(r"\d \([\d½¼¾., ]+\)", page.locator("main").inner_text()) == [], name
        assert page.locator("#sizes thead th:visible").all_inner_texts()[1:] == [name]
    box = page.locator(".row input:visible").first
    name = box.get_attribute("aria-label")
    box.check()
    page.reload()
    assert page.get_by_label(name, exact=True).first.is_checked()
    page.get_by_label(name, exact=True).first.uncheck()
    page.reload()
    assert not page.get_by_label(name, exact=True).first.is_checked()
    page.emulate_media(media="print")
    for part in (".tools", ".place", ".here", ".counter", ".jump", ".skip", ".start"):
        assert page.locator(part).locator("visible=true").count() == 0, part
    assert page.locator(".row:visible").count() > 5
    assert mistakes == []
    context.close()


@pytest.mark.of_book(HAT)
@pytest.mark.parametrize("width", [320, 1280])
def test_what_is_pressed_is_large_enough(browser: Any, pages: dict[str, Path], width: int) -> None:
    """WCAG 2.2, success criterion 2.5.8: targets of at least 24 by 24 CSS pixels."""
    page = browser.new_page(viewport={"width": width, "height": 900})
    page.goto(pages[HAT].as_uri())
    for target in page.locator("button:visible, input:visible, .jump a:visible, .place a:visible, .start a").all():
        box = target.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 24, target.inner_text()
    page.close()


@pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.of_book(name)) for name in ("hedgerow-hare", "millpond-tee")]
)
def test_drawings_with_letters_are_arranged_anew_on_a_narrow_screen(browser: Any, shelf: Any, name: str) -> None:
    """On 320 pixels they keep their scale: letters of 7.5 points stay above 9 pixels of type, and are not halved."""
    shown = {}
    for width in (320, 1280):
        page = browser.new_page(viewport={"width": width, "height": 900})
        page.goto(shelf.take(name).pick("web.html").as_uri())
        page.evaluate("document.querySelectorAll('img').forEach(image => image.loading = 'eager')")
        page.wait_for_function("[...document.images].every(image => image.complete)")
        sizes = "image => [image.getBoundingClientRect().width, image.naturalWidth, image.currentSrc.length]"
        shown[width] = page.locator("#schematic img").first.evaluate(sizes)
        page.close()
    narrow, pixels, _ = shown[320]
    assert 0.9 <= narrow / (pixels * 96 / 300) <= 1.01  # drawn at 300 to the inch, shown at 96
    assert shown[1280][0] > 500
    assert shown[320][2] != shown[1280][2]
