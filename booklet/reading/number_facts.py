"""Named numbers and shaping, from the checked form to the facts of the model."""

import keyword
import re
from collections.abc import Callable

from booklet.findings import Finding
from booklet.model.pattern import NumberRule, ShapingRule, Size
from booklet.reading import messages
from booklet.reading.forms import FrontMatter
from booklet.reading.front_matter import Places
from booklet.source import Span

NUMBER_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]{0,39}")
FUNCTIONS = ("round", "floor", "ceil", "min", "max")

Tell = Callable[[Finding], None]


def list_numbers(front: FrontMatter, places: Places, sizes: tuple[Size, ...], tell: Tell) -> tuple[NumberRule, ...]:
    rules: list[NumberRule] = []
    for name, form in front.numbers.items():
        if not _is_name(name, "a number", places.key("numbers", name), tell):
            continue
        span = places.value("numbers", name)
        if len(form.ease) not in (0, 1, max(1, len(sizes))):
            tell(
                messages.size_count_differs(
                    f'the ease of "{name}"', len(form.ease), [s.name for s in sizes], span, None
                )
            )
        if len(form.values) not in (0, 1, max(1, len(sizes))) and not places.lost("numbers", name):
            names = [size.name for size in sizes]
            sizes_span = places.key("sizes") if sizes else None
            tell(messages.size_count_differs(f'"{name}"', len(form.values), names, span, sizes_span))
        rules.append(
            NumberRule(
                name=name,
                span=span,
                values=form.values,
                formula=form.formula,
                measure=form.measure,
                gauge=form.gauge,
                direction=form.direction,
                multiple=form.multiple[0],
                plus=form.multiple[1],
                ease=form.ease,
                rounding=form.round,
                tie=form.tie,
                keep=form.keep,
            )
        )
    return tuple(rules)


def list_shaping(front: FrontMatter, places: Places, tell: Tell) -> tuple[ShapingRule, ...]:
    """The rules of shaping under usable names; one whose name cannot be one is told and left out."""
    return tuple(
        ShapingRule(
            name=name,
            span=places.value("shaping", name),
            start=form.start,
            end=form.end,
            over=form.over,
            by=form.by,
            step=form.every,
            first=form.first,
            stitch=form.stitch,
        )
        for name, form in front.shaping.items()
        if _is_name(name, "shaping", places.key("shaping", name), tell)
    )


def _is_name(name: str, what: str, span: Span, tell: Tell) -> bool:
    """Whether formulas can call a thing so; told where they cannot."""
    if NUMBER_NAME.fullmatch(name) and not keyword.iskeyword(name) and name not in FUNCTIONS:
        return True
    fix = re.sub(r"\W+", "_", name).strip("_0123456789")
    expected = "letters, digits and underscores, a letter first"
    tell(messages.wrong_name(name, what, expected, span, f'write "{fix}"' if fix and fix != name else ""))
    return False
