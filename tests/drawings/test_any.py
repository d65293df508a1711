"""Whatever rows a pattern has, they can be laid, planned and painted."""

from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.amounts.measures import measure_parts
from booklet.drawings.colour_plan import plan_colours
from booklet.drawings.lay import straighten
from booklet.drawings.palette import mix_palette
from booklet.drawings.pattern import draw_pattern
from booklet.drawings.picture import Ink
from booklet.drawings.pieces import lay_pieces
from booklet.drawings.plan import bound_shapes
from booklet.model.amounts import Amounts
from booklet.model.work import Stitch, WorkedPart

from .conftest import FONTS, SPAN, make_fabric, make_pattern, make_row, make_worked

KINDS = ["sc", "hdc", "dc", "ch", "FPdc", "BPdc", "sc2tog", "bobble", "sl st", "unheard of"]
COLOURS = ["A", "B", "C", "", "Z"]


@st.composite
def parts(draw: st.DrawFn) -> WorkedPart:
    """Rows or rounds of any stitches in any colours, each worked into any places of the row below."""
    in_rounds = draw(st.booleans())
    rows, below = [], 1
    for number in range(1, draw(st.integers(1, 8)) + 1):
        count = draw(st.integers(1, 30))
        kinds = draw(st.lists(st.sampled_from(KINDS), min_size=count, max_size=count))
        colours = draw(st.lists(st.sampled_from(COLOURS), min_size=count, max_size=count))
        into = draw(st.lists(st.integers(-1, below), min_size=count, max_size=count))
        stitches = [Stitch(k, c, (i,) if i >= 0 else ()) for k, c, i in zip(kinds, colours, into, strict=True)]
        rows.append(make_row(number, make_fabric(stitches), "round" if in_rounds else "row", "moss"))
        below = count
    return WorkedPart("Piece", 1, (tuple(rows),), SPAN, in_rounds, "moss")


@settings(max_examples=40, deadline=None)
@given(st.lists(parts(), min_size=1, max_size=3))
def test_colour_plans_of_any_rows_stay_in_their_frame(drawn: list[WorkedPart]) -> None:
    sized = make_pattern()
    pieces = lay_pieces(sized.pattern, make_worked(*drawn), 0)
    plan = plan_colours(pieces, mix_palette(sized.pattern.colours), Ink(FONTS))
    left, top, right, bottom = bound_shapes(plan.shapes)
    assert left >= 0
    assert top >= 0
    assert right <= plan.width
    assert bottom <= plan.height


@settings(max_examples=12, deadline=None)
@given(parts())
def test_any_rows_can_be_drawn(drawn: WorkedPart) -> None:
    sized, worked = make_pattern(), make_worked(drawn)
    amounts = Amounts(measure_parts(sized, worked)[0], None, (), (), ())
    pictures, findings = draw_pattern(sized, worked, amounts, Ink(FONTS))
    assert findings == ()
    assert "fabric" in {picture.name for picture in pictures}


def test_single_stitches_become_a_slant_and_steps_stay_steps() -> None:
    stairs = [(float(step // 2), float((step + 1) // 2)) for step in range(21)]
    assert straighten((*stairs, (0.0, 10.0)), 0.8) == ((0.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    step = ((0.0, 0.0), (10.0, 0.0), (10.0, 5.0), (7.0, 5.0), (7.0, 9.0), (0.0, 9.0))
    assert straighten(step, 0.8) == step
