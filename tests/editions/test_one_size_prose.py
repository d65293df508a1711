"""Lists typed into prose by hand, in the booklet of one size."""

import pytest

from booklet.editions.one_size import take_one_size
from booklet.editions.size_rows import SizeRows
from booklet.pages.booklet_view import view_booklet
from booklet.pipeline import prove_text

from .conftest import DEMOS, commission_once

SOURCE = """---
title: Harbour Cowl
sizes: [Small, Medium, Large]
numbers:
  start: 40 (44, 48)
---

## Cowl

Ch {start}.

Row 1: Sc in 2nd ch from hook and in each ch across. ({start - 1} sc)

%s
"""


@pytest.mark.parametrize(
    ("prose", "medium"),
    [
        ("Block to 51.4 (56.2, 61) cm.", "Block to 56.2 cm."),
        ("Block to 51.4 (56, 61) cm.", "Block to 56 cm."),
        ("Fold 5 (6, 7) cm over.", "Fold 6 cm over."),
        ('Block to 20¼ (22, 24½)" across.', 'Block to 22" across.'),
        ("Block to 20 cm/8 in (22 cm/8¾ in, 24 cm/9½ in).", "Block to 22 cm/8¾ in."),
        ("Block to 38 cm (15 in).", "Block to 38 cm (15 in)."),
    ],
)
def test_a_list_gives_way_to_the_figure_of_the_size(prose: str, medium: str) -> None:
    proof = prove_text(SOURCE % prose, "cowl.md")
    assert proof.parsed is not None
    assert [finding.code for finding in proof.findings if "list" in finding.code] == []
    assert SizeRows(proof.parsed, 1, "US").take_prose(prose) == medium


def test_a_list_for_other_sizes_is_told_and_stays() -> None:
    prose = "Block to 51.4 (56.2, 61, 66.5) cm."
    proof = prove_text(SOURCE % prose, "cowl.md")
    (finding,) = [finding for finding in proof.findings if finding.code == "prose-list-differs"]
    assert finding.span.text == "51.4 (56.2, 61, 66.5)"
    assert proof.parsed is not None
    assert SizeRows(proof.parsed, 1, "US").take_prose(prose) == prose


@pytest.mark.parametrize(
    ("prose", "larger"),
    [
        ("After row 1: 16 (24) sts.", "After row 1: 24 sts."),
        (
            "At the end of Rnd 12: 40 (48) dc, and of Rnd 13: 44 (52) dc.",
            "At the end of Rnd 12: 48 dc, and of Rnd 13: 52 dc.",
        ),
        ("Row 7: the sides begin.", "Row 7: the sides begin."),
    ],
)
def test_the_number_of_a_row_before_a_colon_is_no_size_of_two(prose: str, larger: str) -> None:
    two = SOURCE.replace("[Small, Medium, Large]", "[Small, Large]").replace("40 (44, 48)", "40 (44)")
    proof = prove_text(two % prose, "cowl.md")
    assert proof.parsed is not None
    assert SizeRows(proof.parsed, 1, "US").take_prose(prose) == larger


def test_a_hat_of_one_size_is_for_whom_that_size_is() -> None:
    source = next(source for source in DEMOS if source.endswith("lantern-hat"))
    told = []
    for size in range(5):
        alone, _ = take_one_size(commission_once(source), size, draws=False)
        glance = next(s for s in view_booklet(alone.manuscript).sections if s.key == "glance")
        told.append(next(str(fact.value) for fact in glance.facts if fact.label == "What it is"))
    assert told == ["Hat, for a newborn", "Hat, for a baby", "Hat, for a child", "Hat, for an adult", "Hat"]
