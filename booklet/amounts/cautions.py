"""Safety cautions that fit who the item is for, what it is, what it has and what it is made of."""

import re
from collections.abc import Iterable, Mapping
from typing import Any

from booklet.amounts import messages
from booklet.findings import Finding
from booklet.model.amounts import Caution
from booklet.model.measure import Length
from booklet.model.pattern import Pattern
from booklet.terms import load_table

LENGTH = re.compile(r'(?P<amount>\d+(?:[.,]\d+)?)\s*(?P<unit>mm|cm|in\b|inch(?:es)?|"|″|m\b)', re.IGNORECASE)
UNITS = {'"': "in", "″": "in", "inch": "in", "inches": "in"}
# Hazards in this order: "neck cord" is more than a cord, so it is asked for first and is not one again.
WHOLE_WORDS = re.compile(r"[a-z]+(?:-[a-z]+)?")


def select_cautions(pattern: Pattern) -> tuple[tuple[Caution, ...], tuple[Finding, ...]]:
    """The cautions to print, each ending in whom to ask, and a finding for what a rule forbids or limits."""
    table = load_table("cautions")
    hazards = {named: find_hazard(named) for named in pattern.has}
    cautions: list[Caution] = []
    findings: list[Finding] = []
    for code, entry in table["cautions"].items():
        if not fits_pattern(entry["when"], pattern, hazards.values()):
            continue
        text = f"{entry['text']} {table['deference'][entry['defer']]}"
        cautions.append(Caution(code, entry["heading"], text, entry["rule"]))
        findings.extend(check_rule(entry, pattern, hazards))
    return tuple(cautions), tuple(findings)


def fits_pattern(when: Mapping[str, Any], pattern: Pattern, hazards: Iterable[str]) -> bool:
    """True where every condition that is given holds; a condition holds where one of its words fits."""
    if "for" in when and pattern.made_for not in when["for"]:
        return False
    if "kind" in when and not any(holds_words(pattern.kind, kind) for kind in when["kind"]):
        return False
    if "has" in when and not set(when["has"]) & set(hazards):
        return False
    fibre = pattern.yarn.fibre if pattern.yarn else ""
    return "fibre" not in when or any(holds_words(fibre, name) for name in when["fibre"])


def check_rule(entry: Mapping[str, Any], pattern: Pattern, hazards: Mapping[str, str]) -> list[Finding]:
    """What of the pattern a rule forbids or limits."""
    rule, when = entry["rule"], entry["when"]
    concerned = [named for named, hazard in hazards.items() if hazard in entry.get("has_limit", when.get("has", ()))]
    if entry.get("refuses"):
        if "fibre" in when and pattern.yarn:
            concerned = [f"{pattern.yarn.fibre} yarn"]
        return [messages.hazard_not_allowed(pattern, named, entry["heading"], rule) for named in concerned]
    if "limit_cm" not in entry:
        return []
    lengths = {named: read_length(named) for named in concerned}
    return [
        messages.hazard_over_limit(pattern, named, entry["limit_cm"], rule)
        for named, length in lengths.items()
        if length is not None and length.cm > entry["limit_cm"] + 1e-9
    ]


def find_hazard(named: str) -> str:
    """The hazard that the author's words stand for, "" for none: "hood cord 20 cm" is a neck cord."""
    for hazard, words in load_table("cautions")["hazards"].items():
        if any(holds_words(named, word) for word in (hazard, *words)):
            return str(hazard)
    return ""


def holds_words(text: str, words: str) -> bool:
    """True where all the words stand in the text, in any order, one or several of each."""
    present = {singular(word) for word in WHOLE_WORDS.findall(text.lower())}
    return all(singular(word) in present for word in WHOLE_WORDS.findall(words.lower()))


def singular(word: str) -> str:
    """`buttons` button, `booties` bootie; short words and `dress` stay."""
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def read_length(text: str) -> Length | None:
    """The first length in a few words, such as "cord 40 cm"."""
    match = LENGTH.search(text)
    if match is None:
        return None
    unit = match["unit"].lower()
    return Length(float(match["amount"].replace(",", ".")), UNITS.get(unit, unit))
