"""What one colour takes in one size, before anything is bought: stitches by published lengths, and the rest.

The rest is a tail at each end of each strand, seams, fringe and other trimmings. Only the stitches are
corrected by what was weighed; a tail is as long as it is cut.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from booklet.amounts.calibration import Calibration
from booklet.amounts.scales import yarn_of
from booklet.amounts.stitch_yarn import Scale, measure_stitch
from booklet.amounts.tally import Tally, name_colour
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern
from booklet.sizing.finishing import SizedFinishing
from booklet.terms import load_table


@dataclass(frozen=True, slots=True)
class Portion:
    """Metres of one colour in one size; `worked` are those of its stitches by published lengths, all strands."""

    letter: str
    stitches: int
    worked: float
    tails: float
    seams: float
    trimmings: float
    ends: int

    @property
    def besides(self) -> float:
        return self.tails + self.seams + self.trimmings

    def predict(self, calibration: Calibration) -> float:
        """Metres in all, its stitches corrected."""
        return self.worked * calibration.factor_of(self.letter) + self.besides


def list_portions(
    pattern: Pattern, size: int, tally: Tally, scales: Mapping[str | None, Scale], finishing: Sequence[SizedFinishing]
) -> dict[str, Portion]:
    """The portions of one size by letter, colours in the pattern's order, unnamed and undeclared ones last."""
    declared = [colour.letter for colour in pattern.colours]
    besides = {kind: sum_finishing(pattern, finishing, kind, size) for kind in ("seam", "trimming")}
    used = {*tally.colours, *besides["seam"], *besides["trimming"]}
    order = [letter for letter in declared if letter in used]
    order += sorted(letter for letter in used if letter not in declared)
    portions: dict[str, Portion] = {}
    for letter in order:
        strands = count_strands(pattern, letter)
        inches = stitches = 0.0
        for (gauge, colour, kind), number in tally.worked.items():
            if colour == letter:
                inches += number * measure_stitch(yarn_of(kind), scales[gauge])
                stitches += number
        worked = inches * strands * CM_PER_INCH / 100
        ends = 2 * (tally.joins.get(letter, 0) * strands + count_new_balls(pattern, worked))
        portions[letter] = Portion(
            letter=letter,
            stitches=int(stitches),
            worked=worked,
            tails=ends * find_tail(pattern) / 100,
            seams=besides["seam"].get(letter, 0.0),
            trimmings=besides["trimming"].get(letter, 0.0),
            ends=ends,
        )
    return portions


def sum_finishing(pattern: Pattern, finishing: Sequence[SizedFinishing], kind: str, size: int) -> dict[str, float]:
    """Metres of all seams, or all trimmings, by the colour that they are in; the first colour where none is said."""
    metres: dict[str, float] = {}
    main = pattern.colours[0].letter if pattern.colours else ""
    for item in finishing:
        if item.kind == kind:
            letter = name_colour(pattern, item.colour) or main
            metres[letter] = metres.get(letter, 0.0) + item.metres[size]
    return metres


def count_strands(pattern: Pattern, letter: str) -> int:
    """How many strands are held together in a colour."""
    own = next((colour.strands for colour in pattern.colours if colour.letter == letter), 0)
    return own or (pattern.yarn.strands if pattern.yarn else 1)


def count_new_balls(pattern: Pattern, metres: float) -> int:
    """How often a ball runs out and the next is joined; 0 where the ball is not known."""
    ball = pattern.yarn.ball_metres if pattern.yarn else None
    return int(metres // ball) if ball else 0


def find_tail(pattern: Pattern) -> float:
    """The length left at each end of a strand, in centimetres."""
    return pattern.tail.cm if pattern.tail is not None else float(load_table("yarn_lengths")["tail_cm"]["value"])
