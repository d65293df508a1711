"""The tables of sizes: every measure says where it comes from, and the figures are the published ones."""

from booklet.model.size_tables import MEMORY
from booklet.reading.size_tables import list_built_in, split_entry

TABLES = {table.name: table for table in list_built_in()}


def list_inches(table: str, measure: str) -> list[tuple[float, float]]:
    figures = [entry[measure] for entry in TABLES[table].sizes.values()]
    return [(figure.low.cm / 2.54, figure.high.cm / 2.54) for figure in figures]


def test_every_figure_has_its_source_and_trust() -> None:
    for table in TABLES.values():
        assert table.kind in ("body", "finished")
        for size, figures in table.sizes.items():
            assert set(figures) == set(table.measures), (table.name, size)
            for figure in figures.values():
                assert figure.source
                assert figure.trust in ("seen", "secondary", "memory")
                assert 0 < figure.low.cm <= figure.high.cm


# Craft Yarn Council woman chart: bust ranges as on a yarn company's sheet; the top of each on yayforyarn.com.
def test_the_bust_of_women() -> None:
    tops = [high for _, high in list_inches("woman", "bust")]
    assert [round(top) for top in tops] == [30, 34, 38, 42, 46, 50, 54, 58, 62]
    # In centimetres 71-76 ... 152-157, the trade's half centimetres.
    first, last = TABLES["woman"].sizes["XS"]["bust"], TABLES["woman"].sizes["5X"]["bust"]
    assert (round(first.low.cm * 2) / 2, round(first.high.cm * 2) / 2) == (71.0, 76.0)
    assert (round(last.low.cm), round(last.high.cm)) == (152, 157)


# Craft Yarn Council, babies and children: chest in cm as printed, 40.5 ... 67, 71 (source not known, secondary).
def test_the_chest_of_babies_and_children() -> None:
    figures = [
        TABLES[table].sizes[size]["chest"].low.cm
        for table, sizes in (("baby", ("3 months", "6 months", "12 months")), ("child", ("2", "4", "6", "8", "10")))
        for size in sizes
    ]
    printed = [40.5, 43, 45.5, 53, 58.5, 63.5, 67, 71]
    assert all(abs(figure - cm) <= 0.5 for figure, cm in zip(figures, printed, strict=True))


# The same chart: the upper arm falls from 7½ in at 24 months to 7 in size 2, so a table may fall.
def test_a_table_may_fall() -> None:
    assert TABLES["baby"].sizes["24 months"]["upper arm"].low.amount == 7.5
    assert TABLES["child"].sizes["2"]["upper arm"].low.amount == 7


# One maker's size guide (purlsandpixels.com): hands measured without the thumb, in inches.
def test_hands() -> None:
    hands = TABLES["gloves"].sizes
    assert [hands[size]["hand"].low.amount for size in hands] == [3, 4, 5.5, 6, 7.5]
    assert [hands[size]["hand"].high.amount for size in hands] == [4, 5.5, 6, 7.5, 9]


# Craft Yarn Council heads in cm, 30.5, 33, 35.5, 40.5 (babylishadvice.com repeats them); the others from memory.
def test_heads() -> None:
    heads = TABLES["heads"].sizes
    assert [round(heads[size]["head"].low.cm * 2) / 2 for size in ("Preemie", "Newborn", "Baby", "Toddler")] == [
        30.5, 33, 35.5, 40.5,
    ]  # fmt: skip
    assert [size for size, figures in heads.items() if figures["head"].trust == MEMORY] == ["Child", "Woman", "Man"]


# Mattress tops of US shops, and covers 15 in longer at each side: a queen cover is 90 = 60 + 2 x 15 in wide.
def test_beds_and_covers() -> None:
    queen = TABLES["beds"].sizes["Queen"]["mattress width"].low.amount
    assert queen + 2 * 15 == TABLES["bed covers"].sizes["Queen"]["width"].low.amount == 90


# Blankets by nine makers (lists of 2008 to 2023): the spread of a throw, a lovey, a crib blanket.
def test_blankets() -> None:
    assert list_inches("blankets", "width")[0] == (10, 15)
    crib = TABLES["blankets"].sizes["Crib"]
    assert (crib["width"].low.amount, crib["length"].high.amount) == (28, 60)


def test_a_size_is_found_by_the_name_of_its_table() -> None:
    for words, name, size in (
        ("woman M", "woman", "M"),
        ("bed covers Cal. king", "bed covers", "Cal. king"),
        ("Beds UK small double", "beds uk", "small double"),
        ("women's XL", "", ""),
        ("baby: 3 months", "baby", "3 months"),
    ):
        found = split_entry(words, TABLES.values())
        assert (found[0].name, found[1]) == (name, size) if name and found else found is None
