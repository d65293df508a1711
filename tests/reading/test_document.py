"""The body: rows, prose, parts, and the place of each."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.model.pattern import Prose, RowLine
from booklet.reading.document import read_document
from booklet.reading.labels import find_inner_labels, find_label, is_flow
from booklet.source import SourceFile


def blocks(text: str) -> list[tuple[str, str]]:
    """(kind, text) of every block of a body."""
    document, _ = read_document(SourceFile("pattern.md", text))
    return [("row" if isinstance(b, RowLine) else "prose", b.text) for part in document.parts for b in part.blocks]


def rows(text: str) -> list[str]:
    return [words for kind, words in blocks(text) if kind == "row"]


LABELS = [
    "Row 1 (RS):",
    "Rnd 3:",
    "Round 3.",
    "Rows 5–12:",
    "Rows 6 and 8:",
    "Rows 18, 20, 22:",
    "Row 2 and all even rows:",
    "Row 5 and every WS row:",
    "Rows 9-16 (8 rows):",
    "R7:",
    "R9-R13:",
    "R9-13:",
    "5-9:",
    "7:",
    "Next row:",
    "Next Rnd (dec):",
    "Next 3 rows:",
    "Last row:",
    "Final round:",
    "Foundation:",
    "Foundation row (WS):",
    "Set-up row:",
    "Inc Row:",
    "Dec Row:",
    "Edging rnd 1:",
    "Picot rnd:",
    "3rd row:",
    "1st rnd:",
    "3rd to 7th rnds incl:",
    "1st row.—",
    "4th.—",
    "Row 1 -",
    "Rnd 7 –",
    "Row A:",
    "Rows A and B:",
    "**Row 1 (RS):**",
    "**Row 1 (RS)**:",
    "**Rnd 2**",
    "__Rnd 3:__",
    "Size L only – Rnd 7:",
    "Rnds 2 through 9:",
    "4 row:",
    "Rnd 4",
    "Rd 4:",
    "R1)",
    "Rnd 2 =",
]


@pytest.mark.parametrize("label", LABELS)
@pytest.mark.parametrize("lead", ["", "- ", "* ", "  "])
def test_a_line_with_a_label_is_a_row(label: str, lead: str) -> None:
    text = f"{label} 6 sc in ring. (6)"
    assert rows(lead + text) == [text]


@pytest.mark.parametrize(
    "line",
    [
        "Rounds 3 and 4 are worked in the back loops.",
        "Row 1 is the right side.",
        "Rows are counted from below.",
        "Rows 1 and 2 form the pattern.",
        "Rows 3 and 4 in the border are the same.",
        "Repeat this row:",
        "Notes on the last round: keep it loose.",
        "12:30 is the time to stop.",
        "1. Sc across is how it starts.",
        "2 balls: A and B",
        "Note: Row 5 is tricky.",
        "See Row 3 for details.",
        "Row by row: a guide.",
        "Ch 3 counts as dc throughout.",
        "Ch 1 at the beginning of a row does not count.",
        "With A you get the best contrast.",
        "> Row 9: not to be read.",
        "| Row 1: | in a table |",
    ],
)
def test_prose_about_rows_stays_prose(line: str) -> None:
    assert rows(line) == []


@pytest.mark.parametrize(
    "line",
    [
        "Ch 34.",
        "Ch {panel}, turn.",
        "Chain 46, turn.",
        "Loosely ch 88.",
        "Ch 3 (counts as dc), 11 dc in ring.",
        "Ch a multiple of 5 plus 3.",
        "With A, ch {panel}; with B, ch {panel + 2}.",
        "With MC and larger hook, ch 61.",
        "Using 4 mm hook, ch 25.",
        "Rep Rows 2 and 3.",
        "Repeat Rows 2-5 six more times.",
        "Rep last 2 rows 6 more times.",
        "Work Rows 1 and 2 alternately to 30 rows.",
        "Work even for 5 rows.",
        "Fasten off.",
        "Change to B.",
        "Join B with sc in any ch-2 sp.",
        "Do not turn.",
    ],
)
def test_an_instruction_without_a_label_belongs_to_the_flow_of_a_piece(line: str) -> None:
    assert is_flow(line)
    assert rows(f"## Body\n\n{line}\n") == [line]
    assert rows(f"## Notes\n\n{line}\n") == []
    assert rows(f"## Body\n\n- A list of things to know.\n- {line}\n") == []


def test_a_row_runs_on_to_the_next_label_or_blank_line() -> None:
    text = (
        "Row 1: Sc in 2nd ch and in\neach ch across. (20 sc)\nRow 2: Ch 1, turn,\n  sc across. (20 sc)\n\nWell done.\n"
    )
    assert blocks(text) == [
        ("row", "Row 1: Sc in 2nd ch and in\neach ch across. (20 sc)"),
        ("row", "Row 2: Ch 1, turn,\n  sc across. (20 sc)"),
        ("prose", "Well done."),
    ]


def test_a_row_named_at_the_start_of_a_wrapped_line_is_no_label() -> None:
    assert len(rows("Row 4: Sc across; work as for\nRow 2. Sc in last st.")) == 1
    assert len(rows("R1: 6 sc in ring\nR2: inc around\nR3: sc around")) == 3


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        (
            "Rnd 2: Inc around. (12) Rnd 3: (Sc, inc) 6 times. (18)",
            ["Rnd 2: Inc around. (12)", "Rnd 3: (Sc, inc) 6 times. (18)"],
        ),
        ("Ch 24. Row 1: Sc across. (23 sc)", ["Ch 24.", "Row 1: Sc across. (23 sc)"]),
        ("Rnd 6: same as rnd 3Rnd 7 - same as rnd 5", ["Rnd 6: same as rnd 3", "Rnd 7 - same as rnd 5"]),
        ("Row 5: As Row 3. Row 6 is next.", ["Row 5: As Row 3. Row 6 is next."]),
        ("Row 2: Sc across (see Row 1: it is alike).", ["Row 2: Sc across (see Row 1: it is alike)."]),
    ],
)
def test_two_labels_on_a_line_are_two_rows(text: str, parts: list[str]) -> None:
    assert rows(text) == parts


def test_a_caption_before_a_label_stays_prose() -> None:
    text = "Photo: the corner after Rnd 2. Rnd 3: Sc around."
    assert blocks(text) == [("prose", "Photo: the corner after Rnd 2."), ("row", "Rnd 3: Sc around.")]


def test_fences_comments_and_asides_are_not_read() -> None:
    text = (
        "```\nRow 1: fenced\n```\n\n<!-- Row 2: hidden -->\n<!--\nRow 3: hidden\n-->\n> Row 4: aside\n\n"
        "Row 5: Sc across. <!-- check -->\n"
    )
    assert rows(text) == ["Row 5: Sc across."]
    assert not any("hidden" in words for _, words in blocks(text))


def test_headings_make_parts() -> None:
    text = "Intro.\n\n## Sleeve (make 2)\nRow 1: Sc.\n### Leaf ×6\nRow 1: Sc.\n\nFlower - make six\n---\nRnd 1: Sc.\n"
    document, findings = read_document(SourceFile("pattern.md", text))
    assert findings == ()
    assert [(p.title, p.level, p.make) for p in document.parts] == [
        ("", 2, 1),
        ("Sleeve", 2, 2),
        ("Leaf", 3, 6),
        ("Flower", 2, 6),
    ]
    assert document.parts[1].span.text == "Sleeve (make 2)"


def test_error_a_number_to_make_holds_for_all_sizes() -> None:
    _, (finding,) = read_document(SourceFile("pattern.md", "## Square (make 20 (24, 30))\nRow 1: Sc.\n"))
    assert (finding.code, finding.span.line) == ("wrong-value", 1)


def test_pieces_named_with_a_word_of_the_notes_are_pieces() -> None:
    assert rows("## Colour block\n\nCh 34.\n") == ["Ch 34."]
    assert rows("## Yarn and hooks\n\nCh 34.\n") == []


def test_special_stitches_are_taken_out_of_their_section() -> None:
    text = (
        "## Special stitches\n\nRead these first.\n\n**Shell:** 5 dc in next st.\n"
        "**V-stitch (V-st)**: (dc, ch 1, dc)\nin next st.\n\n"
        "- Puff stitch (puff): Yo, insert hook.\n\nNote: keep it loose.\n"
    )
    document, _ = read_document(SourceFile("pattern.md", text))
    assert [(s.name, s.abbreviation, s.text) for s in document.special_stitches] == [
        ("Shell", "", "5 dc in next st."),
        ("V-stitch", "V-st", "(dc, ch 1, dc) in next st."),
        ("Puff stitch", "puff", "Yo, insert hook."),
    ]
    assert [block.text for block in document.parts[0].blocks] == ["Read these first.", "Note: keep it loose."]
    assert document.special_stitches[0].span.text == "**Shell:** 5 dc in next st."


def test_error_a_front_matter_left_open_ends_at_the_first_row() -> None:
    document, (finding,) = read_document(SourceFile("pattern.md", "---\ntitle: Harbour\nRow 1: Sc across.\n"))
    assert (finding.code, finding.span.line) == ("yaml-syntax", 1)
    assert [row.text for part in document.parts for row in part.rows] == ["Row 1: Sc across."]


PIECES = [
    "Row 1: sc",
    "Rnd 3. Sc",
    "ch 3",
    "Ch 20.",
    "## Part (make 2)",
    "# X",
    "- ",
    "> ",
    "```",
    "<!--",
    "-->",
    "(12)",
    "**",
    "---",
    "===",
    "prose text.",
    "",
    "\t",
    "Rep Rows 2 and 3",
    "| a |",
    "Special stitches",
    "Shell (sh): x",
]


@given(st.lists(st.sampled_from(PIECES), max_size=14), st.sampled_from(["\n", " ", "\n\n"]))
def test_every_block_stands_where_it_says_and_in_order(pieces: list[str], joint: str) -> None:
    text = joint.join(pieces)
    document, _ = read_document(SourceFile("pattern.md", text))
    last = 0
    for part in document.parts:
        for block in part.blocks:
            assert last <= block.span.start < block.span.end <= len(text)
            last = block.span.end
            if isinstance(block, RowLine):
                assert block.text == block.span.text == block.text.strip()
            else:
                assert isinstance(block, Prose)


@given(st.text(max_size=200))
def test_no_text_raises(text: str) -> None:
    read_document(SourceFile("pattern.md", text))
    find_label(text)
    find_inner_labels(text, 0)
