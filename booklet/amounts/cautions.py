"""Safety cautions that fit who the item is for, what it is, what it has and what it is made of."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from booklet.amounts import messages
from booklet.amounts.hazards import Item, holds_words, list_items
from booklet.findings import Finding
from booklet.model.amounts import Caution, Measure
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPattern
from booklet.terms import load_table

NOT_SAID = "adult"  # whom a pattern is for where it does not say


def select_cautions(
    pattern: Pattern, worked: WorkedPattern, measures: Sequence[Measure] = ()
) -> tuple[tuple[Caution, ...], tuple[Finding, ...]]:
    """The cautions to print, each ending in whom to ask, and a finding for what a rule forbids or limits.

    A caution that the author took out is not printed; the proof says so.
    """
    table = load_table("cautions")
    items = list_items(pattern, worked, measures)
    hazards = {item.hazard for item in items}
    cautions: list[Caution] = []
    findings = list(check_made_for(pattern))
    for code, entry in table["cautions"].items():
        if not fits_pattern(entry, pattern, hazards):
            continue
        if code in pattern.without_cautions:
            findings.append(messages.caution_left_out(pattern, code, entry["heading"], entry["rule"]))
        else:
            text = f"{entry['text']} {table['deference'][entry['defer']]}"
            limits = tuple(limit["rule"] for limit in entry.get("limits", ()))
            cautions.append(
                Caution(code, entry["heading"], text, entry["rule"], limits, entry["source"], entry["trust"])
            )
        findings.extend(check_rule(entry, pattern, items))
    return tuple(cautions), tuple(findings)


def fits_pattern(entry: Mapping[str, Any], pattern: Pattern, hazards: Iterable[str]) -> bool:
    """True where one `when` of the entry holds, and no `unless`."""
    return any(holds_all(when, pattern, hazards) for when in list_conditions(entry, "when")) and not any(
        holds_all(unless, pattern, hazards) for unless in list_conditions(entry, "unless")
    )


def list_conditions(entry: Mapping[str, Any], name: str) -> tuple[Mapping[str, Any], ...]:
    """The alternatives of a condition: several, one, or none."""
    given = entry.get(name, ())
    return (given,) if isinstance(given, Mapping) else tuple(given)


def holds_all(when: Mapping[str, Any], pattern: Pattern, hazards: Iterable[str]) -> bool:
    """True where every condition that is given holds; a condition holds where one of its words fits."""
    if "for" in when and pattern.made_for not in when["for"]:
        return False
    if "kind" in when and not any(holds_words(pattern.kind, kind) for kind in when["kind"]):
        return False
    if "has" in when and not set(when["has"]) & set(hazards):
        return False
    fibre = pattern.yarn.fibre if pattern.yarn else ""
    return "fibre" not in when or any(holds_words(fibre, name) for name in when["fibre"])


def check_rule(entry: Mapping[str, Any], pattern: Pattern, items: Sequence[Item]) -> Iterator[Finding]:
    """What of the pattern a rule forbids or limits."""
    if entry.get("refuses"):
        yield from refuse_items(entry, pattern, items)
    for item in items:
        passed = [
            limit
            for limit in entry.get("limits", ())
            if item.hazard in limit["of"] and any(cm > limit["cm"] + 1e-9 for cm in item.lengths_cm)
        ]
        if passed:
            lowest = min(limit["cm"] for limit in passed)
            yield messages.hazard_over_limit(item, lowest, "; ".join(limit["rule"] for limit in passed))


def refuse_items(entry: Mapping[str, Any], pattern: Pattern, items: Sequence[Item]) -> Iterator[Finding]:
    """The finding for each thing that the entry rules out: what the pattern has, its yarn, or what it is."""
    whens = list_conditions(entry, "when")
    ruled_out = {hazard for when in whens for hazard in when.get("has", ())}
    if ruled_out:
        for item in items:
            if item.hazard in ruled_out:
                yield messages.hazard_not_allowed(pattern, item.named, item.span, entry["heading"], entry["rule"])
    elif pattern.yarn is not None and any("fibre" in when for when in whens):
        named = f"{pattern.yarn.fibre} yarn"
        yield messages.hazard_not_allowed(pattern, named, pattern.yarn.span, entry["heading"], entry["rule"])
    else:
        span = messages.find_value(pattern, "kind")
        yield messages.hazard_not_allowed(pattern, pattern.kind, span, entry["heading"], entry["rule"])


def check_made_for(pattern: Pattern) -> Iterator[Finding]:
    """A kind that speaks of babies, children or animals, where the pattern is for grown-ups as far as it says."""
    if pattern.made_for != NOT_SAID or ("for",) in pattern.refused:
        return
    for made_for, words in load_table("cautions")["speaking"].items():
        if any(holds_words(pattern.kind, word) for word in words):
            yield messages.made_for_differs(pattern, made_for)
            return
