"""A parsed pattern in one of its sizes alone."""

from dataclasses import replace

from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import SizedPattern
from booklet.rows.one_size import is_for_size, take_size, take_steps


def pick_size(parsed: ParsedPattern, at: int) -> ParsedPattern:
    """The same rows for the size at this place alone; rows for other sizes are left out."""
    pattern = parsed.sized.pattern
    name = pattern.size_names[at]
    numbers = {
        key: replace(
            number,
            values=(number.values[min(at, len(number.values) - 1)],),
            target_cm=number.target_cm[at : at + 1],
            true_cm=number.true_cm[at : at + 1],
        )
        for key, number in parsed.sized.numbers.items()
    }
    parts = tuple(
        replace(part, rows=tuple(take_size(row, at) for row in part.rows if is_for_size(row.label, name)))
        for part in parsed.parts
    )
    return replace(
        parsed,
        sized=SizedPattern(replace(pattern, sizes=pattern.sizes[at : at + 1]), numbers),
        parts=parts,
        definitions=tuple(replace(one, steps=take_steps(one.steps, at)) for one in parsed.definitions),
    )
