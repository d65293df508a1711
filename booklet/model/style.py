"""House style: what publishers disagree about in the printed form of a pattern, never in its meaning."""

from dataclasses import dataclass, fields, replace

ROUND, SQUARE, STARS, OTHER = "round", "square", "stars", "other"
WORDS_UP_TO = 10


@dataclass(frozen=True, slots=True)
class Style:
    """The settings of one house. What is "" (or None) is left as the author wrote it and as the theme sets it.

    `repeats` and `groups` are the brackets of steps worked again and of steps worked into one place, `nested`
    that of a bracket within a bracket. `counts` is what a count stands in or behind, `count_form` what it names,
    `count_rows` which rows have one. `words_up_to` is the largest number that is spelled out.
    """

    repeats: str = ""  # round, square, stars
    groups: str = ""  # round, square
    nested: str = ""  # round, square, other
    counts: str = ""  # round, square, dash, equals sign, full stop
    count_place: str = ""  # end of row, own line
    count_form: str = ""  # total, stitches, number
    count_rows: str = ""  # all, changed
    turning_chain: str = ""  # start of row, row before
    times: str = ""  # digits, words, plain words
    numbers: str = ""  # digits, words
    words_up_to: int | None = None
    rows: str = ""  # Row, R
    rounds: str = ""  # Rnd, Round, R
    sides: str = ""  # round, square
    labels: str = ""  # bold, plain
    hooks: str = ""  # metric first, US first
    notes: str = ""  # italic, upright
    lists: str = ""  # bullets, plain
    front_matter: str = ""  # before, after: the rows

    @property
    def most_in_words(self) -> int:
        return WORDS_UP_TO if self.words_up_to is None else self.words_up_to

    @property
    def changes_words(self) -> bool:
        """Are the words of a row printed otherwise than its author wrote them?"""
        return any((self.repeats, self.groups, self.nested, self.times, self.numbers, self.turning_chain))

    @property
    def changes_frame(self) -> bool:
        """Are label and count printed otherwise?"""
        named = (self.counts, self.count_form, self.rows, self.rounds, self.sides)
        return any(named) or self.count_rows == "changed"

    @property
    def changes_rows(self) -> bool:
        return self.changes_words or self.changes_frame

    def over(self, house: "Style") -> "Style":
        """This style, with the house's setting where it has none of its own."""
        own = {field.name: getattr(self, field.name) for field in fields(self)}
        return replace(house, **{name: value for name, value in own.items() if value not in ("", None)})


PLAIN = Style()
