"""Kits for a group over its own size table, and the sheet that lists them."""

import json
import math
from pathlib import Path

import pypdfium2
import pytest
from click.testing import CliRunner

from booklet.answers.bands import match_bands
from booklet.answers.kit_files import Printing, print_kits
from booklet.answers.kits import list_kits
from booklet.answers.supposing import Known
from booklet.cli import main
from booklet.model.kits import Band, KitList, KitOrder, LengthRange
from booklet.reading.order_forms import read_range
from booklet.reading.orders import read_order
from booklet.reading.quantities import UnreadError

ORDER = Path(__file__).parents[2] / "content/lantern-hat/hat-morning.yaml"


@pytest.fixture(scope="module")
def order() -> KitOrder:
    order, findings = read_order(ORDER)
    assert order is not None
    assert findings == ()
    return order


@pytest.fixture(scope="module")
def kits(order: KitOrder, hat: Known) -> KitList:
    return list_kits(order, [hat])


def write_order(folder: Path, text: str) -> Path:
    path = folder / "order.yaml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("28 to 32 cm", 28, 32, "cm"),
        ("11–12½ in", 11, 12.5, "in"),
        ('8" to 8½"', 8, 8.5, "in"),
        ("up to 20 cm", 0, 20, "cm"),
        ("30 cm", 30, 30, "cm"),
        ("0.3 to 0.4 m", 30, 40, "cm"),
    ],
)
def test_ranges_of_lengths(text: str, low: float, high: float, unit: str) -> None:
    found = read_range(text)
    assert (found.low, found.high, found.unit) == (pytest.approx(low), pytest.approx(high), unit)


@pytest.mark.parametrize("text", ["", "28 to 32", "32 to 28 cm", "cm", "a to b cm"])
def test_error_ranges_of_lengths(text: str) -> None:
    with pytest.raises(UnreadError):
        read_range(text)


# What is made


def test_25_makers_with_two_hats_each_are_50_hats(kits: KitList) -> None:
    (lot,) = kits.lots
    assert [(item.band, item.size, item.number) for item in lot.items] == [
        ("Small baby", "Newborn", 12),
        ("Baby", "Baby", 14),
        ("Child", "Child", 12),
        ("Teen", "Adult", 8),
        ("Grown-up", "Large", 4),  # the table asks for 46, the makers make 4 more
    ]
    assert sum(kit.number for kit in lot.kits) == 25
    assert all(item.fits for item in lot.items)


def test_grams_are_the_patterns_own_with_its_margin(kits: KitList, hat: Known) -> None:
    needs = {(need.size, need.letter): need for need in hat.amounts.yarn.needs} if hat.amounts.yarn else {}
    for item in kits.lots[0].items:
        for yarn in item.yarn:
            need = needs[item.size, yarn.letter]
            assert (yarn.grams, yarn.metres) == (need.grams, need.metres_to_buy)
            assert yarn.items_per_ball == math.floor(200 / need.metres_to_buy)  # a ball is 200 m


def test_balls_whole_and_wound_off(kits: KitList) -> None:
    (lot,) = kits.lots
    dusk, lamplight = lot.balls
    portions = [
        share.metres for kit in lot.kits for share in kit.yarn if share.letter == "A" for _ in range(kit.number)
    ]
    assert dusk.whole == sum(math.ceil(portion / 200) for portion in portions) == 27
    assert dusk.split is not None
    assert math.ceil(sum(portions) / 200) <= dusk.split < dusk.whole
    assert (dusk.spare_whole, dusk.on_hand, dusk.to_get_whole) == (3, 6, 24)  # 10 % of 27, rounded up
    assert (lamplight.on_hand, lamplight.to_get_whole) == (1.5, 27)  # 150 g of 100 g balls; half a ball is no whole one


def test_what_every_maker_gets(kits: KitList) -> None:
    assert [(thing.what, thing.number, thing.spare, thing.total) for thing in kits.things] == [
        ("hook, 5 mm (US H-8)", 25, 3, 28),
        ("yarn needle", 25, 3, 28),
        ("stitch marker", 25, 3, 28),
        ("handout", 25, 3, 28),
    ]


# Size tables


def match(hat: Known, measures: dict[str, str]) -> tuple[str, list[float]]:
    band = Band("Ward", {name: read_range(text) for name, text in measures.items()}, hat.pattern.source.whole())
    (found,) = match_bands(hat.pattern, hat.amounts, [band])
    return hat.pattern.size_names[found.size], [round(measure.miss, 2) for measure in found.measures]


def test_both_measures_must_fit(hat: Known) -> None:
    # A recipient's rule: length and width must fall in one size band (bevscountrycottage.com).
    assert match(hat, {"circumference": "35 to 44 cm", "depth": "18 to 20 cm"}) == ("Child", [0.0, 0.0])
    assert match(hat, {"circumference": "35 to 44 cm", "depth": "15 to 17 cm"}) == ("Baby", [0.0, 0.0])


def test_inches_are_held_against_the_inches_of_the_gauge(hat: Known) -> None:
    assert match(hat, {"circumference": "14½ to 15 in"}) == ("Baby", [0.0])  # 48 sts at 13 in 4 in: 14.77 in


def test_a_band_that_no_size_fits_names_the_nearest_and_by_how_much(hat: Known) -> None:
    # Newborn is 40 sts at 13 in 10 cm: 30.77 cm.
    assert match(hat, {"circumference": "20 to 24 cm"}) == ("Newborn", [6.77])


def test_error_a_measure_or_size_that_the_pattern_has_not(hat: Known) -> None:
    at = hat.pattern.source.whole()
    with pytest.raises(UnreadError, match='no size "Bby"'):
        match_bands(hat.pattern, hat.amounts, [Band("Ward", {}, at, size="Bby")])
    with pytest.raises(UnreadError, match="gives no measure"):
        match_bands(hat.pattern, hat.amounts, [Band("Ward", {}, at)])
    flat = Band("Ward", {"length": LengthRange(1, 2, "cm")}, at)
    assert match_bands(hat.pattern, hat.amounts, [flat])[0].measures[0].miss > 0  # a hat is as long as it is deep


def test_what_does_not_fit_together_is_noted(tmp_path: Path, hat: Known) -> None:
    path = write_order(
        tmp_path, "makers: 4\neach: 3\npattern: hat\nbands:\n  Tiny: {circumference: 20 to 24 cm, items: 5}\n"
    )
    order, findings = read_order(path)
    assert order is not None
    assert findings == ()
    notes = " ".join(list_kits(order, [hat]).notes)
    assert "No size of Lantern Hat fits Tiny; the nearest, Newborn, is listed." in notes
    assert "asks for 5 items" in notes
    assert "would make 12" in notes


def test_error_orders_are_told_by_line(tmp_path: Path) -> None:
    path = write_order(tmp_path, "maker: 25\nspare: 10\nbands:\n  Small: {circumfrence: 29 cm}\n")
    order, findings = read_order(path)
    assert order is None
    assert {(finding.code, finding.span.line) for finding in findings} == {
        ("unknown-key", 1),
        ("missing-unit", 2),
        ("unknown-key", 4),
        ("wrong-value", 1),  # no pattern
    }


# The sheet


def read_pages(path: Path) -> list[str]:
    book = pypdfium2.PdfDocument(path)
    pages = [page.get_textpage().get_text_bounded() for page in book]
    book.close()
    return pages


@pytest.mark.slow
def test_the_sheet_is_one_page_and_says_what_the_json_says(tmp_path: Path, order: KitOrder, kits: KitList) -> None:
    paths, findings = print_kits(order, kits, Printing(tmp_path))
    assert findings == ()
    assert sorted(path.name for path in paths) == [
        "hat-morning-A4.pdf",
        "hat-morning-Letter.pdf",
        "hat-morning-web.html",
    ]
    result = CliRunner().invoke(main, ["kits", str(ORDER), "--json"])
    plain = json.loads(result.stdout)
    told = plain["lots"][0]
    for path in paths:
        pages = read_pages(path) if path.suffix == ".pdf" else [path.read_text(encoding="utf-8")]
        assert len(pages) == 1, path.name
        text = " ".join(pages[0].replace("\u00a0", " ").split())
        for item in told["items"]:
            assert f"{math.ceil(item['yarn'][0]['grams'])} g" in text
        for ball in told["balls"]:
            assert (
                f"{ball['split'] + ball['spare_split']} balls ({ball['split']} + {ball['spare_split']} spare)" in text
            )
            assert f"{ball['whole'] + ball['spare_whole']} balls ({ball['whole']} +" in text
            assert f"{ball['to_get']} balls, or {ball['to_get_whole']} whole" in text
        for thing in plain["things"]:
            assert thing["what"][1:] in text
        assert "Hat bands of the children’s ward" in text
        assert "as of 1 October 2026" in text


@pytest.mark.slow
def test_two_runs_give_the_same_bytes(tmp_path: Path, order: KitOrder, kits: KitList) -> None:
    first, _ = print_kits(order, kits, Printing(tmp_path / "a", ("A4",)))
    second, _ = print_kits(order, kits, Printing(tmp_path / "b", ("A4",)))
    assert [path.read_bytes() for path in first] == [path.read_bytes() for path in second]
