"""Do the words of a pattern agree with the set of terms that it is read in?

The same words name other stitches in US and in UK terms, so a pattern read in the wrong set works out
stitch for stitch and makes another fabric. What tells the sets apart: names that only one of them has
(htr, hdc, sc), the height of a chain or of the skipped chains beside the stitch it stands for ("ch 3
counts as tr"), and words such as "miss". A name or a height decides alone; the other words only
together, and only where the pattern does not say which terms it uses.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern, Row
from booklet.model.pattern import Pattern, Prose
from booklet.model.tree import Chain, SkippedCount, Work
from booklet.rows.dialect_messages import terms_mixed, terms_undeclared
from booklet.rows.print_names import name_stitch
from booklet.rows.print_prose import OTHER, carry_prose
from booklet.rows.vocabulary import build_vocabulary
from booklet.rows.walking import walk_steps
from booklet.source import Span
from booklet.terms import load_table

DECLARED = re.compile(r"^terms\s*:[^\n]*", re.MULTILINE)
BOTH_NAMED = re.compile(r"\b(?:UK|US|British|American)\b")
# What UK writers say and US writers seldom do (common practice); two different ones are needed.
UK_HABITS = {
    "miss": re.compile(
        r"\bmiss(?:ing)? (?:the )?(?:next |first )?(?:\d+ ?|one |two |three )?(?:sts?|stitch(?:es)?|chs?|dc|tr)\b",
        re.IGNORECASE,
    ),
    "tension": re.compile(r"(?:^|\n)[#*_ ]*tension\b[*_ ]*:?|\btension (?:square|swatch|:)", re.IGNORECASE),
    "yrh": re.compile(r"\b(?:yrh|yarn round hook|wool over hook)\b", re.IGNORECASE),
    "ss": re.compile(r"(?:\bjoin with (?:an? )?|[.,;] )ss (?:in|into|to)\b", re.IGNORECASE),
}


@dataclass(frozen=True, slots=True)
class Evidence:
    """A place that speaks for one set of terms; `kind` is word, height or the name of a habit."""

    says: str
    kind: str
    span: Span

    @property
    def words(self) -> str:
        return " ".join(self.span.text.split())

    @property
    def decides(self) -> bool:
        return self.kind in ("word", "height")


def check_terms(pattern: Pattern, parsed: ParsedPattern) -> tuple[Finding, ...]:
    """At most one finding: the first words that contradict the terms of the pattern, with some of the others."""
    if pattern.old_terms:
        return ()  # the names are those of an old book, and agree with neither
    declared = _find_declaration(pattern)
    found = sorted(_find_evidence(pattern, parsed), key=lambda evidence: evidence.span.start)
    other = OTHER[pattern.terms]
    against = [evidence for evidence in found if evidence.says == other]
    deciding = [evidence for evidence in against if evidence.decides]
    agreeing = [evidence for evidence in found if evidence.says == pattern.terms and evidence.decides]
    if deciding and (declared or agreeing):
        own = carry_prose(deciding[0].words, other, pattern.terms) if agreeing else ""
        first, others = _split_first(deciding)
        return (terms_mixed(first.span, first.words, other, pattern.terms, declared, others, own),)
    if declared or agreeing:
        return ()
    if deciding or len({evidence.kind for evidence in against}) > 1:
        first, others = _split_first([*deciding, *(e for e in against if not e.decides)])
        return (terms_undeclared(first.span, first.words, other, pattern.terms, others),)
    return ()


def _split_first(evidence: Sequence[Evidence]) -> tuple[Evidence, list[tuple[Span, str]]]:
    """The first, and the first of each other wording."""
    wordings: dict[str, Evidence] = {}
    for each in evidence:
        wordings.setdefault(each.words.lower(), each)
    first, *others = wordings.values()
    return first, [(other.span, other.words) for other in others]


def _find_declaration(pattern: Pattern) -> Span | None:
    """The line of the front matter that names the terms."""
    text = pattern.source.text
    end = text.find("\n---", 3) if text.startswith("---") else -1
    match = DECLARED.search(text, 0, end) if end > 0 else None
    return pattern.source.span(*match.span()) if match else None


def _find_evidence(pattern: Pattern, parsed: ParsedPattern) -> Iterator[Evidence]:
    own_names = {name.lower() for name in pattern.abbreviations}
    for special in pattern.special_stitches:
        own_names |= {special.name.lower(), special.abbreviation.lower()}
    for part in parsed.parts:
        for row in part.rows:
            for terms in OTHER:
                yield from _find_names(row.words, terms, own_names)
            yield from _find_heights(row, pattern.terms)
            yield from _find_habits(row.words.text, row.words)
    for rule in parsed.chain_rules:
        if rule.counts and _is_other_height(rule.stitch, rule.chains, pattern.terms) and rule.chains > 1:
            yield Evidence(OTHER[pattern.terms], "height", rule.span)
    for piece in pattern.parts:
        for block in piece.blocks:
            if isinstance(block, Prose):
                yield from _find_habits(block.text, block.span)


def _find_names(span: Span, terms: str, own_names: set[str]) -> Iterator[Evidence]:
    """Names of stitches that only one set has, in a row that does not speak of both."""
    if BOTH_NAMED.search(span.text):
        return
    for match in _names_only_in(terms).finditer(span.text):
        if match[0].lower() not in own_names and match["name"].lower() not in own_names:
            yield Evidence(terms, "word", span.sub(match.start("whole"), match.end("whole")))


@cache
def _names_only_in(terms: str) -> re.Pattern[str]:
    """Short and full names of stitches that the other set does not know."""
    unknown = build_vocabulary(OTHER[terms]).phrases
    names: set[str] = set()
    for us, entry in load_table("stitches").items():
        short, full = (entry["uk"], entry["uk_name"]) if terms == "UK" else (us, entry["us_name"])
        if entry["uk"] != us:
            names |= {form for form in (short, full) if form not in unknown}
    longest_first = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return re.compile(
        rf"(?<![A-Za-z])(?P<whole>(?:FP|BP)?(?P<name>{longest_first})(?:\d?tog|s)?)(?![A-Za-z])", re.IGNORECASE
    )


def _find_habits(text: str, span: Span) -> Iterator[Evidence]:
    for kind, habit in UK_HABITS.items():
        if match := habit.search(text):
            shown = match[0].strip("\n#*_: .,;")
            at = match.start() + match[0].index(shown)
            yield Evidence("UK", kind, span.sub(at, at + len(shown)))


def _find_heights(row: Row, terms: str) -> Iterator[Evidence]:
    """Chains whose number fits the stitch that the same word names in the other set."""
    steps = list(walk_steps(row.steps))
    makes_spaces = any(isinstance(step, Chain) for step in steps[1:])
    remarked = {step.stitch for step in steps if isinstance(step, SkippedCount) and step.counts}
    for step in steps:
        if isinstance(step, Chain) and step.counts and len(step.count) == 1:
            chains = step.count[0] - step.then
            if chains > 1 and _is_other_height(step.stands_for, chains, terms):
                yield Evidence(OTHER[terms], "height", step.span.to(_reach(step.span, row.words)))
        elif isinstance(step, Work) and step.where.from_hook and step.where.what[0].kind == "ch":
            chains = step.where.nth - 1
            is_edge = chains == 1 or step.stitch in remarked or not makes_spaces
            if is_edge and _is_other_height(step.stitch, chains, terms):
                yield Evidence(OTHER[terms], "height", step.span)


def _reach(span: Span, words: Span) -> Span:
    """The chain with the remark in brackets behind it."""
    rest = words.file.text[span.end : words.end]
    remark = re.match(r"\s*\([^()]*\)", rest)
    return span.sub(0, span.end - span.start + (remark.end() if remark else 0))


def _is_other_height(stitch: str, chains: int, terms: str) -> bool:
    """Are so many chains too few or too many for the stitch, and right for the one so called in the other terms?"""
    table = load_table("stitches")
    if stitch not in table:
        return False
    word = name_stitch(stitch, terms)
    called = next((us for us in table if name_stitch(us, OTHER[terms]) == word and us != stitch), None)
    return called is not None and table[called]["chains"] == chains != table[stitch]["chains"]
