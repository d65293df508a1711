"""The explanation of each code: one Markdown file a code, in `explanations/`, with fixed headings."""

import difflib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from booklet.findings.finding import Severity

HEADINGS = ("What it means", "Why it matters", "Example", "Write instead")


@dataclass(frozen=True, slots=True)
class Explanation:
    """One file, taken apart. `sections` are the texts under the fixed headings, by heading."""

    code: str
    severity: Severity
    sections: dict[str, str]

    def source_under(self, heading: str) -> str | None:
        """The pattern source in the fenced block under a heading; None where no source can show it."""
        _, fence, rest = self.sections[heading].partition("```pattern\n")
        return rest.partition("```")[0] if fence else None


@cache
def list_codes() -> tuple[str, ...]:
    """All codes that have an explanation, in order of the alphabet."""
    folder = files("booklet.findings") / "explanations"
    return tuple(sorted(entry.name[:-3] for entry in folder.iterdir() if entry.name.endswith(".md")))


def explain(code: str) -> str:
    """The explanation as Markdown. Raises KeyError where the code is not one of `list_codes()`."""
    if code not in list_codes():
        raise KeyError(code)
    return (files("booklet.findings") / "explanations" / f"{code}.md").read_text(encoding="utf-8")


def suggest_codes(text: str) -> tuple[str, ...]:
    """Up to three codes that the text may have meant, the likeliest first."""
    asked = text.strip().lower().replace("_", "-").replace(" ", "-")
    near = difflib.get_close_matches(asked, list_codes(), n=3, cutoff=0.6)
    holding = [code for code in list_codes() if asked and asked in code]
    return tuple(dict.fromkeys(near + holding))[:3]


def read_explanation(code: str) -> Explanation:
    """The explanation taken apart. Raises ValueError where its form is not the fixed one."""
    text = explain(code)
    lines = text.split("\n")
    if lines[0] != f"# {code}" or lines[1:2] != [""]:
        raise ValueError(f'{code}.md: the first line is not "# {code}" with an empty line below')
    severity = Severity(lines[2])
    sections: dict[str, str] = {}
    heading, is_fenced = "", False
    for line in lines[3:]:
        if line.startswith("```"):
            is_fenced = not is_fenced
        if line.startswith("## ") and not is_fenced:
            heading = line[3:]
            sections[heading] = ""
        elif heading:
            sections[heading] += line + "\n"
    if tuple(sections) != HEADINGS:
        raise ValueError(f"{code}.md: the headings are {list(sections)}, not {list(HEADINGS)}")
    for heading in ("Example", "Write instead"):
        if sections[heading].count("```") != 2:
            raise ValueError(f'{code}.md: "{heading}" does not hold one fenced block')
    return Explanation(code, severity, sections)
