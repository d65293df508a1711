"""Everything that the worked stitches come to: measures, yarn, materials, cautions, key."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any, cast

from booklet.amounts.cautions import select_cautions
from booklet.amounts.gauge_checks import check_gauges
from booklet.amounts.key import list_terms
from booklet.amounts.making_time import list_hours
from booklet.amounts.materials import list_materials
from booklet.amounts.measures import measure_parts
from booklet.amounts.yarn import NO_SEAMS, measure_yarn
from booklet.findings import Finding
from booklet.model.amounts import Amounts, SeamLength
from booklet.model.pattern import SizedPattern
from booklet.model.work import WorkedPattern

# Beyond these places a figure of the proof is noise of the machine's arithmetic.
JSON_PLACES = 4


def compute_amounts(
    sized: SizedPattern, worked: WorkedPattern, seams: Mapping[str, SeamLength] = NO_SEAMS
) -> tuple[Amounts, tuple[Finding, ...]]:
    """All amounts of a pattern in all its sizes, and what keeps them from being whole.

    `seams` are the lengths of the seams that state none, by their names.
    """
    measures, on_measures = measure_parts(sized, worked)
    yarn, on_yarn = measure_yarn(sized, worked, seams)
    on_gauges = check_gauges(sized.pattern, worked)
    cautions, on_cautions = select_cautions(sized.pattern, worked, measures)
    key, on_key = list_terms(sized.pattern, worked)
    amounts = Amounts(
        measures=measures,
        yarn=yarn,
        materials=list_materials(sized.pattern, yarn),
        cautions=cautions,
        key=key,
        making_time=list_hours(sized.pattern, worked),
    )
    return amounts, (*on_measures, *on_yarn, *on_gauges, *on_cautions, *on_key)


def amounts_as_json(amounts: Amounts) -> dict[str, Any]:
    """The amounts as plain mappings, lists, texts and numbers, floats rounded to four places.

    Per-size values stand in size order; lengths are in the unit their name tells.
    """
    plain: dict[str, Any] = {
        "measures": [asdict(measure) for measure in amounts.measures],
        "yarn": None,
        "materials": [asdict(material) for material in amounts.materials],
        "cautions": [asdict(caution) for caution in amounts.cautions],
        "key": [asdict(term) for term in amounts.key],
        "making_time": [{"low_hours": low, "high_hours": high} for low, high in amounts.making_time],
    }
    if amounts.yarn is not None:
        plain["yarn"] = {
            "needs": [asdict(need) for need in amounts.yarn.needs],
            "totals": {size: asdict(need) for size, need in amounts.yarn.totals.items()},
            "basis": amounts.yarn.basis,
            "margin": amounts.yarn.margin,
            "spread": amounts.yarn.spread,
            "shared": [asdict(shared) for shared in amounts.yarn.shared],
            "sample_size": amounts.yarn.sample_size,
            "reports": amounts.yarn.reports,
            "raised": amounts.yarn.raised,
            "strands": amounts.yarn.strands,
            "tail_cm": amounts.yarn.tail_cm,
            "seams": [asdict(seam) for seam in amounts.yarn.seams],
            "gauge_from": amounts.yarn.gauge_from,
        }
    return cast(dict[str, Any], round_floats(plain))


def round_floats(tree: object) -> object:
    if isinstance(tree, dict):
        return {key: round_floats(value) for key, value in tree.items()}
    if isinstance(tree, (list, tuple)):
        return [round_floats(value) for value in tree]
    return round(tree, JSON_PLACES) if isinstance(tree, float) else tree
