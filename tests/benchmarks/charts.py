"""Seconds for a large stitch chart: laid, planned and painted at 300 dots to the inch.

Run as `.venv/bin/python tests/benchmarks/charts.py`. The chart is one that a page could not hold in practice:
every symbol of some 5,000 is drawn, nothing is cut to its repeat. The last line is the ratio of the whole to
painting alone, which a change to laying or planning should leave where it is.
"""

import time
from pathlib import Path

from booklet.drawings.chart_flat import lay_flat
from booklet.drawings.chart_marks import list_chart_rows
from booklet.drawings.chart_sheet import FlatChart, plan_flat
from booklet.drawings.lay import find_directions
from booklet.drawings.paint import paint_plan
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Symbol
from booklet.pipeline import prove_text

FONTS = Path(__file__).parents[2] / "themes" / "fonts"
ROWS = """Ch 98.

Row 1: Sc in 2nd ch from hook, *sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch; rep from * across.

Row 2: Ch 3 (counts as dc), turn, 2 dc in first sc, *sc in center dc of next shell, 5 dc in next sc; rep from * to
last shell, sc in center dc of last shell, 3 dc in last sc.

Row 3: Ch 1, turn, sc in first dc, *5 dc in next sc, sc in center dc of next shell; rep from * to last sc,
5 dc in last sc, sc in top of beg ch-3.

Rows 4-51: Rep Rows 2 and 3.
"""
TIMES = 5


def median(values: list[float]) -> float:
    return sorted(values)[len(values) // 2]


def main() -> None:
    text = "---\ntitle: Case\n---\n\nShell: 5 dc in same st.\n\n" + ROWS
    proof = prove_text(text, "case.md")
    assert proof.worked
    rows = proof.worked.parts[0].rows[0]
    ink = Ink(FONTS)
    laying, painting, symbols, size = [], [], 0, 0
    for _ in range(TIMES):
        start = time.perf_counter()
        listed = list_chart_rows(rows)
        ways = find_directions([row.row for row in listed if row.name])
        laid, glyphs = lay_flat(listed, [-ways[0], *ways])
        plan = plan_flat(FlatChart(tuple(laid), tuple(glyphs), (), None), ink)
        laying.append(time.perf_counter() - start)
        start = time.perf_counter()
        png = paint_plan(plan, ink, is_grey=True)
        painting.append(time.perf_counter() - start)
        symbols, size = sum(isinstance(shape, Symbol) for shape in plan.shapes), len(png)
    whole = median(laying) + median(painting)
    print(f"symbols {symbols}, {plan.width:.0f} x {plan.height:.0f} mm, {size / 1000:.0f} kB")
    print(f"laid and planned {median(laying):.2f} s, painted {median(painting):.2f} s, in all {whole:.2f} s")
    print(f"ratio to painting alone {whole / median(painting):.2f}")


if __name__ == "__main__":
    main()
