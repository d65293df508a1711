"""One word of a row misspelt: the row may work out all the same, but the misprint must not reach the booklet."""

import random
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from booklet.pipeline import prove_text

HAT = Path(__file__).parents[2] / "content" / "lantern-hat" / "pattern.md"
FLAT = """---
title: Flat
gauge: 16 sts and 18 rows = 10 cm
yarn: {weight: 4 Medium, fibre: wool, ball: 100 g = 200 m}
hook: 5 mm
---

Ch 24.

Row 1: Sc in 2nd ch from hook and in each ch across. (23 sc)

Row 2: Ch 1 (does not count as a st), turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * across. \
(12 sc, 11 ch-1 sps)

Row 3: Ch 1 (does not count as a st), turn, sc in each st and each ch-1 sp across. (23 sc)

Row 4: Ch 3 (counts as dc), turn, sk first st, dc in next st, *2 dc in next st, dc in next 2 sts; \
rep from * 6 more times. \
(30 dc)

Row 5: Ch 1 (does not count as a st), turn, (sc2tog, sc in next 3 sts) 6 times. (24 sts)
"""
ROW = re.compile(r"^(?:Row|Rnd|Next|Rep)\b")
WORD = re.compile(
    r"\b(?:sc|hdc|dc|FPhdc|BPhdc|ch|sk|next|sts?|each|turn|times|rep|in|across|around|first|last|sp|join|counts|sl|rnd)\b"
)
SAMPLE = 60
SHARE = 0.9


class Slip(NamedTuple):
    """A text with one word misspelt, and the line on which it stands."""

    text: str
    line: int
    words: str


def list_slips(text: str) -> Iterator[Slip]:
    """Every trade word of every row with its last two letters swapped, or the last doubled in a short one."""
    start = 0
    for number, line in enumerate(text.split("\n"), 1):
        for match in WORD.finditer(line) if ROW.match(line) else ():
            word = match[0]
            slip = word[:-2] + word[-1] + word[-2] if len(word) > 2 else word + word[-1]
            place = start + match.start()
            around = line[: match.start()][-15:], line[match.end() :][:15]
            yield Slip(text[:place] + slip + text[place + len(word) :], number, f"[{slip}]".join(around))
        start += len(line) + 1


def test_the_flat_piece_is_sound_as_it_stands() -> None:
    assert prove_text(FLAT, "flat.md").findings == ()


@pytest.mark.slow
def test_a_misspelt_word_is_noticed_at_its_line() -> None:
    slips = [slip for text in (FLAT, HAT.read_text(encoding="utf-8")) for slip in list_slips(text)]
    sample = random.Random(23).sample(slips, SAMPLE)  # noqa: S311 (a fixed choice, not a secret)
    missed = [slip for slip in sample if not is_noticed(slip)]
    assert 1 - len(missed) / len(sample) >= SHARE, [f"{slip.line}: …{slip.words}…" for slip in missed]


def is_noticed(slip: Slip) -> bool:
    findings = prove_text(slip.text, "slip.md").findings
    spans = [span for finding in findings for span in (finding.span, *(note.span for note in finding.notes))]
    return any(span.line == slip.line for span in spans)
