"""What the tags of a PDF still need after WeasyPrint: which way a table's head cells point.

WeasyPrint names the head cells of each data cell by their identifiers; screen readers also look for
`Scope` on the head cell itself (ISO 32000-1, table 349; Matterhorn Protocol 1.1, checkpoint 15-003).
"""

from typing import Any

import pydyf

from booklet.output.form import finish_form


def finish_structure(document: Any, pdf: Any) -> None:
    """Gives every head cell its scope: a column's in the table's head, a row's everywhere else.

    Called by WeasyPrint just before the file is put together, while its objects can still be changed.
    """
    finish_form(document, pdf)
    for item in pdf.objects:
        if isinstance(item, pydyf.Dictionary) and item.get("S") == "/TH":
            group = _parent(pdf, _parent(pdf, item))
            scope = "/Column" if group is not None and group.get("S") == "/THead" else "/Row"
            item.setdefault("A", pydyf.Dictionary({"O": "/Table"}))["Scope"] = scope


def _parent(pdf: Any, item: Any) -> Any:
    """The element above, through its reference `12 0 R`."""
    reference = None if item is None else item.get("P")
    if reference is None:
        return None
    return pdf.objects[int(bytes(reference).split()[0])]
