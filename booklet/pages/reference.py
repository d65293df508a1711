"""What a maker looks up: gauge, abbreviations, the two sets of English terms, special stitches."""

from markupsafe import Markup

from booklet.amounts.key import explain_term, find_entry
from booklet.model.pattern import Gauge
from booklet.pages.front import say_gauge
from booklet.pages.illustrations import show_text_pictures
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import render_line
from booklet.pages.swatches import list_swatches
from booklet.pages.typography import set_type
from booklet.pages.views import Cell, Entry, Line, Section, Table
from booklet.terms import load_table


def show_gauge(manuscript: BookletInput) -> Section | None:
    """Every gauge of the pattern with the word of advice that belongs to it."""
    pattern = manuscript.pattern
    gauges = pattern.stated_gauges
    if not gauges:
        return None
    named = len(gauges) > 1
    wash = "block it as the finished piece will be blocked, " if any(gauge.blocked for gauge in gauges) else ""
    return Section(
        "gauge",
        "Tension" if pattern.terms == "UK" else "Gauge",
        "gauge",
        entries=tuple(
            Entry(_head_gauge(gauge) if named else "", say_gauge(gauge, pattern.units_first)) for gauge in gauges
        )
        + list_swatches(manuscript),
        notes=(
            (
                f"Work a swatch larger than what is counted, {wash}and count in its middle. With more stitches than "
                "stated, take a larger hook; with fewer, a smaller one. Another gauge changes both the size and the "
                "yarn needed."
            ),
        ),
    )


def _head_gauge(gauge: Gauge) -> str:
    """What the gauge is called; nothing where that is a stitch, which its line names in full."""
    return "" if gauge.stitch and find_entry(gauge.name) else set_type(_capital(gauge.name))


def show_key(manuscript: BookletInput) -> Section | None:
    """The abbreviations that this pattern uses, and no others."""
    terms = manuscript.amounts.key
    if not terms:
        return None
    lines = tuple(
        Line(
            term.abbreviation,
            (Cell((_join_meaning(set_type(term.name), render_line(term.meaning)),)),),
        )
        for term in terms
    )
    table = Table("", "Short form", ("Meaning",), lines, "words")
    return Section("key", "Abbreviations", "abbreviations", tables=(table,))


def show_terms(manuscript: BookletInput) -> Section:
    """Which set of English terms the pattern speaks, and what its stitches are called in the other."""
    own, other = ("uk", "us") if manuscript.pattern.terms == "UK" else ("us", "uk")
    lead = Markup("This pattern is written in <strong>{} crochet terms</strong>.").format(own.upper())
    lines: list[Line] = []
    for us_abbreviation, stitch in load_table("stitches").items():
        names = {
            "us": (us_abbreviation, stitch.get("us_name", "")),
            "uk": (stitch.get("uk", us_abbreviation), stitch.get("uk_name", "")),
        }
        if not stitch.get("basic") or names["us"][1] == names["uk"][1]:
            continue
        if {names[own][0], us_abbreviation} & set(manuscript.worked.stitch_names):
            lines.append(
                Line(names[own][0], (Cell((names[own][1],)), Cell((names[other][0],)), Cell((names[other][1],))))
            )
    lines.extend(_list_compounds(manuscript, own.upper(), other.upper()))
    columns = (f"{own.upper()} name", other.upper(), f"{other.upper()} name")
    table = Table("The same stitches in both sets of terms", own.upper(), columns, tuple(lines), "words")
    if lines:
        lead += Markup(" The same words name other stitches in {} patterns:").format(other.upper())
    return Section(
        "terms", "Terms used", "terms", lead=Markup("<p>{}</p>").format(lead), tables=(table,) if lines else ()
    )


def _list_compounds(manuscript: BookletInput, own: str, other: str) -> list[Line]:
    """Stitches that are made of others, `hdc2tog`, `FPdc`, and words such as skip, that both sets name otherwise."""
    entries = load_table("stitches")
    words = [term.abbreviation.casefold() for term in manuscript.amounts.key]
    used = [name for name in manuscript.worked.stitch_names if not entries.get(name, {}).get("basic")]
    for us, entry in load_table("words").items():
        used += [us] if (entry["uk"] if own == "UK" else us).casefold() in words else []
    lines: list[Line] = []
    for name in dict.fromkeys(used):
        first, second = explain_term(name, own), explain_term(name, other)
        if first and second and first.name != second.name:
            lines.append(
                Line(first.abbreviation, (Cell((first.name,)), Cell((second.abbreviation,)), Cell((second.name,))))
            )
    return lines


def show_special(manuscript: BookletInput, printed_elsewhere: list[tuple[int, int]]) -> Section | None:
    """Stitches that the pattern defines; those inside the author's own section are printed there as written."""
    entries = tuple(
        Entry(
            set_type(f"{stitch.name} ({stitch.abbreviation})" if stitch.abbreviation else stitch.name),
            render_line(stitch.text, manuscript.numbers),
            figures=show_text_pictures(stitch.images, manuscript),
        )
        for stitch in manuscript.pattern.special_stitches
        if not any(start <= stitch.span.start < end for start, end in printed_elsewhere)
    )
    return Section("special", "Special stitches", "special-stitches", entries=entries)


def _join_meaning(name: str, meaning: Markup) -> Markup:
    """`right side, the side that shows`; a meaning of several sentences keeps them."""
    if not name or not meaning:
        return Markup("{}").format(name) or meaning
    if ". " in meaning.striptags():
        return Markup("{}. {}").format(name, meaning)
    return Markup("{}: {}{}").format(name, meaning[:1].lower(), meaning[1:].removesuffix("."))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
