"""What a group's sheet says beside the rows: yarn for one item and items from one ball, and the group's rules."""

import math
import re
from collections.abc import Sequence

from markupsafe import Markup

from booklet.findings import counted
from booklet.model.amounts import YarnNeed
from booklet.model.pattern import Pattern
from booklet.pages.figures import print_both, print_date, sum_yarn_lengths
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import render_line, render_prose
from booklet.pages.tables import is_blocked
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Cell, Fact, HandoutView, Line, Table

HAIR = 1e-9
PLAIN_KIND = re.compile(r"[a-z ]*(?:[^sxhfy]|[aeo]y)", re.IGNORECASE)  # has a plural in -s


def show_handout(manuscript: BookletInput) -> HandoutView:
    """The sheet's own matter; what the group has not said is left empty, for the template to rule lines for."""
    pattern = manuscript.pattern
    handout = pattern.handout
    numbers = manuscript.numbers
    if handout is None:
        return HandoutView(per_item=tabulate_items(manuscript), measures=list_measures(manuscript))
    facts = [
        Fact("For", set_type(handout.made_for)),
        Fact("Labels", render_line(handout.labels, numbers)),
        Fact("Hand in", render_line(handout.hand_in, numbers)),
        Fact("Questions", render_line(handout.contact or pattern.publisher.contact)),
        Fact("Rules of", print_date(handout.rules_of, pattern.units_first)),
    ]
    return HandoutView(
        facts=tuple(fact for fact in facts if fact.value),
        not_accepted=tuple(set_type(text) for text in handout.not_accepted),
        copying=render_prose(handout.copying) if handout.copying else Markup(),
        per_item=tabulate_items(manuscript),
        measures=list_measures(manuscript),
    )


def list_measures(manuscript: BookletInput) -> tuple[Fact, ...]:
    """The measures of each piece in one size; none where several sizes stand, one piece is all, or none is blocked."""
    pattern, measures = manuscript.pattern, manuscript.amounts.measures
    parts = dict.fromkeys(measure.part for measure in measures)
    if len(pattern.size_names) > 1 or len(parts) < 2 or not is_blocked(pattern):
        return ()
    facts: list[Fact] = []
    for part in parts:
        told = [
            f"{measure.name} {' ('.join(pair)})"
            for measure in measures
            if measure.part == part
            and len(pair := print_both(measure.cm[0], measure.inches[0], pattern.units_first)) == 2
        ]
        facts.append(Fact(set_type(part), set_type(", ".join(told))))
    return tuple(fact for fact in facts if fact.label and fact.value)


def tabulate_items(manuscript: BookletInput) -> Table | None:
    """Yarn for one item of each size, with the reserve, and how many items a ball gives; None where it is unknown."""
    pattern, use = manuscript.pattern, manuscript.amounts.yarn
    if use is None or not use.needs:
        return None
    of_sizes = {
        name: [need for need in use.needs if need.size == name and need.metres_to_buy > 0]
        for name in pattern.size_names
    }
    ball = pattern.yarn.ball_metres if pattern.yarn else None
    counts_items = any(_count_items(needs, ball) for needs in of_sizes.values() if needs and ball)
    item = name_item(pattern)
    lines = [
        Line(set_type(name) or f"One {item}", tuple(_list_cells(needs, manuscript, counts_items)))
        for name, needs in of_sizes.items()
        if needs
    ]
    heads = ["Length"]
    if all(need.grams is not None for need in use.needs):
        heads = ["Weight", *heads]
    if ball:
        of_one = "From 1 ball" if len({need.letter for need in use.needs}) == 1 else "From 1 ball of each"
        heads.append(of_one if counts_items else f"Balls for 1 {item}")
    caption = f"Yarn for one {item}, reserve included"
    if any(need.swatch_metres for need in use.needs):
        caption += ", no swatch"
    return Table(caption, "Size", tuple(heads), tuple(lines)) if lines else None


def name_item(pattern: Pattern) -> str:
    """What one of the thing is called: `hat`; "item" where the pattern does not say, or its plural is not plain."""
    kind = " ".join(pattern.kind.lower().split())
    return set_type(kind) if PLAIN_KIND.fullmatch(kind) else "item"


def _list_cells(needs: Sequence[YarnNeed], manuscript: BookletInput, counts_items: bool) -> list[Cell]:
    pattern = manuscript.pattern
    cells: list[Cell] = []
    if manuscript.amounts.yarn is not None and all(need.grams is not None for need in manuscript.amounts.yarn.needs):
        weights = [_print_grams(need.grams or 0.0, need.letter, len(needs)) for need in needs]
        cells.append(Cell((", ".join(weights),)))
    first, second = sum_yarn_lengths([need.metres_to_buy for need in needs], pattern.units_first)
    cells.append(Cell((f"{first} ({second})",)))
    if pattern.yarn and pattern.yarn.ball_metres:
        cells.append(Cell((_print_items(needs, pattern, pattern.yarn.ball_metres, counts_items),)))
    return cells


def _print_grams(grams: float, letter: str, colours: int) -> str:
    """Whole grams, rounded up: a kitchen scale shows no less."""
    weight = f"{math.ceil(grams - HAIR)}{NO_BREAK_SPACE}g"
    return f"{letter}{NO_BREAK_SPACE}{weight}" if letter and colours > 1 else weight


def _count_items(needs: Sequence[YarnNeed], ball_metres: float) -> int:
    """Whole items from one ball of each colour."""
    return min(math.floor(ball_metres / need.metres_to_buy + HAIR) for need in needs)


def _print_items(needs: Sequence[YarnNeed], pattern: Pattern, ball_metres: float, counts_items: bool) -> str:
    """Whole items from one ball of each colour, or the balls that one takes where a ball is too little."""
    if items := _count_items(needs, ball_metres):
        return counted(items, name_item(pattern))
    balls = sum(math.ceil(need.metres_to_buy / ball_metres - HAIR) for need in needs)
    return f"1 {name_item(pattern)} takes {balls} balls" if counts_items else str(balls)
