"""Plain text: nothing that a voice garbles, every row there in order, and its numbers those of the printed row."""

import re
from collections import Counter

import pytest

from booklet.editions.size_rows import SizeRows
from booklet.editions.text import write_text
from booklet.pages.spoken_rows import speak_row
from booklet.pages.spoken_text import SQUARES, Speech, make_speech
from booklet.pipeline import prove_text
from booklet.rows.lexing import read_tokens
from booklet.rows.print import print_row
from booklet.rows.tokens import Numbers
from booklet.terms import load_table

from .conftest import DEMOS, SOUND, commission_once, list_sized, name_case, prove_once

SOURCES = [source for source in (*DEMOS, *SOUND) if (proof := prove_once(source)).worked is not None]
ONE = [(source, 0) for source in SOURCES if len(prove_once(source).pattern.size_names) < 2]  # type: ignore[union-attr]
CASES = [*ONE, *list_sized(SOURCES)]

MARKS = re.compile(r"[(){}\[\]*=×½¼¾⅓⅔⅛⅜⅝⅞″′−+<>|\\_~^#•☐“”‘’–—…·]")
SHORT = re.compile(
    r"\b(?:sc|hdc|htr|dc|tr|dtr|sts?|chs?|sps?|sk|rep|rnds?|FP\w+|BP\w+|tch|beg|rem|\w+2tog|cm|mm|yds?|oz)\b"
)


def write(source: str) -> dict[str, str]:
    files, findings = write_text(commission_once(source))
    assert findings == []
    return {name: data.decode("utf-8") for name, data in files.items()}


def leave_out_key(text: str) -> str:
    """The text without the list of short forms, which is there to be looked up in."""
    return re.sub(r"^Short forms that .*?(?=\n\n)", "", text, flags=re.DOTALL | re.MULTILINE)


@pytest.mark.parametrize("source", SOURCES, ids=name_case)
def test_nothing_is_left_that_a_voice_garbles(source: str) -> None:
    for name, text in write(source).items():
        body = leave_out_key(text)
        assert sorted(set(MARKS.findall(body))) == [], name
        assert [(found[0], line) for line in body.split("\n") if (found := SHORT.search(line))] == [], name
        assert not re.search(r"  |,,| [,.;:]|\.\.", body), name


@pytest.mark.parametrize(("source", "size"), CASES, ids=name_case)
def test_a_spoken_row_has_the_stitches_and_numbers_of_the_printed_one(source: str, size: int) -> None:
    """Counted by the reader of rows in both; what notation says by a bracket has no number of its own."""
    proof = prove_once(source)
    assert proof.parsed is not None
    assert proof.pattern is not None
    sized = len(proof.pattern.size_names) > 1
    rows = SizeRows(proof.parsed, size if sized else None, proof.pattern.terms)
    speech = make_speech(proof.pattern)
    told = 0
    for line in (line for part in proof.pattern.parts for line in part.rows):
        for row in rows.find_trees(line) or ():
            printed = print_row(row, speech.terms, written_in=speech.terms)
            spoken = speak_row(row, speech, speech.terms)
            label = re.sub(r" \(\d+ r\w+\)", "", printed.label)  # "R4-R18 (15 rnds)"
            text = f"{label} {printed.body} {printed.count}"
            names = list_names(text, speech)
            assert find_names(spoken, names) == names, spoken
            assert count_numbers(spoken) == count_numbers(text), spoken
            told += 1
    assert told or not sized


def list_names(text: str, speech: Speech) -> Counter[str]:
    """The stitches that notation names, in full; chains are left out, as "ch-2 sp" is one word."""
    text = re.sub(r"\((?:counts?|does not|do not|skipped|missed)[^()]*\)", "", text)
    tokens, _ = read_tokens(text, speech.vocabulary, Numbers({}))
    us = [str(token.value) for token in tokens if token.kind == "st" and token.value != "ch"]
    return Counter(speech.name_stitch(name) for name in us if name.lower() not in SQUARES)


def find_names(text: str, names: Counter[str]) -> Counter[str]:
    """The same names in a spoken row, a longer one before those that are in it."""
    text = re.sub(
        r"which (?:counts|does not)[^.;]*|(?:skipped|missed) chains? (?:do not )?count[^.;]*", "", text.lower()
    )
    found: Counter[str] = Counter()
    for name in sorted(names, key=len, reverse=True):
        pattern = re.compile(re.escape(name.lower()).replace(r"cluster\ of", r"clusters?\ of"))
        found[name] = len(pattern.findall(text))
        text = pattern.sub("", text)
    return found


def count_numbers(text: str) -> Counter[str]:
    """Numbers above 2: a 1 goes without saying, and 2 may be "twice"."""
    return Counter(number for number in re.findall(r"\d+", text) if int(number) > 2)


def test_every_row_of_the_booklet_is_there_in_order() -> None:
    for source in DEMOS:
        proof = prove_once(source)
        assert proof.parsed is not None
        text = next(iter(write(source).values()))
        at = text.index(". Instructions\n\n")
        for row in (row for part in proof.parsed.parts for row in part.rows):
            words = re.match(r"(?:Row|Rnd|Next rnd)[^(:]*", row.label.text)
            if words:
                label = words[0].replace("Rnd", "Round").replace("rnd", "round").strip()
                label = re.sub(r"(?<=\d)[-–](?=\d)", " to ", label)
                found = re.compile(rf"^{re.escape(label)}[.,]", re.MULTILINE).search(text, at)
                assert found, label
                at = found.end()


def speak(row: str, front: str = "") -> str:
    proof = prove_text(f"---\ntitle: Case\n{front}---\n\nCh 20.\n\n{row}\n", "case.md")
    assert proof.parsed is not None
    assert proof.pattern is not None
    spoken = proof.parsed.parts[0].rows[-1]
    return speak_row(spoken, make_speech(proof.pattern), proof.pattern.terms)


@pytest.mark.parametrize(
    ("row", "spoken"),
    [
        (
            "Row 1 (RS): Ch 3 (counts as dc), turn, (dc in next st, ch 1) 4 times, sk next st, dc in last st. (6 dc)",
            (
                "Row 1, right side. Chain 3, which counts as 1 double crochet. Turn. Work these steps 4 times: double "
                "crochet in next stitch; then chain 1; that ends the repeat. Skip next stitch. Double crochet in last "
                "stitch. You have 6 double crochets."
            ),
        ),
        (
            "Rnd 2: *(2 dc, ch 2, 2 dc) in next ch-2 sp, sc in next 3 sts; rep from * 3 more times, join. (16 dc)",
            (
                "Round 2. Work these steps once, then 3 more times: in next chain-2 space, work 2 double crochets, "
                "then chain 2, then 2 double crochets, all in the same place; then single crochet in next 3 stitches; "
                "that ends the repeat. Join. You have 16 double crochets."
            ),
        ),
        (
            "Rows 3-5: Ch 1, turn, sc in each st to last 2 sts, sc2tog. (19 sc)",
            (
                "Rows 3 to 5. Chain 1. Turn. Single crochet in each stitch to last 2 stitches. Single crochet 2 "
                "together. You have 19 single crochets."
            ),
        ),
    ],
)
def test_repeats_and_groups_are_told_in_words(row: str, spoken: str) -> None:
    assert speak(row) == spoken


def test_uk_terms_are_spoken_as_such() -> None:
    assert speak("Row 1: 1 ch, 1 dc in each ch to end. (20 dc)", "terms: UK\n").endswith(
        "Double crochet in each chain across. You have 20 double crochets."
    )


@pytest.mark.parametrize(
    ("text", "spoken"),
    [
        ("12¼ in (31 cm) wide", "12 and a quarter inches or 31 centimetres wide"),
        ("½ in of yarn, 1 m or 2 m", "half an inch of yarn, 1 metre or 2 metres"),
        ("70.5 × 71 cm", "70.5 by 71 centimetres"),
        ("100 g = 200 m (219 yd) a ball", "100 grams equal 200 metres or 219 yards a ball"),
        ("8 sc in ring, 3 in next st", "8 single crochets in ring, 3 in next stitch"),
        ("−0.5 cm or +1 cm", "minus 0.5 centimetres or plus 1 centimetre"),
        ("rows 5–12, 10 %", "rows 5 to 12, 10 percent"),
        ("A single thing, an even number of ch", "A single thing, an even number of chain"),
    ],
)
def test_measures_and_marks_become_words(text: str, spoken: str) -> None:
    proof = prove_text("---\ntitle: Case\n---\nRow 1: Ch 3.\n", "case.md")
    assert proof.pattern is not None
    assert make_speech(proof.pattern).speak(text) == spoken


def test_every_stitch_of_the_trade_has_a_name_to_be_spoken() -> None:
    proof = prove_text("---\ntitle: Case\n---\nRow 1: Ch 3.\n", "case.md")
    assert proof.pattern is not None
    speech = make_speech(proof.pattern)
    for us, entry in load_table("stitches").items():
        assert speech.name_stitch(us) == entry["us_name"]
