"""One form for each node of a tree, in US and in UK terms, for all sizes or one."""

from collections.abc import Callable

import pytest

from booklet.model import tree
from booklet.model.parsed import ParsedPattern, Row
from booklet.rows.print import FORMS, PrintedRow, print_row
from booklet.rows.print_names import name_stitch
from booklet.rows.print_places import print_ordinal

Parse = Callable[..., Row]


def test_every_node_has_a_form() -> None:
    nodes = {node for node in vars(tree).values() if isinstance(node, type) and issubclass(node, tree.Node)}
    assert set(FORMS) == nodes - {tree.Node}


@pytest.mark.parametrize(
    ("words", "us", "uk"),
    [
        ("sc in each of next 4 sts", "Sc in next 4 sts", "Dc in next 4 sts"),
        ("2 sc in each of next 4 sts", "2 sc in each of next 4 sts", "2 dc in each of next 4 sts"),
        ("hdc 6", "6 hdc", "6 htr"),
        ("dc in each st to within last 3 sts", "Dc in each st to last 3 sts", "Tr in each st to last 3 sts"),
        ("skip 1 st, tr in skipped st", "Sk next st, tr in next skipped st", "Miss next st, dtr in next missed st"),
        ("dtr in 2nd ch from hook", "Dtr in 2nd ch from hook", "Ttr in 2nd ch from hook"),
        ("sl st in next st", "Sl st in next st", "Ss in next st"),
        ("sc2tog over next 2 sts", "Sc2tog over next 2 sts", "Dc2tog over next 2 sts"),
        ("FPdc around next dc", "FPdc around next dc", "FPtr around next tr"),
        ("3-dc cl in next ch-2 sp", "3-dc cl in next ch-2 sp", "3-tr cl in next ch-2 sp"),
        ("fsc 12", "12 fsc", "12 fdc"),
        ("sc in BLO of each st across", "Sc in BLO of each st across", "Dc in BLO of each st across"),
        (
            "(2 dc, ch 2, 2 dc) in next ch-2 sp",
            "(2 dc, ch 2, 2 dc) in next ch-2 sp",
            "(2 tr, ch 2, 2 tr) in next ch-2 sp",
        ),
        ("[sc, ch 1] x 6", "(Sc, ch 1) 6 times", "(Dc, ch 1) 6 times"),
        (
            "*sc in next st, ch 1; rep from * to last st",
            "*Sc in next st, ch 1; rep from * to last st",
            "*Dc in next st, ch 1; rep from * to last st",
        ),
        (
            "*sc in next st, ** ch 1, sk 1 st; rep from * across, ending last rep at **",
            "*Sc in next st, ** ch 1, sk next st; rep from * across, ending last rep at **",
            "*Dc in next st, ** ch 1, miss next st; rep from * across, ending last rep at **",
        ),
        ("ch 3 (counts as dc), turn", "Ch 3 (counts as dc), turn", "Ch 3 (counts as tr), turn"),
        (
            "ch 4 (counts as dc and ch 1), turn",
            "Ch 4 (counts as dc and ch 1), turn",
            "Ch 4 (counts as tr and ch 1), turn",
        ),
        (
            "dc in 4th ch from hook (skipped ch count as dc)",
            "Dc in 4th ch from hook (skipped ch count as dc)",
            "Tr in 4th ch from hook (missed ch count as tr)",
        ),
        (
            "with A, sc in next 3 sts; with B, sc in next st",
            "With A, sc in next 3 sts; with B, sc in next st",
            "With A, dc in next 3 sts; with B, dc in next st",
        ),
        (
            "in colors as established, sc across",
            "In colors as established, sc in each st across",
            "In colours as established, dc in each st across",
        ),
        ("inc 6 sc evenly across", "Inc 6 sc evenly across", "Inc 6 dc evenly across"),
        ("leave rem sts unworked", "Leave rem sts unworked", "Leave rem sts unworked"),
        ("rep Rows 2-5 twice more", "Rep Rows 2-5 twice more", "Rep Rows 2-5 twice more"),
        (
            "rep last 2 rows until there are 34 rows",
            "Rep last 2 rows until there are 34 rows",
            "Rep last 2 rows until there are 34 rows",
        ),
        (
            "rep Row 2 until piece measures 20 cm",
            "Rep Row 2 until piece measures 20 cm",
            "Rep Row 2 until piece measures 20 cm",
        ),
        (
            "rep Row 2 until piece measures 5½ in",
            "Rep Row 2 until piece measures 5½ in",
            "Rep Row 2 until piece measures 5½ in",
        ),
        (
            "sc across, working behind last dc",
            "Sc in each st across, working behind last dc",
            "Dc in each st across, working behind last tr",
        ),
    ],
)
def test_a_phrase_has_one_form_in_each_set_of_terms(parse: Parse, words: str, us: str, uk: str) -> None:
    row = parse(f"Row 2: {words}.")
    assert print_row(row).body == f"{us}."
    assert print_row(row, "UK").body == f"{uk}."


@pytest.mark.parametrize(
    ("line", "label"),
    [
        ("Row 1 (RS): Sc across.", "Row 1 (RS)"),
        ("Rows 5–8: Sc across.", "Rows 5-8"),
        ("Rows 2, 4, and 6: Sc across.", "Rows 2, 4 and 6"),
        ("3rd rnd: Sc around.", "Rnd 3"),
        ("R7: 6 sc", "R7"),
        ("Row 2 and all even rows: Sc across.", "Row 2 and all even rows"),
        ("Rows 5-12 (8 rows): Sc across.", "Rows 5-12 (8 rows)"),
        ("Rnd 6 (sizes Medium and Large only): Sc around.", "Rnd 6 (sizes Medium and Large only)"),
        ("Next row (WS): Sc across.", "Next row (WS)"),
        ("Foundation: Ch 12.", "Foundation"),
    ],
)
def test_labels(parse: Parse, line: str, label: str) -> None:
    assert print_row(parse(line)).label == label


def test_counts_stand_behind_the_row_and_the_end_of_the_work_behind_them(parse: Parse) -> None:
    row = parse("Rnd 9: *Sc in next st, ch 2; rep from * around. Fasten off. (12 sc, 12 ch-2 sps)")
    assert print_row(row, "UK") == PrintedRow(
        "Rnd 9", "*Dc in next st, ch 2; rep from * around.", "(12 dc, 12 ch-2 sps)", "Fasten off."
    )
    assert print_row(row).text == "Rnd 9: *Sc in next st, ch 2; rep from * around. (12 sc, 12 ch-2 sps) Fasten off."


def test_all_sizes_or_one(parse: Parse) -> None:
    row = parse("Row 2: Sc in next 1 (12, 14) sts, turn. (1, 12, 14 sc)", sizes="[S, M, L]")
    assert print_row(row).text == "Row 2: Sc in next 1 (12, 14) sts, turn. (1 (12, 14) sc)"
    assert print_row(row, size=0).text == "Row 2: Sc in next st, turn. (1 sc)"
    assert print_row(row, size=2).text == "Row 2: Sc in next 14 sts, turn. (14 sc)"


def test_a_stitch_of_the_patterns_own_keeps_its_name(parse_all: Callable[[str], ParsedPattern]) -> None:
    source = (
        "---\ntitle: Own\nspecial stitches:\n  dc spike: dc in st two rows below\n---\n\nCh 9.\n\n"
        "Row 1: Dc spike in next st, dc in each st across.\n"
    )
    (part,) = parse_all(source).parts
    row = part.rows[-1]
    assert print_row(row).body == "Dc spike in next st, dc in each st across."
    assert print_row(row, "UK").body == "Tr spike in next st, tr in each st across."


def test_a_row_in_uk_terms_is_printed_in_us_terms(parse: Parse) -> None:
    row = parse("Row 2: 3ch (counts as 1tr), miss first st, 1htr into next st, 2dc into each st to end.", terms="UK")
    assert (
        print_row(row, "US", written_in="UK").body
        == "Ch 3 (counts as dc), sk first st, hdc in next st, 2 sc in each st across."
    )


# US and UK names of the same stitches, Craft Yarn Council conversion table, as reported by secondary pages.
@pytest.mark.parametrize(
    ("us", "uk"),
    [("sl st", "ss"), ("sc", "dc"), ("hdc", "htr"), ("dc", "tr"), ("tr", "dtr"), ("dtr", "ttr")],
)
def test_names_in_both_sets(us: str, uk: str) -> None:
    assert (name_stitch(us, "US"), name_stitch(us, "UK")) == (us, uk)


def test_ordinals() -> None:
    numbers = (1, 2, 3, 4, 11, 12, 13, 21, 102, 111)
    assert " ".join(map(print_ordinal, numbers)) == "1st 2nd 3rd 4th 11th 12th 13th 21st 102nd 111th"
