"""The last pages: care, safety, and what a maker needs when something is wrong."""

from collections.abc import Sequence

from markupsafe import Markup

from booklet.findings import counted
from booklet.model.amounts import Caution
from booklet.model.work import WorkedRow
from booklet.pages.figures import print_date
from booklet.pages.illustrations import show_figure
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import render_line, render_prose
from booklet.pages.typography import set_type
from booklet.pages.views import Entry, Fact, Section

FOR_TESTERS = (
    "This copy is for testing: make the piece once, write down what you find, and keep the pattern to yourself until "
    "it is published."
)
TRUST = {"secondary": " (as others tell it)", "memory": " (customary; no source at hand)"}


def show_care(manuscript: BookletInput) -> Section | None:
    """How to wash it: the pattern's own words and the yarn's."""
    pattern = manuscript.pattern
    texts = [pattern.care, pattern.yarn.care if pattern.yarn else ""]
    lead = Markup("\n").join(render_prose(text, manuscript.numbers) for text in dict.fromkeys(texts) if text)
    return Section("care", "Care", "care", lead=lead) if lead else None


def show_safety(manuscript: BookletInput) -> Section | None:
    """The customary cautions for what this is and for whom, each with its source."""
    if not manuscript.amounts.cautions:
        return None
    return Section(
        "safety",
        "Safety notes",
        "safety",
        entries=tuple(
            Entry(set_type(caution.heading), render_line(caution.text), render_line(say_rule(caution)), caution.code)
            for caution in manuscript.amounts.cautions
        ),
        notes=(
            (
                "These notes are the usual cautions and no legal advice. Rules differ from place to place: check those "
                "that hold where the piece is made, given or sold, and ask someone qualified where in doubt."
            ),
        ),
    )


def say_rule(caution: Caution) -> str:
    """The rule, and how far its wording here is to be relied on where it was not read at its source."""
    return caution.source + TRUST.get(caution.trust, "")


def show_about(manuscript: BookletInput) -> Section | None:
    """Licence, contact, corrections, version and date."""
    pattern, publisher = manuscript.pattern, manuscript.pattern.publisher
    version = ", ".join(words for words in (pattern.version, print_date(pattern.date, pattern.units_first)) if words)
    is_own = publisher.name.casefold() == pattern.designer.casefold()
    facts = [
        Fact("Design", set_type(pattern.designer)),
        Fact("Published by", "" if is_own else set_type(publisher.name)),
        Fact("Version", version),
        Fact("Questions", render_line(_link(publisher.contact))),
        Fact("Pattern page", render_line(_link(pattern.page))),
        Fact("Video", render_line(_link(pattern.video))),
        Fact("Website", render_line(_link(publisher.website))),
        Fact("Corrections", render_line(_link(publisher.errata))),
        Fact("Checked", _say_what_was_worked(manuscript)),
    ]
    lead = render_prose(FOR_TESTERS if manuscript.for_testers else pattern.licence or publisher.licence)
    facts = [fact for fact in facts if fact.value]
    if not lead and not facts:
        return None
    codes = tuple(show_figure(picture) for picture in manuscript.pictures_for("code"))
    return Section("about", "About this pattern", "about", lead=lead, facts=tuple(facts), figures=codes)


def _link(text: str) -> str:
    """A bare address becomes a link; any other text stays."""
    text = text.strip()
    if " " in text or "<" in text or "(" in text:
        return text
    if "@" in text and "://" not in text:
        return f"[{text}](mailto:{text})"
    if text.startswith("https://"):
        return f"[{text.removeprefix('https://').rstrip('/')}]({text})"
    return text


def _say_what_was_worked(manuscript: BookletInput) -> str:
    """How many rows were worked stitch by stitch, and how many stand at their stated count.

    The chain or ring that a piece begins with is no row, as in the table of sizes.
    """
    every = (row for part in manuscript.worked.parts for size in part.rows for row in size)
    rows = [row for row in every if row.kind != "foundation"]
    worked = sum(row.status == "worked" for row in rows)
    if not worked:
        return ""
    sizes = len(manuscript.pattern.size_names)
    in_sizes = f" in {sizes} sizes" if sizes > 1 else ""
    text = f"{_count_rows(rows, worked)}{in_sizes} worked and counted stitch by stitch"
    if trusted := sum(row.status == "trusted" for row in rows):
        text += f"; {trusted} taken at the stated count"
    return text


def _count_rows(rows: Sequence[WorkedRow], worked: int) -> str:
    """`95 rounds`, `24 rows and rounds`: by what the pattern is worked in."""
    kinds = {row.kind for row in rows if row.kind in ("row", "round")}
    if len(kinds) > 1:
        return f"{worked} rows and rounds"
    return counted(worked, "round" if kinds == {"round"} else "row")
