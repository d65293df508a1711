"""The fabric picture: every stitch in its place and colour."""

from collections import Counter
from io import BytesIO

import pytest
from PIL import Image

from booklet.drawings.fabric import choose_view, draw_fabric, encode_jpeg, paint_fabric
from booklet.drawings.palette import mix_palette
from booklet.drawings.picture import Ink
from booklet.drawings.pieces import CROWN, lay_pieces
from booklet.drawings.placing import View, place_stitches
from booklet.drawings.stitch_shapes import find_shape
from booklet.drawings.strands import paint_stamp, tone_table
from booklet.model.work import WorkedPart

from .conftest import make_blanket, make_circle, make_hat, make_pattern, make_square, make_tube, make_worked


def lay_first(part: WorkedPart):  # type: ignore[no-untyped-def]
    return lay_pieces(make_pattern().pattern, make_worked(part), 0)[0]


PALETTE = mix_palette(make_pattern().pattern.colours)


def test_every_stitch_of_a_flat_piece_is_placed_once() -> None:
    piece = lay_first(make_blanket(31, 20))
    left, top, right, bottom = piece.box
    rows = list(place_stitches(piece, View((left - 1, top - 1, right + 1, bottom + 1), 40)))
    assert [len(row) for row in rows] == [31] * 21  # the chain and 20 rows
    kinds = Counter(stitch.kind for row in rows[6:16] for stitch in row)
    worked = Counter(stitch.kind for band in piece.bands[5:15] for stitch in band.row.fabric.stitches)
    assert kinds == worked


def test_half_of_each_round_shows_on_a_piece_pressed_flat() -> None:
    piece = lay_first(make_tube(40, 6))
    rows = list(place_stitches(piece, View((-20, -20, 20, 20), 40)))
    assert [len(row) for row in rows[1:]] == [20] * 6


def test_all_of_each_round_shows_on_a_circle() -> None:
    rows = list(place_stitches(lay_first(make_circle(5)), View((-20, -20, 20, 20), 40)))
    assert [len(row) for row in rows] == [6, 12, 18, 24, 30]


def test_a_stitch_stands_on_what_it_is_worked_into() -> None:
    piece = lay_first(make_blanket(31, 20))
    rows = list(place_stitches(piece, View(piece.box, 40)))
    below = sorted(stitch.head[0] for stitch in rows[2])
    feet = sorted(stitch.foot[0] for stitch in rows[3])
    assert feet == pytest.approx(below)


def test_right_side_rows_show_their_fronts() -> None:
    piece = lay_first(make_blanket(31, 20))
    rows = list(place_stitches(piece, View(piece.box, 40)))
    assert {stitch.is_front for stitch in rows[1]} == {True}
    assert {stitch.is_front for stitch in rows[2]} == {False}


def test_raised_posts_are_painted_last() -> None:
    piece = lay_first(make_blanket(31, 20))
    row = list(place_stitches(piece, View(piece.box, 40)))[1]
    kinds = [stitch.kind for stitch in row]
    assert kinds == sorted(kinds)  # BPdc before FPdc on the right side


def test_ribs_stand_out_on_the_right_side_in_every_row() -> None:
    raised, back = find_shape("FPdc", True), find_shape("BPdc", True)
    assert raised == find_shape("BPdc", False)
    assert back == find_shape("FPdc", False)
    assert raised != back


@pytest.mark.parametrize(
    "kind", ["ch", "sl st", "sc", "hdc", "dc", "tr", "dtr", "trtr", "sc2tog", "dc5tog", "bobble", "puff", "FPtr", "odd"]
)
@pytest.mark.parametrize("is_front", [True, False])
def test_every_kind_can_be_painted(kind: str, is_front: bool) -> None:
    stamp = paint_stamp(find_shape(kind, is_front), 20, 24, 0.3)
    assert stamp.cover.getbbox() is not None
    low, high = stamp.tones.getextrema()
    assert high - low > 80  # light and shadow


@pytest.mark.parametrize("shade", [(0, 0, 0), (255, 255, 255), (200, 30, 40)])
def test_black_and_white_yarn_still_show_light_and_shadow(shade: tuple[int, int, int]) -> None:
    for channel in tone_table(shade):
        assert channel == sorted(channel)
    assert sum(channel[200] - channel[30] for channel in tone_table(shade)) > 90


def test_colours_are_where_they_were_worked(ink: Ink) -> None:
    piece = lay_first(make_blanket(261, 260))  # stitches of less than two fifths of a millimetre, were it shown whole
    image = paint_fabric(piece, PALETTE, ink, 100, 100)
    view, is_whole = choose_view(piece, 100, 100)
    assert not is_whole
    for band in piece.bands[60:140:5]:
        for run in band.runs():
            x, y = view.at(band.top.point((run.start + run.end) / 2))
            if not (15 < x < image.width - 15 and 15 < y < image.height - 15):
                continue
            patch = image.crop((round(x) - 12, round(y) - 12, round(x) + 12, round(y) + 12)).resize((1, 1))
            seen = patch.getpixel((0, 0))
            shades = {tint.letter: tint.shade for tint in PALETTE.values() if tint.letter != "D"}
            nearest = min(shades, key=lambda letter: _hue_distance(seen, shades[letter]))
            assert nearest == run.letter


def _hue_distance(seen: object, shade: str) -> float:
    """How far two shades are from one another, their lightness left out of account."""
    first = seen if isinstance(seen, tuple) else (0, 0, 0)
    second = tuple(int(shade[at : at + 2], 16) for at in (1, 3, 5))
    return sum(abs(a / sum(first) - b / sum(second)) for a, b in zip(first, second, strict=True))


def test_a_large_piece_is_cropped_where_its_colours_meet() -> None:
    piece = lay_first(make_blanket(363, 310))
    view, is_whole = choose_view(piece, 160, 200)
    assert not is_whole
    left, top, right, bottom = view.window
    assert piece.box[0] <= left
    assert right <= piece.box[2] + 1e-6
    assert piece.box[1] <= top
    assert bottom <= piece.box[3] + 1e-6
    seen = {
        run.letter
        for band in piece.bands
        if top < band.top.point(0)[1] < bottom
        for run in band.runs()
        if left < band.top.point(run.end)[0] and band.top.point(run.start)[0] < right
    }
    assert seen == {"A", "B", "C"}


def test_a_piece_whose_stitches_can_be_told_is_shown_whole() -> None:
    """A cover shows what is made: a back of 100 stitches is a back, not a strip of its middle."""
    piece = lay_first(make_blanket(100, 90))
    view, is_whole = choose_view(piece, 160, 200)
    assert is_whole
    left, top, right, bottom = view.window
    assert left < piece.box[0] < piece.box[2] < right
    assert top < piece.box[1] < piece.box[3] < bottom


@pytest.mark.parametrize("part", [make_hat(), make_circle(), make_square(), make_tube()])
def test_pieces_in_rounds_are_shown_whole(part: WorkedPart, ink: Ink) -> None:
    piece = lay_first(part)
    view, is_whole = choose_view(piece, 160, 200)
    left, top, right, bottom = view.window
    assert is_whole
    assert left < piece.box[0]
    assert top < piece.box[1]
    assert piece.box[2] < right
    assert piece.box[3] < bottom


def test_the_same_bytes_twice(ink: Ink) -> None:
    piece = lay_first(make_hat())
    assert piece.shape != CROWN
    first = draw_fabric(piece, "Hat", PALETTE, ink, 60, 75)
    second = draw_fabric(piece, "Hat", PALETTE, ink, 60, 75)
    assert first == second
    assert first.file_name == "fabric.jpg"
    image = Image.open(BytesIO(first.png))
    assert (image.format, image.mode) == ("JPEG", "RGB")


def test_the_picture_holds_nothing_but_itself() -> None:
    image = Image.open(BytesIO(encode_jpeg(Image.new("RGB", (8, 8), "red"))))
    assert not image.getexif()
