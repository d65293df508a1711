"""What a house says of letters and lists: as style rules for pages, as plain tags for a fragment.

The large-print edition keeps its own rules for readers with low vision, no italics and no bullets among them;
of a house's settings only the letter of labels reaches it.
"""

import re

from booklet.model.style import Style

LARGE_PRINT = "large-print"

_NOTE = re.compile(r'<p class="note">(.*?)</p>', re.DOTALL)
_STRESSED = re.compile(r"<(/?)(?:em|i)>")
_LABEL = re.compile(r'<p id="[^"]*"><strong>([^<]*:)</strong>')
_PROSE = re.compile(r'<div class="prose">(.*?)</div>', re.DOTALL)
_LISTS = re.compile(r"<ul>(.*?)</ul>", re.DOTALL)
_ITEM = re.compile(r"<li>(?:\s*<p>)?(.*?)(?:</p>\s*)?</li>", re.DOTALL)

_LABEL_WEIGHTS = {"bold": 600, "plain": 400}
_NOTE_RULES = {
    "italic": ".note,.section-notes .prose,.section-notes .entry{font-style:italic}",
    "upright": "body,body *{font-style:normal}.prose em,.entry em{font-weight:600}",
}
_LIST_RULES = {
    "bullets": ".prose ul{list-style:disc;padding-left:1.3em}",
    "plain": ".prose ul{list-style:none;padding-left:0}",
}


def write_style_rules(style: Style, edition: str) -> str:
    """The rules that come after those of the theme; "" where the house leaves all to it."""
    weight = _LABEL_WEIGHTS.get(style.labels)
    rules = [f"b.label{{font-weight:{weight}}}"] if weight else []
    if edition != LARGE_PRINT:
        rules += [_NOTE_RULES.get(style.notes, ""), _LIST_RULES.get(style.lists, "")]
    return "\n".join(filter(None, rules))


def mark_fragment(html: str, style: Style) -> str:
    """A page that is about to lose its classes and has no style, with tags that say the same."""
    if style.lists == "plain":
        html = _PROSE.sub(lambda found: f'<div class="prose">{_LISTS.sub(_open_list, found[1])}</div>', html)
    if style.labels == "plain":
        html = _LABEL.sub(lambda found: found[0].replace("<strong>", "").replace("</strong>", ""), html)
    if style.notes == "upright":
        return _STRESSED.sub(r"<\1strong>", html)
    return _NOTE.sub(r'<p class="note"><em>\1</em></p>', html) if style.notes == "italic" else html


def _open_list(found: re.Match[str]) -> str:
    """The items of a list as paragraphs; one with a list inside stays a list."""
    return found[0] if "<ul>" in found[1] else _ITEM.sub(r"<p>\1</p>", found[1])
