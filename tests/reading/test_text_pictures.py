"""Pictures written into the text: set apart where they stand, checked as those of the front matter are."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from booklet.findings import Finding
from booklet.model.pattern import Image, Pattern, Prose, RowLine
from booklet.reading.document import read_document
from booklet.reading.text_pictures import list_text_images
from booklet.source import SourceFile

from .conftest import Read

FILES = ("brim.jpg", "fold.jpg", "shell.png", "my brim (1).jpg")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name in FILES:
        (tmp_path / name).write_bytes(b"")  # reading asks only whether it is there
    return tmp_path


def list_blocks(pattern: Pattern) -> list[str | tuple[str, ...]]:
    """Words as they stand, and the files of pictures that stand side by side."""
    shown: list[str | tuple[str, ...]] = []
    for part in pattern.parts:
        for block in part.blocks:
            images = block.images if isinstance(block, Prose) else ()
            shown.append(tuple(image.file for image in images) if images else block.text)
    return shown


def list_told(findings: tuple[Finding, ...], *codes: str) -> list[tuple[str, str]]:
    return [(finding.code, finding.span.text) for finding in findings if finding.code in codes]


def test_a_picture_below_a_row_is_no_part_of_the_row(read: Read, folder: Path) -> None:
    body = 'Row 1: Sc across. (10 sc)\n![One row](brim.jpg "Row 1")\nRow 2: Ch 1, turn, sc across. (10 sc)\n'
    pattern, _ = read("", body=body)
    assert list_blocks(pattern) == [
        "Row 1: Sc across. (10 sc)",
        ("brim.jpg",),
        "Row 2: Ch 1, turn, sc across. (10 sc)",
    ]
    (image,) = list_text_images(pattern)
    assert (image.alt, image.caption, image.name) == ("One row", "Row 1", "step-1")


def test_a_picture_at_the_end_of_a_row_stands_behind_it(read: Read, folder: Path) -> None:
    pattern, findings = read("", body="Row 1: Sc across. (10 sc) ![One row](brim.jpg)\n")
    assert list_blocks(pattern) == ["Row 1: Sc across. (10 sc)", ("brim.jpg",)]
    row = pattern.parts[0].rows[0]
    assert row.text == row.span.text
    assert list_told(findings, "picture-in-text", "missing-picture", "missing-alt") == []


def test_a_picture_in_a_paragraph_stands_behind_it(read: Read, folder: Path) -> None:
    body = "## Notes\n\nFold the brim ![folded](brim.jpg) up\nand sew it.\n\nThen block.\n"
    pattern, _ = read("", body=body)
    first, pictures, last = list_blocks(pattern)
    assert " ".join(str(first).split()) == "Fold the brim up and sew it."
    assert (pictures, last) == (("brim.jpg",), "Then block.")


def test_pictures_of_one_paragraph_stand_side_by_side(read: Read, folder: Path) -> None:
    body = "## Notes\n\n![a](brim.jpg) ![b](fold.jpg)\n![c](shell.png)\n\n![d](brim.jpg)\n"
    pattern, _ = read("", body=body)
    assert list_blocks(pattern) == [("brim.jpg", "fold.jpg", "shell.png"), ("brim.jpg",)]
    assert [image.beside for image in list_text_images(pattern)] == [3, 3, 3, 1]
    assert [image.name for image in list_text_images(pattern)] == ["step-1", "step-2", "step-3", "step-1"]


def test_a_numbered_list_goes_on_behind_a_picture(read: Read, folder: Path) -> None:
    items = "1. Fold it. ![fold](fold.jpg)\n1. Sew it.\n\n   ![sewn](brim.jpg)\n\n   With A.\n1. Block it.\n"
    pattern, _ = read("", body=f"## Finishing\n\n{items}")
    assert list_blocks(pattern) == [
        "1. Fold it.",
        ("fold.jpg",),
        "2. Sew it.",
        ("brim.jpg",),
        "With A.\n\n3. Block it.",
    ]


def test_a_picture_behind_a_stitch_belongs_to_it(read: Read, folder: Path) -> None:
    body = (
        "## Special stitches\n\n**Shell (sh):** 5 dc in next st. ![shell](shell.png)\n\n**Fan:** 7 dc in next st.\n\n"
        "![fan](fold.jpg)\n\n## Square\n\nRow 1: Sc across. (10 sc)\n"
    )
    pattern, _ = read("", body=body)
    assert [(s.name, s.text, [image.file for image in s.images]) for s in pattern.special_stitches] == [
        ("Shell", "5 dc in next st.", ["shell.png"]),
        ("Fan", "7 dc in next st.", ["fold.jpg"]),
    ]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("![a [tiny] brim](brim.jpg)", ("brim.jpg", "a [tiny] brim", "")),
        ("![a brim,\nfolded](brim.jpg)", ("brim.jpg", "a brim, folded", "")),
        ("![a](brim.jpg 'Brim')", ("brim.jpg", "a", "Brim")),
        ("![a](brim.jpg “Brim”)", ("brim.jpg", "a", "Brim")),
        ('![a]( <my brim (1).jpg> "Brim")', ("my brim (1).jpg", "a", "Brim")),
        ("![a](my brim (1).jpg)", ("my brim (1).jpg", "a", "")),
        ("![a](my%20brim%20(1).jpg)", ("my brim (1).jpg", "a", "")),
        ("[![a](brim.jpg)](https://example.org/shop)", ("brim.jpg", "a", "")),
        ("> ![a](brim.jpg)", ("brim.jpg", "a", "")),
        ("- ![a](brim.jpg)", ("brim.jpg", "a", "")),
        ('![](brim.jpg "Brim")', ("brim.jpg", "Brim", "Brim")),
    ],
)
def test_the_ways_in_which_pictures_are_written(
    read: Read, folder: Path, words: str, expected: tuple[str, str, str]
) -> None:
    pattern, findings = read("", body=f"## Notes\n\n{words}\n\n## Square\n\nRow 1: Sc across. (10 sc)\n")
    assert [(image.file, image.alt, image.caption) for image in list_text_images(pattern)] == [expected]
    assert [block for block in list_blocks(pattern) if isinstance(block, str)] == ["Row 1: Sc across. (10 sc)"]
    assert list_told(findings, "missing-picture", "picture-in-text") == []


@pytest.mark.parametrize("words", [r"\![a](brim.jpg)", "`![a](brim.jpg)`", "```\n![a](brim.jpg)\n```"])
def test_what_is_shown_as_text_is_no_picture(read: Read, folder: Path, words: str) -> None:
    pattern, findings = read("", body=f"## Notes\n\n{words}\n")
    assert list_text_images(pattern) == ()
    assert list_told(findings, "missing-picture", "picture-in-text") == []


def test_a_picture_in_a_comment_is_left_out(read: Read, folder: Path) -> None:
    pattern, findings = read("", body="## Notes\n\nRest. <!-- ![a](gone.jpg) -->\n\n<!--\n![b](gone.jpg)\n-->\n")
    assert list_blocks(pattern) == ["Rest."] or list_blocks(pattern) == ["Rest. "]
    assert list_told(findings, "missing-picture", "picture-in-text") == []


@pytest.mark.parametrize(
    ("file", "message", "fix"),
    [
        ("brum.jpg", '"brum.jpg" is not there', 'write "brim.jpg"'),
        ("../brim.jpg", '"../brim.jpg" lies outside the pattern\'s folder', ""),
        ("/etc/brim.jpg", '"/etc/brim.jpg" lies outside the pattern\'s folder', ""),
        ("notes.md", '"notes.md" is not there', ""),
        (
            "https://example.org/brim.jpg",
            '"https://example.org/brim.jpg" is an address, and nothing is fetched',
            "save the picture beside the pattern, and write the name of its file",
        ),
        (
            "//example.org/brim.jpg",
            '"//example.org/brim.jpg" is an address, and nothing is fetched',
            "save the picture beside the pattern, and write the name of its file",
        ),
        (
            "data:image/png;base64,AA",
            '"data:image/png;base64,AA" is an address, and nothing is fetched',
            "save the picture beside the pattern, and write the name of its file",
        ),
        ("", '"" is not the name of a file', ""),
    ],
)
def test_error_a_file_that_cannot_be_used(read: Read, folder: Path, file: str, message: str, fix: str) -> None:
    pattern, findings = read("", body=f"## Notes\n\nRest. ![a brim]({file})\n")
    (told,) = [finding for finding in findings if finding.code == "missing-picture"]
    assert (told.severity.value, told.message, told.fix) == ("error", message, fix)
    assert told.span.text == f"![a brim]({file})"
    assert list_text_images(pattern) == ()


def test_error_a_cover_that_is_an_address(read: Read) -> None:
    _, findings = read("cover: {file: https://example.org/brim.jpg, alt: a brim}\n")
    (told,) = [finding for finding in findings if finding.code == "missing-picture"]
    assert told.message.endswith("is an address, and nothing is fetched")


def test_a_picture_without_words_is_told(read: Read, folder: Path) -> None:
    pattern, findings = read("", body="## Notes\n\n![](brim.jpg)\n")
    (told,) = [finding for finding in findings if finding.code == "missing-alt"]
    assert told.fix == "write ![...](brim.jpg)"
    assert list_text_images(pattern)[0].alt == "A picture of this step"


@pytest.mark.parametrize(
    ("body", "place", "message"),
    [
        ("Row 1: ![a](brim.jpg) Sc across.\n", "![a](brim.jpg)", "a picture stands among the words of a row"),
        ("| ![a](brim.jpg) |\n|---|\n| 1 |\n", "![a](brim.jpg)", "a picture stands in a table"),
        (
            "## Notes\n\nSee ![a][brim].\n\n[brim]: brim.jpg\n",
            "![a][brim]",
            "a picture is written in a way that cannot be printed",
        ),
        (
            '## Notes\n\n<img src="brim.jpg">\n',
            '<img src="brim.jpg">',
            "a picture is written in a way that cannot be printed",
        ),
    ],
)
def test_a_picture_where_it_cannot_be_printed_is_told(
    read: Read, folder: Path, body: str, place: str, message: str
) -> None:
    pattern, findings = read("", body=body)
    (told,) = [finding for finding in findings if finding.code == "picture-in-text"]
    assert (told.severity.value, told.span.text, told.message) == ("warning", place, message)
    assert list_text_images(pattern) == ()


def test_a_picture_in_the_front_matter_is_told(read: Read, folder: Path) -> None:
    _, findings = read("summary: A hat. ![a](brim.jpg)\n")
    assert list_told(findings, "picture-in-text") == [("picture-in-text", "![a](brim.jpg)")]


PIECES = st.sampled_from(
    ["![a](brim.jpg)", "![](x.jpg)", "![", "](", "[", "]", ")", '"t"', " ", "\n", "\n\n", "1. ", "- ", "> ", "|", "`",
     "```", "<!--", "-->", "<img>", "Row 1: ", "Sc across.", "\\", "\t", "  ", "# "]
)  # fmt: skip


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(PIECES, max_size=30).map("".join))
def test_no_text_with_pictures_raises_or_loses_its_place(folder: Path, text: str) -> None:
    document, findings = read_document(SourceFile("pattern.md", text, folder))
    for finding in findings:
        assert 0 <= finding.span.start <= finding.span.end <= len(text)
    ends = [0]
    for part in document.parts:
        for block in part.blocks:
            assert isinstance(block, RowLine | Prose)
            assert 0 <= block.span.start <= block.span.end <= len(text)
            assert block.text.strip() or (isinstance(block, Prose) and block.images)
            ends.append(block.span.end)
            for image in block.images if isinstance(block, Prose) else ():
                assert isinstance(image, Image)
                assert image.file == "brim.jpg"


def test_many_open_brackets_take_no_time(folder: Path) -> None:
    for text in ("![" * 20_000, "![a](" * 10_000, "![a](b " * 8_000, "[![a](b" * 8_000, "```" + "`" * 20_000):
        read_document(SourceFile("pattern.md", text, folder))
