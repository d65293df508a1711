"""Facts about kinds of stitches."""

import pytest

from booklet.working.kinds import height_of, is_of_kind, kind_of


@pytest.mark.parametrize(
    ("name", "base", "uses", "tops"),
    [
        ("sc", "sc", 1, 1),
        ("sc2tog", "sc", 2, 1),
        ("dc3tog", "dc", 3, 1),
        ("FPdc", "dc", 1, 1),
        ("BPhdc2tog", "hdc", 2, 1),
        ("3-dc cl", "dc", 1, 1),
        ("5-dc shell", "dc", 1, 5),
        ("lantern", "lantern", 1, 1),
    ],
)
def test_what_a_stitch_uses_and_leaves(name: str, base: str, uses: int, tops: int) -> None:
    kind = kind_of(name)
    assert (kind.base, kind.uses, kind.tops) == (base, uses, tops)


# Chains that stand for a stitch: Needlecraft, Handbook of Wool Knitting and Crochet, 1918 (sc 1 to dtr 5).
@pytest.mark.parametrize(
    ("name", "chains"), [("sl st", 0), ("sc", 1), ("hdc", 2), ("dc", 3), ("tr", 4), ("dtr", 5), ("FPdc", 3)]
)
def test_how_tall_a_stitch_is(name: str, chains: int) -> None:
    assert height_of(name) == chains


@pytest.mark.parametrize(
    ("made", "named", "same"),
    [
        ("dc", "dc", True),
        ("FPdc", "dc", True),
        ("FPdc", "FPdc", True),
        ("sc2tog", "sc", True),
        ("3-dc cl", "cl", True),
        ("any", "dc", True),
        ("hdc", "dc", False),
        ("dc", "FPdc", False),
    ],
)
def test_what_a_maker_calls_a_stitch(made: str, named: str, same: bool) -> None:
    assert is_of_kind(made, named) is same
