"""The whole of the amounts, and their plain form."""

import json
from typing import Any

from booklet.amounts import amounts_as_json, compute_amounts


def test_everything_together_as_plain_data(make: Any) -> None:
    sized = make.sized(
        gauges=(make.gauge(),),
        made_for="baby",
        kind="blanket",
        yarn=make.yarn(weight=4, weight_name="Medium", ball_grams=100, ball_metres=200),
    )
    amounts, findings = compute_amounts(sized, make.worked(make.part(make.panel("sc", 80, 34)), names=("sc", "ch")))
    assert findings == ()
    plain = amounts_as_json(amounts)
    assert json.loads(json.dumps(plain)) == plain
    assert list(plain) == ["measures", "yarn", "materials", "cautions", "key", "making_time"]
    assert plain["measures"][0]["cm"] == [50.0]
    assert plain["yarn"]["totals"][""]["balls"] == 1
    assert [term["abbreviation"] for term in plain["key"]] == ["ch", "sc"]
    assert plain["cautions"][0]["code"] == "baby-sleep"


def test_a_pattern_with_nothing_but_rows_is_told_one_thing(make: Any) -> None:
    amounts, findings = compute_amounts(make.sized(), make.worked(make.part(make.panel("sc", 20, 9))))
    assert [finding.code for finding in findings] == ["gauge-missing"]
    assert amounts_as_json(amounts)["yarn"] is None


def test_the_same_input_gives_the_same_amounts(make: Any) -> None:
    sized = make.sized(gauges=(make.gauge(),), colours=make.colours("AB"))
    worked = make.worked(make.part(make.panel("hdc", 20, 9, "A") + make.panel("dc", 20, 9, "B")[1:]))
    assert compute_amounts(sized, worked) == compute_amounts(sized, worked)


def test_a_part_without_rows_is_passed_over(make: Any) -> None:
    amounts, findings = compute_amounts(make.sized(gauges=(make.gauge(),)), make.worked(make.part((), title="Notes")))
    assert amounts.measures == ()
    assert findings == ()
