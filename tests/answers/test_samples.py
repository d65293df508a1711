"""The teaching sample: as small as can be, with everything in it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from booklet.answers.row_kinds import count_repeats, kinds_worked
from booklet.answers.samples import find_sample
from booklet.answers.supposing import Known, know
from booklet.answers.teaching import teach
from booklet.model.work import WorkedPattern
from booklet.pipeline import prove_text

LISTS = """---
title: Pocket Cloth
gauge: 13 sts and 15 rows = 10 cm in single crochet
yarn: {weight: 4 Medium, fibre: cotton, ball: 50 g = 85 m}
sizes: {Small: {width: 25 cm}, Large: {width: 35 cm}}
numbers:
  wide: {measure: width, multiple: 4 + 1}
  tall: [30, 42]
---
The cloth is {wide} stitches wide.

## Cloth

Foundation: Ch {wide + 1}. ({wide + 1} ch)

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. ({wide} sc)

Row 2: Ch 1, turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * across. ({wide} sts)

Row 3: Ch 1, turn, sc in first st, *sc in next ch-1 sp, sc in next st; rep from * across. ({wide} sc)

Rep Rows 2 and 3 until there are {tall + 1} rows.

Row 4 (size Large only): Ch 1, turn, sc in each st across. ({wide} sc)

Last row: Ch 1, turn, sc in each st across. ({wide} sc)
"""


def test_the_blanket_keeps_every_row_kind_in_16_stitches(blanket: Known) -> None:
    sample = find_sample(blanket)
    assert sample.widest == 16
    assert sample.kinds == sample.kinds_in_all
    assert sample.values == {"panel": 4, "band": 4}  # 2 would work each repeat but once, and no row "until"
    assert {shown.line for shown in sample.shown} == {
        row.span.line for part in blanket.worked.parts for row in part.rows[0]
    }


def test_every_repeat_is_worked_twice_at_least(blanket: Known) -> None:
    trial = find_sample(blanket).trial
    counts = count_repeats(trial.parsed, trial.worked, 0)
    assert min(counts) >= 2


def test_every_colour_and_its_changes_are_kept(blanket: Known) -> None:
    sample = find_sample(blanket)

    def list_blocks(worked: WorkedPattern) -> list[list[str]]:
        return [
            list(dict.fromkeys(stitch.colour for stitch in row.fabric.stitches if stitch.colour))
            for part in worked.parts
            for row in part.rows[0]
            if row.number == 1
        ]

    assert list_blocks(sample.trial.worked) == list_blocks(blanket.worked)


def test_its_source_is_proved_with_its_own_chain_counts_yarn_and_measures(blanket: Known, tmp_path: Path) -> None:
    lesson, known = teach(find_sample(blanket), tmp_path)
    assert known.proof.findings == ()
    assert (lesson.chain, lesson.stitches, lesson.rows) == (17, 16, 20)
    assert [round(measure.cm[0] or 0, 2) for measure in lesson.measures] == [11.43, 16.67]  # 16 / 1.4, 20 / 1.2
    assert [need.letter for need in lesson.yarn] == list("ABCD")
    assert all(0 < need.metres < 12 for need in lesson.yarn)
    assert known.pattern.slug == "four-fields-blanket-sample"
    assert not list(tmp_path.iterdir())  # nothing is written until it is asked for


def test_rows_keep_the_words_of_their_author(blanket: Known, tmp_path: Path) -> None:
    _, known = teach(find_sample(blanket), tmp_path)
    text = known.proof.source.text
    assert "{" not in text.split("---", 2)[2]
    assert "Foundation: With A, ch 4; with B, ch 4; with C, ch 4; with D, ch 5. (17 ch)" in text
    assert "Rep last row until there are 4 rows in the band. (16 sts)" in text
    assert "let the old one hang on the wrong side until the next row" in " ".join(text.split())


def test_the_hat_takes_its_smallest_size(hat: Known, tmp_path: Path) -> None:
    """Its larger sizes have more rounds of increases, but of the same kind."""
    sample = find_sample(hat)
    assert (sample.at, sample.kinds, sample.values["body"]) == (0, sample.kinds_in_all, 2)
    lesson, known = teach(sample, tmp_path)
    assert "Rnd 6" not in known.proof.source.text
    assert lesson.chain == 0
    assert known.proof.findings == ()


def test_rows_for_some_sizes_are_printed_anew(prove: Callable[[str], Known], tmp_path: Path) -> None:
    known = prove(LISTS)
    lesson, taught = teach(find_sample(known), tmp_path)
    text = taught.proof.source.text
    assert "sizes" not in text.partition("## Cloth")[2]
    assert lesson.stitches == 9  # 5 would come out too, but a sample has at least 8
    assert f"The cloth is {lesson.stitches} stitches wide." in text
    assert lesson.rows < 12


TYPED = """---
title: Typed Scarf
gauge: 13 sts and 15 rows = 10 cm in single crochet
yarn: {weight: 4 Medium, fibre: cotton, ball: 50 g = 85 m}
counts as: {ch 1: no}
---
## Scarf

Row 1: Ch 42, sc in 2nd ch from hook, *ch 1, sk next ch, sc in next ch; rep from * across. (41 sts)

Row 2: Ch 1, turn, sc in first st, *sc in next ch-1 sp, sc in next st; rep from * across. (41 sc)

Row 3: Ch 1, turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * across. (21 sc, 20 ch-1 sps)

Rows 4-61: Rep Rows 2 and 3.
"""


def test_numbers_typed_into_the_rows_are_made_small_too(prove: Callable[[str], Known], tmp_path: Path) -> None:
    lesson, known = teach(find_sample(prove(TYPED)), tmp_path)
    assert (lesson.stitches, lesson.rows) == (9, 5)  # an odd number of 8 or more
    text = known.proof.source.text
    assert "Row 1: Ch 10, sc in 2nd ch from hook" in text
    assert "Rows 4-5: Rep Rows 2 and 3. (9 sts)" in text
    assert "rep from * across. (9 sts)" in text  # its own words, its own counts
    assert "41" not in text
    assert known.proof.findings == ()


def test_a_piece_whose_counts_decide_how_it_is_read_keeps_them(prove: Callable[[str], Known], tmp_path: Path) -> None:
    text = "---\ntitle: Strip\n---\nRow 1: Ch 23, dc in 4th ch from hook and in each ch across. (21 dc)\n\n"
    text += "Row 2: Ch 3, turn, dc in next st and in each st across. (21 dc)\n"
    lesson, known = teach(find_sample(prove(text)), tmp_path)
    assert lesson.stitches == 21
    assert "(21 dc)" in known.proof.source.text


@pytest.mark.parametrize("size", range(3))
def test_kinds_of_rows_are_the_same_in_all_sizes_of_the_blanket(blanket: Known, size: int) -> None:
    kinds = kinds_worked(blanket.parsed, blanket.worked, size)
    assert kinds == kinds_worked(blanket.parsed, blanket.worked, 0)


def test_the_source_reads_the_same_under_another_name(blanket: Known, tmp_path: Path) -> None:
    _, known = teach(find_sample(blanket), tmp_path)
    again = know(prove_text(known.proof.source.text, "other.md"))
    assert again is not None
    assert again.amounts.measures == known.amounts.measures
