"""The abbreviation key: every term that the rows use, in the pattern's terms, in order of the alphabet."""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from booklet.amounts import messages
from booklet.findings import Finding
from booklet.model.amounts import Term
from booklet.model.pattern import Pattern, Prose
from booklet.model.work import WorkedPattern
from booklet.terms import load_table

POST_NAMES = {"FP": "front post", "BP": "back post"}
POST_WAYS = {
    "FP": "insert the hook from the front behind the post of the stitch and out to the front again",
    "BP": "insert the hook from the back in front of the post of the stitch and out to the back again",
}
TOGETHER = "work each stitch but for its last loop, then draw through all loops on the hook"
HDC_TOGETHER = (
    "yarn over and draw up a loop in each of the {} stitches, yarn over, draw through all {} loops on the hook"
)
IN_PROSE = ("ch", "sl st", "sc", "hdc", "dc", "tr", "dtr", "yo", "rnd", "RS", "WS")
"""What prose and the definitions of stitches may name though no row does; no everyday word is among them."""
COMPOUND = re.compile(r"(?P<post>FP|BP)?(?P<plain>.+?)(?:(?P<together>\d+)tog)?")
CLUSTER = re.compile(r"(?P<number>\d+)-(?P<plain>.+?) (?P<family>[a-z-]+)")


def list_terms(pattern: Pattern, worked: WorkedPattern) -> tuple[tuple[Term, ...], tuple[Finding, ...]]:
    """The key's lines. `worked.stitch_names` are US abbreviations; the author's own definitions win."""
    own = list_own_terms(pattern, worked)
    terms: dict[str, Term] = dict(own)
    findings: list[Finding] = []
    for name in dict.fromkeys((*worked.stitch_names, *find_in_prose(pattern))):
        if name.lower() in own:
            continue
        term = explain_term(name, pattern.terms) or explain_own_together(name, own)
        if term is None:
            findings.append(messages.abbreviation_unexplained(pattern, name))
        elif term.abbreviation.lower() not in own:
            terms.setdefault(term.abbreviation.lower(), term)
    # A special stitch may stand under its name and its abbreviation: it is one line.
    ordered = sorted(dict.fromkeys(terms.values()), key=lambda term: (term.abbreviation.lower(), term.abbreviation))
    return tuple(ordered), tuple(findings)


def find_in_prose(pattern: Pattern) -> Iterator[str]:
    """The terms, by their US abbreviations, that stand in prose and in the definitions of stitches."""
    texts = [block.text for part in pattern.parts for block in part.blocks if isinstance(block, Prose)]
    texts += [stitch.text for stitch in pattern.special_stitches]
    text = "\n".join(texts)
    for name in IN_PROSE:
        entry = find_entry(name)
        short = entry[1]["uk"] if entry and pattern.terms == "UK" else name
        forms = {short, short[:1].upper() + short[1:]}
        if re.search(rf"(?<![\w-])(?:{'|'.join(map(re.escape, sorted(forms)))})s?(?![\w-])", text):
            yield name


def list_own_terms(pattern: Pattern, worked: WorkedPattern) -> dict[str, Term]:
    """What the pattern defines itself, by its abbreviation in small letters."""
    own: dict[str, Term] = {}
    for stitch in pattern.special_stitches:
        short = stitch.abbreviation or stitch.name
        name = stitch.name if stitch.name.lower() != short.lower() else ""
        own[short.lower()] = Term(short, name, "see Special stitches")
        # The rows may call it by either; one line in the key is enough.
        if stitch.abbreviation and stitch.name.lower() not in own:
            own[stitch.name.lower()] = own[short.lower()]
    for short, meaning in (*worked.defined.items(), *pattern.abbreviations.items()):
        if short.lower() not in own or short in pattern.abbreviations:
            own[short.lower()] = Term(short, meaning)
    return own


def explain_term(name: str, terms: str) -> Term | None:
    """A US abbreviation as a line of the key in "US" or "UK" terms; None where the trade has no such term."""
    entry = find_entry(name)
    if entry is not None:
        key, fields = entry
        return name_entry(key, fields, terms)
    return explain_cluster(name, terms) or explain_compound(name, terms)


def find_entry(name: str) -> tuple[str, Mapping[str, Any]] | None:
    """The entry of a term by its abbreviation or another spelling of it, stitches first."""
    return index_terms().get(name.lower())


@cache
def index_terms() -> Mapping[str, tuple[str, Mapping[str, Any]]]:
    """Every US spelling in small letters -> its abbreviation and entry."""
    index: dict[str, tuple[str, Mapping[str, Any]]] = {}
    tables = [load_table("stitches"), load_table("words")]
    for table in tables:
        for key, fields in table.items():
            index.setdefault(key.lower(), (key, fields))
    for table in tables:
        for key, fields in table.items():
            for alias in (*fields.get("aliases", ()), fields["us_name"]):
                index.setdefault(alias.lower(), (key, fields))
    return index


def name_entry(key: str, fields: Mapping[str, Any], terms: str) -> Term:
    """`say` is written in US terms, so UK keys leave it out where it names a stitch."""
    say = fields.get("say", "")
    if terms == "UK":
        return Term(fields["uk"], fields["uk_name"], "" if names_stitch(say) else say)
    return Term(key, fields["us_name"], say)


def names_stitch(say: str) -> bool:
    """True where the words would mean something else in the other terms."""
    words = set(re.findall(r"[a-z]+", say.lower()))
    names = {word for key, fields in load_table("stitches").items() if fields.get("basic") for word in key.split()}
    return bool(words & (names - {"st", "sl", "ch"} | {"crochet"})) or "skip" in words


def explain_compound(name: str, terms: str) -> Term | None:
    """`FPdc` front post double crochet; `sc2tog` single crochet 2 together."""
    match = COMPOUND.fullmatch(name)
    plain = find_entry(match["plain"]) if match and (match["post"] or match["together"]) else None
    if match is None or plain is None:
        return None
    base = name_entry(*plain, terms)
    post, together = match["post"] or "", match["together"]
    short = f"{post}{base.abbreviation}" + (f"{together}tog" if together else "")
    words = [POST_NAMES.get(post, ""), base.name, f"{together} together" if together else ""]
    say = "; ".join(words for words in (POST_WAYS.get(post, ""), _say_together(match["plain"], together)) if words)
    return Term(short, " ".join(word for word in words if word), say)


def _say_together(plain: str, together: str | None) -> str:
    """How so many stitches are worked together; a half double crochet has no last loop that it could be left with."""
    if not together:
        return ""
    found = find_entry(plain)
    if found is not None and found[0] == "hdc":
        return HDC_TOGETHER.format(together, 2 * int(together) + 1)
    return TOGETHER


def explain_own_together(name: str, own: Mapping[str, Term]) -> Term | None:
    """`hhdc2tog`, several of a stitch that the pattern defines, worked together."""
    match = COMPOUND.fullmatch(name)
    base = own.get(match["plain"].lower()) if match and match["together"] and not match["post"] else None
    if match is None or base is None:
        return None
    return Term(
        f"{base.abbreviation}{match['together']}tog", f"{base.abbreviation} {match['together']} together", TOGETHER
    )


def explain_cluster(name: str, terms: str) -> Term | None:
    """`3-dc cl` cluster of 3 double crochet."""
    match = CLUSTER.fullmatch(name)
    plain = find_entry(match["plain"]) if match else None
    family = find_entry(match["family"]) if match else None
    if match is None or plain is None or family is None:
        return None
    base = name_entry(*plain, terms)
    whole = name_entry(*family, terms)
    number = match["number"]
    return Term(f"{number}-{base.abbreviation} {whole.abbreviation}", f"{whole.name} of {number} {base.name}")
