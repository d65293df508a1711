"""Plans in millimetres: nothing overlaps, nothing leaves the frame, all is to scale and named."""

from collections.abc import Callable
from functools import cache, partial

import pytest

from booklet.amounts.measures import measure_parts
from booklet.drawings.colour_plan import colour_table, plan_colours
from booklet.drawings.measured import measure_table
from booklet.drawings.paint import paint_plan
from booklet.drawings.palette import mix_palette
from booklet.drawings.picture import Ink
from booklet.drawings.piece_drawings import NARROW, ON_PAPER, Room
from booklet.drawings.pieces import CROWN, lay_pieces, pick_size
from booklet.drawings.plan import Plan, Polyline, shape_box
from booklet.drawings.schematic import Sheet, plan_schematic
from booklet.model.amounts import Measure
from booklet.model.work import WorkedPart

from .checking import check_plan
from .conftest import (
    FONTS,
    make_blanket,
    make_border,
    make_circle,
    make_hat,
    make_hexagon,
    make_pattern,
    make_shaped,
    make_tube,
    make_worked,
)

PIECES: dict[str, Callable[[int], list[WorkedPart]]] = {
    "blanket": lambda sizes: [make_blanket(61, 60, sizes)],
    "small blanket": lambda sizes: [make_blanket(9, 14, sizes)],
    "bordered": lambda sizes: [make_blanket(61, 60, sizes), make_border(make_blanket(61, 60, sizes))],
    "hat": lambda sizes: [make_hat(sizes=sizes)],
    "small hat": lambda sizes: [make_hat(3, 5, sizes)],
    "cowl": lambda sizes: [make_tube(120, 20, sizes)],
    "cuff": lambda sizes: [make_tube(16, 40, sizes)],
    "coaster": lambda sizes: [make_circle(6, sizes)],
    "shawl": lambda sizes: [make_shaped(3, 121, 60, "Shawl", sizes)],
    "turned shawl": lambda sizes: [make_shaped(121, 3, 60, "Shawl", sizes)],
    "cord": lambda sizes: [make_shaped(2, 2, 200, "Cord", sizes)],
    "belt": lambda sizes: [make_shaped(200, 200, 6, "Belt", sizes)],
    "jumper": lambda sizes: [
        make_shaped(50, 50, 60, "Back", sizes),
        make_shaped(50, 44, 60, "Front with a long name of its own", sizes),
        make_shaped(20, 40, 50, "Sleeve", sizes, 2),
        make_tube(60, 6, sizes, "Collar"),
        make_circle(3, sizes, "Button"),
        make_shaped(3, 3, 120, "Tie", sizes, 2),
    ],
    "hexagon": lambda sizes: [make_hexagon(5, sizes)],
    "many": lambda sizes: [
        make(title=f"{title} {n}", sizes=sizes)
        for n in range(1, 7)
        for title, make in (("Leaf", partial(make_shaped, 3, 11, 12)), ("Petal", partial(make_circle, 3)))
    ],
    "two pieces": lambda sizes: [make_shaped(50, 50, 60, "Back", sizes), make_shaped(20, 40, 50, "Sleeve", sizes, 2)],
    "toy": lambda sizes: [
        make_circle(2, sizes, "Eye"),
        make_hat(4, 6, sizes),
        make_shaped(5, 1, 5, "Ear", sizes, 2),
    ],
}


KINDS = ("blanket", "shawl", "coaster", "hexagon", "cowl", "jumper")  # one for each way of laying pieces


@cache
def plan_for(name: str, sizes: int, room: Room = ON_PAPER) -> tuple[Plan, tuple[Measure, ...]]:
    sized = make_pattern(sizes)
    worked = make_worked(*PIECES[name](sizes))
    measures, _ = measure_parts(sized, worked)
    size = pick_size(sized.pattern)
    pieces = lay_pieces(sized.pattern, worked, size)
    crowns = frozenset(piece.title for piece in pieces if piece.shape == CROWN)
    shows_values = sizes == 1 and len(pieces) == 1
    sheet = Sheet(measures, size, sized.pattern.size_names, Ink(FONTS), crowns, shows_values, *room.schematic)
    return plan_schematic(pieces, sheet), measures


CASES = [(name, sizes) for name in PIECES for sizes in (1, 3, 10)]


@pytest.mark.parametrize(("name", "sizes"), CASES)
def test_labels_never_overlap_nor_leave_the_frame(name: str, sizes: int) -> None:
    plan, _ = plan_for(name, sizes)
    check_plan(plan)


@pytest.mark.parametrize("room", [ON_PAPER, NARROW], ids=["paper", "narrow"])
@pytest.mark.parametrize("sizes", range(3, 11))
@pytest.mark.parametrize("name", KINDS)
def test_labels_stand_clear_in_three_to_ten_sizes(name: str, sizes: int, room: Room) -> None:
    plan, measures = plan_for(name, sizes, room)
    check_plan(plan)
    letters = {text.text.removeprefix("½ ") for text in plan.texts}
    named = " ".join(text.text for text in plan.texts)
    assert all(measure.key in letters or f"{measure.key}: " in named for measure in measures)


@pytest.mark.parametrize("length", [40, 400])
def test_a_long_title_is_cut(length: int, ink: Ink) -> None:
    sized, title = make_pattern(), "long " * (length // 5)
    worked = make_worked(make_tube(title=title), make_circle(title=title), make_hat())
    pieces = lay_pieces(sized.pattern, worked, 0)
    plan = plan_schematic(pieces, Sheet(measure_parts(sized, worked)[0], 0, ("",), ink))
    check_plan(plan)
    assert any(text.text.endswith("…") or "…" in text.text for text in plan.texts) == (length > 40)
    assert plan_colours(pieces, mix_palette(sized.pattern.colours), ink).width <= 150


@pytest.mark.parametrize(("name", "sizes"), CASES)
def test_every_measure_is_named_once(name: str, sizes: int) -> None:
    plan, measures = plan_for(name, sizes)
    shown = [text.text.removeprefix("½ ").split()[0].rstrip(":;") for text in plan.texts if text.text.strip()]
    named = [part.strip().split(":")[0] for text in plan.texts if ": " in text.text for part in text.text.split(";")]
    for measure in measures:
        assert shown.count(measure.key) + named.count(measure.key) in (1, 2), measure


def test_pieces_on_one_sheet_have_one_scale() -> None:
    plan, measures = plan_for("two pieces", 3)
    # the outlines are the closed heavy lines, in the order in which the pieces are set
    widths = sorted(
        box[2] - box[0]
        for box in (shape_box(s) for s in plan.shapes if isinstance(s, Polyline) and s.closed and s.width > 0.4)
    )
    back = next(measure for measure in measures if measure.part == "Back" and measure.axis == "width")
    sleeve = next(measure for measure in measures if measure.part == "Sleeve" and measure.name == "width")
    assert back.cm[1] is not None
    assert sleeve.cm[1] is not None
    ratio = sleeve.cm[1] / back.cm[1]
    assert any(width / widths[-1] == pytest.approx(ratio, rel=1e-3) for width in widths[:-1])


def test_outline_keeps_the_proportions_of_the_measures() -> None:
    plan, measures = plan_for("blanket", 1)
    outline = next(s for s in plan.shapes if isinstance(s, Polyline) and s.closed and s.width > 0.4)
    left, top, right, bottom = shape_box(outline)
    width, length = measures[0].cm[0], measures[1].cm[0]
    assert width is not None
    assert length is not None
    assert (right - left) / (bottom - top) == pytest.approx(width / length)


def test_words_of_a_schematic() -> None:
    plan, _ = plan_for("hat", 3)
    words = {text.text for text in plan.texts}
    assert {"Hat", "Hat, crown from above", "½ a", "b", "c", "direction of work", "start"} <= words


def test_panels_are_lettered() -> None:
    plan, _ = plan_for("blanket", 3)
    assert {"A", "B", "C", "foundation edge"} <= {text.text for text in plan.texts}


def test_table_of_all_sizes_in_both_units() -> None:
    sized, worked = make_pattern(3), make_worked(make_blanket(61, 60, 3))
    table = measure_table(measure_parts(sized, worked)[0], sized.pattern.size_names)
    assert table == (
        ("Letter", "Measure", "Size 1", "Size 2", "Size 3"),
        # 61, 71, 81 sts at 16 to 10 cm or 4 in; 60, 68, 76 rows at 17
        ("a", "Width", "38 cm (15¼ in)", "44.5 cm (17¾ in)", "50.5 cm (20¼ in)"),
        ("b", "Length", "35.5 cm (14 in)", "40 cm (16 in)", "44.5 cm (18 in)"),
    )


@pytest.mark.parametrize("name", list(PIECES))
def test_colour_plans_fit_and_do_not_overlap(name: str, ink: Ink) -> None:
    sized = make_pattern()
    pieces = [p for p in lay_pieces(sized.pattern, make_worked(*PIECES[name](1)), 0) if p.shape != CROWN]
    plan = plan_colours(pieces, mix_palette(sized.pattern.colours), ink)
    check_plan(plan)


def test_text_twin_of_a_colour_plan() -> None:
    sized = make_pattern()
    pieces = lay_pieces(sized.pattern, make_worked(make_blanket(61, 60)), 0)
    assert colour_table(pieces, mix_palette(sized.pattern.colours)) == (
        ("Rows", "Stitches of each colour from left to right, right side facing"),
        ("Rows 1–5", "A Chalk"),
        ("Rows 6–55", "C Rust 20, B Slate 21, A Chalk 20"),
        ("Rows 56–60", "A Chalk"),
    )


def test_stripes_of_a_long_plan_that_come_again_are_told_once() -> None:
    sized = make_pattern()
    pieces = lay_pieces(sized.pattern, make_worked(make_tube(40, 120)), 0)
    table = colour_table(pieces, mix_palette(sized.pattern.colours))
    assert table == (
        ("Rounds", "Colour, right side facing"),
        ("Round 1", "B Slate"),
        ("Rounds 2–3", "A Chalk"),
        ("Rounds 4–5", "B Slate"),
        ("Rounds 6–117", "as Rounds 2–5, 28 more times"),
        ("Rounds 118–119", "A Chalk"),
        ("Round 120", "B Slate"),
    )


def test_error_a_plan_larger_than_paper_is_refused(ink: Ink) -> None:
    with pytest.raises(ValueError, match="does not fit on paper"):
        paint_plan(Plan(5000, 100, ()), ink, is_grey=True)
