"""The key of a pattern's charts: the symbols they use, those alone, each with its name in the pattern's terms."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from booklet.drawings.chart_feet import DEEP, KEY_WORDS, LOOKS, SHORT, SIGNS, seen_loop
from booklet.drawings.chart_glyphs import Glyph, height_of
from booklet.drawings.chart_strokes import draw_single
from booklet.drawings.chart_words import Names
from booklet.drawings.lay import basic_kind
from booklet.drawings.paint import paint_plan
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.symbols import is_own, say_look
from booklet.terms import load_table

if TYPE_CHECKING:
    from booklet.drawings.chart_cut import Chart

UNIT_MM = 3.4


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """One symbol: its drawing, and the worked stitches it stands for on the right side and on the wrong side."""

    look: str
    kinds: tuple[str, ...]
    back_kinds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SignEntry:
    """A sign at the foot of symbols, and whether it stands in rows of the right side and of the wrong side."""

    sign: str
    front: bool
    back: bool


def list_signs(charts: Sequence["Chart"]) -> tuple[SignEntry, ...]:
    """The signs in the charts, each once."""
    used: dict[str, set[bool]] = {}
    for chart in charts:
        for glyph in chart.glyphs:
            is_back = chart.drawn.laid[glyph.row].row.row.side == "WS"
            for sign in (glyph.loop, DEEP if glyph.deep else ""):
                if sign:
                    used.setdefault(sign, set()).add(is_back)
    return tuple(SignEntry(sign, False in used[sign], True in used[sign]) for sign in SIGNS if sign in used)


def say_sign_entry(entry: SignEntry) -> str:
    """`BLO: in back loop only; on the wrong side FLO`"""
    here, there = SHORT[entry.sign], SHORT[seen_loop(entry.sign, True)]
    if here == there or not entry.back:
        return f"{here}: {KEY_WORDS[entry.sign]}"
    if not entry.front:
        return f"{there}: {KEY_WORDS[seen_loop(entry.sign, True)]}, on the wrong side"
    return f"{here}: {KEY_WORDS[entry.sign]}; on the wrong side {there}"


def list_key(charts: Sequence["Chart"]) -> tuple[KeyEntry, ...]:
    """Every symbol in the charts once, in the order of the table of stitches."""
    front: dict[str, dict[str, None]] = {}
    back: dict[str, dict[str, None]] = {}
    for chart in charts:
        for glyph in chart.glyphs:
            side = chart.drawn.laid[glyph.row].row.row.side
            kinds = back if side == "WS" and glyph.look[:2] in ("FP", "BP") else front
            kinds.setdefault(glyph.look, {})["ch" if glyph.kind == "picot ch" else glyph.kind] = None
    order = {name: index for index, name in enumerate(load_table("stitches"))}

    def place(look: str) -> tuple[int, str]:
        return order.get(look, order.get(basic_kind(look), len(order)) + 100), look

    looks = sorted(front | back, key=place)
    return tuple(KeyEntry(look, tuple(front.get(look, ())), tuple(back.get(look, ()))) for look in looks)


def name_own_looks(charts: Sequence["Chart"]) -> tuple["Chart", ...]:
    """The charts with a drawing of its own for every stitch that the trade has no symbol for."""
    own: dict[str, str] = {}
    for chart in charts:
        for glyph in chart.glyphs:
            if is_own(glyph.look):
                own.setdefault(glyph.look, "spike" if "spike" in glyph.look.lower() else f"own {len(own) + 1}")
    if len(own) == 0:
        return tuple(charts)

    def renamed(glyph: Glyph) -> Glyph:
        return replace(glyph, look=own[glyph.look]) if glyph.look in own else glyph

    return tuple(
        replace(chart, drawn=replace(chart.drawn, glyphs=tuple(map(renamed, chart.glyphs)))) for chart in charts
    )


def say_entry(entry: KeyEntry, names: Names) -> str:
    """`dc: double crochet`; for a post stitch also what it is on the wrong side."""
    told = []
    for kind in entry.kinds:
        term = names.find(kind)
        told.append(f"{term.abbreviation}: {term.name}" if term.name else term.abbreviation)
    behind = [names.short(kind) for kind in entry.back_kinds]
    if behind and told:
        return f"{'; '.join(told)}; on the wrong side {' or '.join(behind)}"
    if behind:
        return "; ".join(
            f"{names.find(kind).abbreviation}: {names.find(kind).name}, on the wrong side" for kind in entry.back_kinds
        )
    return "; ".join(told)


def draw_key(charts: Sequence["Chart"], names: Names, ink: Ink) -> list[Picture]:
    """One small picture a symbol, its caption the words beside it."""
    pictures = []
    entries = list_key(charts)
    for number, entry in enumerate(entries, 1):
        kind = entry.kinds[0] if entry.kinds else entry.back_kinds[0]
        plan = draw_single(_pose(entry.look, kind), UNIT_MM, ink)
        png = paint_plan(plan, ink, is_grey=True)
        alt = f"Symbol: {say_look(entry.look)}"
        pictures.append(Picture(f"symbol-{number}", png, plan.width, plan.height, alt, say_entry(entry, names)))
    for number, found in enumerate(list_signs(charts), len(entries) + 1):
        plan = draw_single(_pose_sign(found.sign), UNIT_MM, ink)
        png = paint_plan(plan, ink, is_grey=True)
        said = f"Symbol: {LOOKS[found.sign]}"
        pictures.append(Picture(f"symbol-{number}", png, plan.width, plan.height, said, say_sign_entry(found)))
    return pictures


def _pose_sign(sign: str) -> Glyph:
    """The sign under a stem of no stitch in particular."""
    deep = (0.0, -1.6) if sign == DEEP else None
    return Glyph("", "stem", 0, ((0.0, 0.0),), (0.0, 1.2), loop="" if deep else sign, deep=deep)


def _pose(look: str, kind: str) -> Glyph:
    """The symbol by itself, upright and as tall as it is."""
    if look == "ch":
        return Glyph(kind, look, 0, ((-0.4, 0.9),), (0.4, 0.9))
    if look == "sl st":
        return Glyph(kind, look, 0, ((0.0, 0.6),), (0.0, 1.0))
    height = height_of(kind) * (1.15 if height_of(kind) < 1.2 else 1.0)
    if "tog" in look:
        return Glyph(kind, look, 0, ((-0.5, 0.0), (0.5, 0.0)), (0.0, height))
    return Glyph(kind, look, 0, ((0.0, 0.0),), (0.0, height), 3.0 if "shell" in look else 1.0)
