"""The tables of the trade: every entry says where it comes from, and the figures are the published ones."""

from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from booklet.amounts.cautions import list_conditions
from booklet.terms import load_table

TRUST = {"seen", "secondary", "memory", "computed"}


def iterate_entries(tree: Any) -> Iterator[Mapping[str, Any]]:
    """Every mapping that carries a trust mark, however deep."""
    if isinstance(tree, Mapping):
        if "trust" in tree:
            yield tree
        for value in tree.values():
            yield from iterate_entries(value)
    elif isinstance(tree, tuple):
        for value in tree:
            yield from iterate_entries(value)


@pytest.mark.parametrize("name", ["yarn_weights", "hooks", "yarn_lengths", "cautions", "words"])
def test_every_entry_has_its_source_and_trust(name: str) -> None:
    entries = list(iterate_entries(load_table(name)))
    assert len(entries) >= 8
    for entry in entries:
        assert entry["trust"] in TRUST
        assert entry["source"].strip()


def test_a_table_is_read_once_and_cannot_be_changed() -> None:
    table = load_table("hooks")
    assert load_table("hooks") is table
    with pytest.raises(TypeError):
        table["regular"] = ()  # type: ignore[index]
    with pytest.raises(TypeError):
        table["regular"][0]["mm"] = 1


def test_error_no_such_table() -> None:
    with pytest.raises(FileNotFoundError):
        load_table("needles")


# Craft Yarn Council, Standard Yarn Weight System, as reported by secondary pages.
@pytest.mark.parametrize(
    ("number", "name", "band", "hook_mm"),
    [
        (0, "Lace", (32, 42), (1.4, 2.25)),
        (1, "Super Fine", (21, 32), (2.25, 3.5)),
        (2, "Fine", (16, 20), (3.5, 4.5)),
        (3, "Light", (12, 17), (4.5, 5.5)),
        (4, "Medium", (11, 14), (5.5, 6.5)),
        (5, "Bulky", (8, 11), (6.5, 9)),
        (6, "Super Bulky", (7, 9), (9, 15)),
        (7, "Jumbo", (None, 6), (15, None)),
    ],
)
def test_yarn_weights(number: int, name: str, band: tuple[int, int], hook_mm: tuple[float, float]) -> None:
    entry = load_table("yarn_weights")[number]
    assert (entry["name"], entry["sc_per_4in"], entry["hook_mm"]) == (name, band, hook_mm)


# Craft Yarn Council, hooks and needles (the eleven sizes reported page by page), and two charts that agree.
@pytest.mark.parametrize(
    ("mm", "us"),
    [
        (2.25, "B-1"), (3.5, "E-4"), (4.0, "G-6"), (4.25, "G"), (5.0, "H-8"), (5.25, "I"), (5.5, "I-9"), (6.0, "J-10"),
        (6.5, "K-10½"), (8.0, "L-11"), (10.0, "N/P-15"), (3.25, "D-3"), (3.75, "F-5"), (4.5, "7"), (9.0, "M/N-13"),
    ],
)  # fmt: skip
def test_hooks(mm: float, us: str) -> None:
    assert [entry["us"] for entry in load_table("hooks")["regular"] if entry["mm"] == mm] == [us]


def test_hooks_stand_in_order_of_size_each_once() -> None:
    sizes = [entry["mm"] for entry in load_table("hooks")["regular"]]
    assert sizes == sorted(set(sizes))
    steel = [entry["mm"] for entry in load_table("hooks")["steel"]]
    assert steel == sorted(set(steel), reverse=True)  # the higher the number, the smaller the hook


# 11 sc fits 4 and 5; 16-17 fits 2 and 3; 15 fits 3 only; 43 fits nothing: computed from the published bands.
@pytest.mark.parametrize(("stitches", "weights"), [(11, [4, 5]), (16, [2, 3]), (15, [3]), (10, [5]), (43, [])])
def test_bands_overlap_as_published(stitches: int, weights: list[int]) -> None:
    fitting = [
        number
        for number, entry in load_table("yarn_weights").items()
        if (entry["sc_per_4in"][0] or 0) <= stitches <= (entry["sc_per_4in"][1] or 99)
    ]
    assert fitting == weights


def test_cautions_use_only_words_that_are_listed() -> None:
    table = load_table("cautions")
    assert set(table["speaking"]) <= set(table["made_for"])
    for code, entry in table["cautions"].items():
        whens = [when for name in ("when", "unless") for when in list_conditions(entry, name)]
        for when in whens:
            assert set(when) <= {"for", "kind", "has", "fibre"}, code
            assert set(when.get("for", ())) <= set(table["made_for"]), code
            assert set(when.get("has", ())) <= set(table["hazards"]), code
        for limit in entry.get("limits", ()):
            assert set(limit) == {"of", "cm", "rule"}, code
            assert set(limit["of"]) <= set(table["hazards"]), code
        assert entry["defer"] in table["deference"], code
        assert entry["rule"], code


def test_words_and_stitches_share_no_abbreviation() -> None:
    assert not {key.lower() for key in load_table("words")} & {key.lower() for key in load_table("stitches")}
