"""The lines of a piece in one size: which of them are for it, under which heading and number, and their names."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from booklet.model.parsed import Row
from booklet.rows.row_repeats import name_row
from booklet.working.state import PartState, find_named_colour, find_named_gauge

NAME_BESIDE = re.compile(r"[(\[]\s*(?P<name>[^()\[\]]*\b(?:rows?|rnds?|rounds?))\s*[)\]]", re.IGNORECASE)
SHAPES_BESIDE = re.compile(r"[(\[]\s*(?P<name>(?:inc|dec)(?:rease)?)\.?\s*[)\]]", re.IGNORECASE)


@dataclass(slots=True)
class PartLines(PartState):
    """A piece in hand that knows its lines."""

    def _list_lines(self) -> Iterator[Row]:
        """The lines for this size, with its row numbers."""
        for written in self.part.rows:
            line = self._take_numbers(written)
            if not line.label.sizes or self._is_for_this_size(line):
                yield line

    def _enter_section(self, line: Row) -> None:
        """Under a new heading whose rows begin at 1 again, the row numbers of the one before mean nothing."""
        if line.section != self.section:
            self.section, self.section_count = line.section, 0
            self.gauge = find_named_gauge(self.gauges, line.section) or self.piece_gauge
            if colour := find_named_colour(self.colours, line.section):
                self.setting = replace(self.setting, colour=colour)
            if line.label.numbers[:1] == (1,):
                self.known.clear()

    def _take_numbers(self, line: Row) -> Row:
        """The line with the row numbers of this size."""
        if not line.label.varied:
            return line
        return replace(line, label=replace(line.label, numbers=line.label.numbers_in(self.size), varied=()))

    def _list_made(self) -> list[int]:
        """The stitches of the rows so far, the last as the next row meets them."""
        return [*(row.made for row in self.rows[:-1]), self.below[0].made]

    def _rows_high(self) -> float:
        """How high the piece is, in rows of the gauge in hand; rows of the piece where no gauge counts rows."""
        per_cm = self.gauge.rows_per_cm if self.gauge else None
        return self.count if per_cm is None or self.height_cm is None else self.height_cm * per_cm

    def _is_for_this_size(self, line: Row) -> bool:
        return self.setting.size_names[self.size].lower() in {name.lower() for name in line.label.sizes}

    def _note_name(self, row: Row) -> None:
        """The name by which later lines may ask for a row: "Inc row:", or beside its number, "Row 3 (Dec row):"."""
        text = row.label.text
        if text and not row.label.numbers:
            self.known[name_row(re.sub(r"\s*[(\[].*", "", text))] = row
        if beside := NAME_BESIDE.search(text):
            self.known[name_row(beside["name"])] = row
        elif beside := SHAPES_BESIDE.search(text):  # "Next row (inc):"
            self.known[name_row(f"{beside['name']} row")] = row
