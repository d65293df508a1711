"""The checks over a whole worked pattern, as an ordered list."""

from collections.abc import Callable, Iterator

from booklet.checks import messages
from booklet.checks.chain_parts import check_chain_parts
from booklet.checks.chains import check_joins, check_no_chains, check_opening_chains
from booklet.checks.colours import check_colours
from booklet.checks.edges import check_folds, check_seams
from booklet.checks.groups import check_begun_groups, check_groups
from booklet.checks.likeness import check_likeness
from booklet.checks.multiples import check_multiples
from booklet.checks.other_pieces import check_other_pieces
from booklet.checks.prose import check_prose
from booklet.checks.prose_lists import check_prose_lists
from booklet.checks.ranges import check_ranges
from booklet.checks.shapes import check_mirrors, check_sides
from booklet.checks.units import check_units
from booklet.findings import Finding
from booklet.model.amounts import Amounts
from booklet.model.parsed import ParsedPattern
from booklet.model.work import WorkedPattern

Check = Callable[[ParsedPattern, WorkedPattern], Iterator[Finding]]


def check_pattern(parsed: ParsedPattern, worked: WorkedPattern, amounts: Amounts) -> tuple[Finding, ...]:
    """Every finding of every check, in the order of the checks."""
    return tuple(finding for check in CHECKS for finding in check(parsed, worked))


def check_special_stitches(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """Stitches defined and never worked."""
    used = {name.lower() for name in parsed.terms_used}
    text = " ".join(row.words.text.lower() for part in parsed.parts for row in part.rows)
    for special in parsed.sized.pattern.special_stitches:
        names = {special.name.lower(), special.abbreviation.lower()} - {""}
        if not names & used and not any(name in text for name in names):
            yield messages.stitch_unused(special.name, special.span)


def check_grading(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """Counts that fall from one size to the next, told once for a piece."""
    names = parsed.sized.pattern.size_names
    if len(names) < 3:
        return
    for part in worked.parts:
        if len({len(rows) for rows in part.rows}) != 1:
            continue
        for rows in zip(*part.rows, strict=True):
            made = tuple(row.made for row in rows)
            falls = tuple(names[i + 1] for i in range(len(made) - 1) if made[i + 1] < made[i])
            sound = all(row.status == "worked" for row in rows)
            odd = find_out_of_step(made) if sound and rows[0].kind == "foundation" else None
            if odd is not None:
                at, wanted = odd
                yield messages.grade_out_of_step(rows[0].label, made, at, wanted, rows[0].span, (names[at],))
                break
            if falls and all(row.status == "worked" for row in rows):
                yield messages.grade_not_steady(rows[0].label, made, rows[0].span, falls)
                break


def find_out_of_step(values: tuple[int, ...]) -> tuple[int, int] | None:
    """The one inner value that, changed, would make all steps equal, with what it would be; else None.

    At least four sizes are wanted, and the ends are left alone: first and last sizes often stand apart.
    """
    if len(values) < 4:
        return None
    step, rest = divmod(values[-1] - values[0], len(values) - 1)
    if rest or step <= 0:
        return None
    even = [values[0] + step * at for at in range(len(values))]
    odd = [at for at, value in enumerate(values) if value != even[at]]
    return (odd[0], even[odd[0]]) if len(odd) == 1 else None


CHECKS: tuple[Check, ...] = (
    check_colours,
    check_likeness,
    check_special_stitches,
    check_opening_chains,
    check_no_chains,
    check_joins,
    check_chain_parts,
    check_multiples,
    check_prose_lists,
    check_ranges,
    check_sides,
    check_mirrors,
    check_seams,
    check_folds,
    check_groups,
    check_begun_groups,
    check_other_pieces,
    check_grading,
    check_units,
    check_prose,
)
