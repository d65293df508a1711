"""What a proof comes to: the values that `proof --json` prints, and the lines that end a proof."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict

from booklet.amounts.amounts import amounts_as_json, round_floats
from booklet.amounts.own_measures import list_own
from booklet.findings import counted, join_words
from booklet.findings.render import list_as_json
from booklet.model.work import WorkedPattern, WorkedRow
from booklet.pipeline import Proof
from booklet.rows.styled_lines import StyledRows
from booklet.sizing.shaping import say_shaping
from booklet.sizing.tables import list_used
from booklet.source import Span

MOST_KEPT = 8  # lines that are named one by one
MOST_TRUSTED = 5  # rows on trust that are named one by one; more are counted


def proof_as_json(proof: Proof) -> dict[str, object]:
    """One entry of `patterns`. Scripts rely on these keys: some may come to them, none may go."""
    pattern = proof.pattern
    return {
        "source": proof.source.path,
        "title": pattern.title if pattern else "",
        "sizes": list(pattern.size_names) if pattern else [],
        "numbers": list(_list_numbers(proof)),
        "shaping": list(_list_shaping(proof)),
        "size_tables": list(_list_tables(proof)),
        "rows": list(_list_rows(proof)),
        "findings": list_as_json(proof.findings),
        "style": _list_style(proof.styled) if proof.styled else {},
        "amounts": amounts_as_json(proof.amounts) if proof.amounts else {},
        "own_measures": list(_list_own_measures(proof)),
    }


def _list_numbers(proof: Proof) -> Iterator[dict[str, object]]:
    """The named numbers with what each was worked out from; lengths in cm, values in the order of the sizes."""
    for number in proof.sized.numbers.values() if proof.sized else ():
        yield {
            "name": number.name,
            "values": list(number.values),
            "gauge": number.gauge,
            "measure": number.measure,
            "multiple": number.multiple,
            "plus": number.plus,
            "round": number.rounding,
            "tie": number.tie,
            "target_cm": round_floats(number.target_cm),
            "ease_cm": round_floats(number.ease_cm),
            "true_cm": round_floats(number.true_cm),
        }


def _list_own_measures(proof: Proof) -> Iterator[dict[str, object]]:
    """Measures that the sizes give and no finished measure stands for; null in a size without it."""
    if proof.sized is None or proof.amounts is None:
        return
    for measure in list_own(proof.sized, proof.amounts.measures):
        yield {
            "name": measure.name,
            "cm": round_floats(measure.cm),
            "inches": round_floats(measure.inches),
            "of_the_wearer": measure.is_body,
        }


def _list_shaping(proof: Proof) -> Iterator[dict[str, object]]:
    for shaping in proof.sized.shaping if proof.sized else ():
        yield {
            "name": shaping.rule.name,
            "from": list(shaping.start),
            "to": list(shaping.end),
            "over": list(shaping.over),
            "words": say_shaping(shaping),
            "rates": [asdict(rate) for rate in shaping.rates],
        }


def _list_tables(proof: Proof) -> Iterator[dict[str, object]]:
    """The tables that the sizes go by, with the source and trust of each measure used."""
    pattern = proof.pattern
    for table in pattern.size_tables if pattern else ():
        assert pattern is not None
        yield {
            "name": table.name,
            "title": table.title,
            "kind": table.kind,
            "own": table.is_own,
            "date": table.date,
            "figures": [
                {
                    "size": size.name,
                    "entry": size.entry,
                    "measure": name,
                    "low_cm": round_floats(figure.low.cm),
                    "high_cm": round_floats(figure.high.cm),
                    "source": figure.source,
                    "trust": figure.trust,
                }
                for size in pattern.sizes
                if size.table == table.name
                for name, figure in size.borrowed.items()
                if name in list_used(pattern)
            ],
        }


def _list_rows(proof: Proof) -> Iterator[dict[str, object]]:
    if proof.pattern is None or proof.worked is None:
        return
    for part in proof.worked.parts:
        for size, rows in zip(proof.pattern.size_names, part.rows, strict=True):
            for row in rows:
                yield {
                    "part": part.title,
                    "label": row.label,
                    "line": row.span.line,
                    "size": size,
                    "status": row.status,
                    "used": row.used,
                    "made": row.made,
                    "left": row.left,
                    "stated": row.stated,
                }


def _list_style(styled: StyledRows) -> dict[str, object]:
    """How many rows are printed in the house's style, and the lines of those that are not, or print no count."""
    return {
        "rows": styled.of,
        "printed": styled.of - len(styled.kept),
        "in_words": [row.span.line for row in styled.kept],
        "without_count": list(styled.silent_lines),
        "chains_unmoved": list(styled.unmoved_lines),
    }


def close_proof(proof: Proof) -> list[str]:
    """How many rows were worked, which were taken on trust and why, and what the counts decided."""
    if proof.pattern is None or proof.worked is None:
        return []
    lines = [_count_rows(proof.pattern.title, proof.pattern.size_names, proof.worked)]
    lines.extend(_tell_trust(proof, proof.worked))
    lines.extend(_tell_style(proof.styled) if proof.styled else ())
    lines.extend(
        f"  read from the counts: {reading.text} ({_tell_place(reading.span)})" for reading in proof.worked.readings
    )
    lines.extend(f"  not compared: {told.text} ({_tell_place(told.span)})" for told in proof.worked.uncompared)
    return lines


def _count_rows(title: str, sizes: tuple[str, ...], worked: WorkedPattern) -> str:
    status = Counter(row.status for row in _all_rows(worked))
    total = status.total()
    if not total:
        return f"{title}: no rows to work"
    in_sizes = f" in {counted(len(sizes), 'size')}" if len(sizes) > 1 else ""
    told = f"{status['worked']} of {counted(total, 'row')}{in_sizes} worked stitch by stitch"
    if status["worked"] == total:
        told = f"all {told.partition(' of ')[2]}" if total > 1 else f"1 row{in_sizes} worked stitch by stitch"
    if status["broken"]:
        told += f", {status['broken']} with something wrong"
    if status["trusted"]:
        told += f", {status['trusted']} taken on trust"
    return f"{title}: {told}"


def _tell_trust(proof: Proof, worked: WorkedPattern) -> list[str]:
    """The rows on trust by their place in the source, each with what was found at it."""
    trusted: dict[Span, WorkedRow] = {}
    for row in _all_rows(worked):
        if row.status == "trusted":
            trusted.setdefault(row.span, row)
    lines = []
    for row in list(trusted.values())[:MOST_TRUSTED]:
        reasons = [
            finding.message
            for finding in proof.findings
            if finding.span.file is row.span.file and row.span.start <= finding.span.start < row.span.end
        ]
        reason = reasons[0] if reasons else "its words are not read"
        lines.append(f"  on trust: {row.label or 'a row'} ({_tell_place(row.span)}): {reason}")
    if len(trusted) > MOST_TRUSTED:
        lines.append(f"  on trust: {counted(len(trusted) - MOST_TRUSTED, 'further row')}")
    return lines


def _tell_style(styled: StyledRows) -> Iterator[str]:
    """How many rows are in the house's style, and which are not."""
    printed = styled.of - len(styled.kept)
    told = f"  house style: {printed} of {counted(styled.of, 'row')} printed in it and read back"
    if styled.kept:
        told += f"; the words of the author stay at {_name_lines([row.span.line for row in styled.kept])}"
    yield told
    if styled.arranged.has_long_labels:
        yield '  house style: labels stay in full, as "R1" would make a round of a row, or a row of a round'
    if styled.unmoved_lines:
        yield f"  house style: the turning chain stays where it is at {_name_lines(styled.unmoved_lines)}"


def _name_lines(lines: Sequence[int]) -> str:
    """`line 4`, `lines 4, 8 and 12`, `lines 4, 8 … and 20 more`."""
    named = [str(line) for line in lines[:MOST_KEPT]]
    if len(lines) > MOST_KEPT:
        named.append(f"{len(lines) - MOST_KEPT} more")
    return f"line{'s' if len(lines) > 1 else ''} {join_words(named)}"


def _all_rows(worked: WorkedPattern) -> Iterator[WorkedRow]:
    for part in worked.parts:
        for rows in part.rows:
            yield from rows


def _tell_place(span: Span) -> str:
    return f"line {span.line}"
