"""An author's own pictures: refused where they cannot be used, and cleaned where they can."""

import struct
import zlib
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageFile

from booklet.drawings.photos import check_image, prepare_image
from booklet.model.pattern import Image as ImageLine

from .conftest import SPAN


def line(file: str, alt: str = "The blanket over a chair") -> ImageLine:
    return ImageLine(file, alt, "At home", SPAN)


def photograph(width: int, height: int) -> Image.Image:
    light = Image.radial_gradient("L").resize((width, height))
    return Image.merge("RGB", (light, light.transpose(Image.Transpose.FLIP_LEFT_RIGHT), light.point(lambda v: v // 2)))


def test_a_good_picture_says_nothing(tmp_path: Path) -> None:
    photograph(1600, 1300).save(tmp_path / "chair.jpg")
    assert check_image(line("chair.jpg"), tmp_path, 120, 150) == ()


@pytest.mark.parametrize(
    ("file", "content", "reason"),
    [
        ("none.jpg", None, "there is no such file"),
        ("text.png", b"no picture at all", "it is no JPEG, PNG or WebP file"),
        ("empty.jpg", b"", "it is no JPEG, PNG or WebP file"),
        ("drawing.svg", b"<svg xmlns='http://www.w3.org/2000/svg'/>", "it is no JPEG, PNG or WebP file"),
        ("folder", "folder", "it is a folder"),
        ("half.jpg", "half", "the file is damaged or incomplete"),
        ("half.png", "half", "the file is damaged or incomplete"),
    ],
)
def test_error_what_cannot_be_read(tmp_path: Path, file: str, content: bytes | str | None, reason: str) -> None:
    path = tmp_path / file
    if content == "folder":
        path.mkdir()
    elif content == "half":
        photograph(400, 400).save(path)
        path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])
    elif isinstance(content, bytes):
        path.write_bytes(content)
    (finding,) = check_image(line(file), tmp_path, 120, 150)
    assert finding.code == "picture-unreadable"
    assert finding.message == f"the picture “{file}” cannot be read"
    assert finding.label == reason


def test_error_broken_files_are_refused_whatever_others_have_set(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    photograph(400, 400).save(tmp_path / "half.jpg")
    data = (tmp_path / "half.jpg").read_bytes()
    (tmp_path / "half.jpg").write_bytes(data[: len(data) // 2])
    assert [f.code for f in check_image(line("half.jpg"), tmp_path, 50, 50)] == ["picture-unreadable"]
    assert ImageFile.LOAD_TRUNCATED_IMAGES


@pytest.mark.parametrize("side", [7_000, 12_000, 40_000])
def test_error_a_small_file_that_unpacks_to_a_huge_picture(tmp_path: Path, side: int) -> None:
    (tmp_path / "huge.png").write_bytes(_png_head(side))
    (finding,) = check_image(line("huge.png"), tmp_path, 120, 150)
    assert finding.code == "picture-too-large"
    assert finding.expected == "at most 40 million pixels"


def _png_head(side: int) -> bytes:
    """A PNG that says it is `side` pixels square and holds next to nothing."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", side, side, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0")) + chunk(b"IEND", b"")


def test_error_a_file_outside_the_folder(tmp_path: Path) -> None:
    inside = tmp_path / "pattern"
    inside.mkdir()
    photograph(900, 900).save(tmp_path / "else.jpg")
    (inside / "link.jpg").symlink_to(tmp_path / "else.jpg")
    for file in ("../else.jpg", "link.jpg", str(tmp_path / "else.jpg")):
        (finding,) = check_image(line(file), inside, 50, 50)
        assert finding.label == "it lies outside the pattern's folder"


def test_a_coarse_picture_is_warned_of(tmp_path: Path) -> None:
    photograph(640, 480).save(tmp_path / "small.jpg")
    picture, (finding,) = prepare_image(line("small.jpg"), tmp_path, "photo-1", 120, 150)
    assert picture is not None
    assert finding.severity.value == "warning"
    # 640 px on 120 mm = 4.72 in
    assert finding.message == "the picture “small.jpg” prints at 135 dots to the inch"
    assert finding.expected == "200 dots to the inch or more, that is 945 pixels across"


def test_what_the_camera_wrote_is_left_out_and_the_picture_turned_upright(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # turned a quarter
    exif[0x8825] = {1: "N", 2: (51.0, 30.0, 0.0)}  # where it was taken
    photograph(1200, 900).save(tmp_path / "turned.jpg", exif=exif, comment="by hand")
    picture, findings = prepare_image(line("turned.jpg"), tmp_path, "cover", 90, 200)
    assert findings == ()
    assert picture is not None
    image = Image.open(BytesIO(picture.png))
    assert image.width < image.height
    assert not image.getexif()
    assert "comment" not in image.info
    assert picture.width_mm == pytest.approx(90)
    assert picture.height_mm == pytest.approx(120)
    assert picture.media_type == "image/jpeg"


def test_a_picture_is_no_finer_than_print_needs(tmp_path: Path) -> None:
    photograph(3000, 3000).save(tmp_path / "fine.jpg")
    picture, _ = prepare_image(line("fine.jpg"), tmp_path, "photo-1", 50, 50)
    assert picture is not None
    assert Image.open(BytesIO(picture.png)).width == 591  # 50 mm at 300 to the inch


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_every_kind_of_png_becomes_grey_or_colour(tmp_path: Path, mode: str) -> None:
    Image.new(mode, (600, 600)).save(tmp_path / "kind.png")
    picture, findings = prepare_image(line("kind.png"), tmp_path, "photo-1", 50, 50)
    assert findings == ()
    assert picture is not None
    assert Image.open(BytesIO(picture.png)).mode in ("L", "RGB")


def test_what_is_clear_becomes_paper_white(tmp_path: Path) -> None:
    Image.new("RGBA", (600, 600), (10, 20, 30, 0)).save(tmp_path / "clear.png")
    picture, _ = prepare_image(line("clear.png"), tmp_path, "photo-1", 50, 50)
    assert picture is not None
    assert Image.open(BytesIO(picture.png)).convert("RGB").getpixel((5, 5)) == (255, 255, 255)


def test_a_picture_without_words_has_some(tmp_path: Path) -> None:
    photograph(900, 900).save(tmp_path / "chair.jpg")
    picture, _ = prepare_image(ImageLine("chair.jpg", "", "", SPAN), tmp_path, "photo-1", 50, 50)
    assert picture is not None
    assert picture.alt == "Picture of the finished piece"
