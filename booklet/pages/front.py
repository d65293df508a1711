"""The cover and the page of facts at a glance."""

import re
from collections.abc import Sequence

from markupsafe import Markup

from booklet.amounts.figures import print_number
from booklet.amounts.making_time import print_hours
from booklet.amounts.own_measures import list_own
from booklet.model.amounts import Measure
from booklet.model.pattern import Gauge, Pattern, Yarn
from booklet.pages.figures import print_both, print_length, print_own, print_size_list, sum_yarn_lengths
from booklet.pages.illustrations import show_first
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import render_line, render_prose
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Cover, Fact, Section

YOUNG = ("baby", "child")
WEARERS = {  # whom a size is for, by its name
    "newborn": "a newborn",
    "baby": "a baby",
    "toddler": "a toddler",
    "child": "a child",
    "adult": "an adult",
    "woman": "a woman",
    "man": "a man",
}
GROWN = {"adult", "woman", "man", "grown-up"}  # names of sizes
MAX_SIZES_IN_LINE = 4
_FITS = re.compile(r"^(?:to )?fits?\b\s*", re.IGNORECASE)


def show_cover(manuscript: BookletInput) -> Cover:
    """Title, summary, picture and the four facts a maker chooses by."""
    pattern = manuscript.pattern
    facts = [
        Fact("Sizes" if len(pattern.sizes) > 1 else "Size", list_sizes(manuscript)),
        Fact("Level", pattern.level.capitalize()),
        Fact("Yarn", name_yarn(manuscript)),
        Fact("Terms", f"{pattern.terms} crochet terms"),
    ]
    return Cover(
        title=set_type(pattern.title),
        summary=render_line(pattern.summary, manuscript.numbers),
        picture=show_first(manuscript, "cover", "fabric", "photo", "colour-plan"),
        facts=tuple(fact for fact in facts if fact.value),
        designer=set_type(pattern.designer),
        publisher=set_type(pattern.publisher.name),
    )


def show_glance(manuscript: BookletInput) -> Section:
    """Everything a maker needs in order to decide and to shop, in one table."""
    pattern = manuscript.pattern
    yarn = pattern.yarn
    hooks = [
        material.text for material in manuscript.amounts.materials if material.heading.casefold().startswith("hook")
    ]
    fibre = f"{yarn.fibre}" if yarn else ""
    facts = [
        Fact("What it is", _name_thing(manuscript)),
        Fact("How it is made", render_line(_sentence(pattern.construction))),
        Fact("Level", set_type(_sentence(pattern.level))),
        Fact("Sizes" if len(pattern.sizes) > 1 else "Size", list_sizes(manuscript)),
        Fact("To fit", _say_whom_it_fits(manuscript)),
        Fact("Finished size", _list_finished_sizes(manuscript)),
        Fact("Yarn", ", ".join(words for words in (name_yarn(manuscript), fibre) if words)),
        Fact("Yarn in all", _list_yarn_totals(manuscript)),
        Fact("Hook", set_type("; ".join(hooks))),
        Fact(
            "Gauge",
            Markup("<br>").join(say_gauge(gauge, pattern.units_first) for gauge in pattern.stated_gauges),
        ),
        Fact("Making time", _say_making_time(manuscript)),
        Fact("Terms", f"{pattern.terms} crochet terms throughout"),
        Fact("Safety", _point_to_safety(manuscript)),
    ]
    return Section(
        key="glance",
        title="At a glance",
        anchor="at-a-glance",
        lead=render_prose(pattern.summary, manuscript.numbers),
        facts=tuple(fact for fact in facts if fact.value),
    )


def _say_making_time(manuscript: BookletInput) -> str:
    """Hours size by size with what is assumed; empty where the pattern does not ask for it."""
    pattern = manuscript.pattern
    times = list(map(print_hours, manuscript.amounts.making_time))
    if not times or pattern.making_time is None:
        return ""
    low, high = (print_number(pace) for pace in pattern.making_time)
    told = (f"{name} {time}".strip() for name, time in zip(pattern.size_names, times, strict=True))
    words = times[0] if len(set(times)) == 1 else "; ".join(told)
    pace = low if low == high else f"{low} to {high}"
    return set_type(f"{words}, at {pace} seconds a stitch; ends and finishing not counted")


def _point_to_safety(manuscript: BookletInput) -> Markup | str:
    """The headings of the cautions in one line, with the way to the full words; empty where there are none."""
    headings = list_headings(manuscript)
    if not headings:
        return ""
    return Markup(
        'See the <a href="#safety">safety notes</a><span class="on-page" data-to="#safety"></span>: {}'
    ).format("; ".join(headings))


def list_headings(manuscript: BookletInput) -> list[str]:
    """The subjects of the safety notes as parts of a sentence: `a toy that is given or sold`, `filling`."""
    return [_lower_start(set_type(caution.heading)) for caution in manuscript.amounts.cautions]


def list_sizes(manuscript: BookletInput) -> str:
    """The names of the sizes, smallest first."""
    return set_type(", ".join(name for name in manuscript.pattern.size_names if name))


def say_gauge(gauge: Gauge, units_first: str) -> str:
    """A gauge in one line: `16 sts and 17 rows = 10 cm (4 in) in moss stitch, 5 mm hook, after blocking`."""
    rows_word = "rnds" if gauge.in_rounds else "rows"
    counts = f"{print_number(gauge.sts)} {gauge.motif or 'sts'}"
    if gauge.motif and not gauge.motif[-1].isdigit() and gauge.sts != 1:
        counts += "" if counts.endswith("s") else "s"
    elif gauge.motif[-1:].isdigit():
        counts = gauge.motif  # "rnds 1-4"
    if gauge.rows is not None:
        counts += f" and {print_number(gauge.rows)} {rows_word}"
    words = [f"{counts} = {_say_gauge_length(gauge, units_first)}"]
    if gauge.stitch:
        words[0] += f" in {gauge.stitch}"
    if gauge.hook_mm is not None:
        words.append(f"{print_number(gauge.hook_mm)}{NO_BREAK_SPACE}mm hook")
    words.append("after blocking" if gauge.blocked else "")
    return set_type(", ".join(word for word in words if word))


def _say_gauge_length(gauge: Gauge, units_first: str) -> str:
    """The trade states a gauge over 4 in and 10 cm as one length; any other stands as it was written."""
    over = gauge.over
    inches = {("cm", 10.0): 4.0, ("in", 4.0): 4.0, ("cm", 5.0): 2.0, ("in", 2.0): 2.0}.get((over.unit, over.amount))
    if inches is None:
        return print_length(over)
    first, second = print_both(inches * 2.5, inches, units_first)
    return f"{first} ({second})"


def _name_thing(manuscript: BookletInput) -> str:
    pattern = manuscript.pattern
    audience = {
        "adult": "",
        "": "",
        "kitchen": "the kitchen",
        "hanging": "hanging up",
        "under three": "a child under three",
    }
    words = audience.get(pattern.made_for)
    if words is None:
        article = "an" if pattern.made_for[:1] in "aeiou" else "a"
        words = f"{article} {pattern.made_for}"
    kind = pattern.kind.capitalize()
    names = [name.casefold() for name in manuscript.all_sizes or pattern.size_names]
    if kind and pattern.made_for in YOUNG and GROWN & set(names):
        if not manuscript.only_size:
            return set_type(f"{kind}, from {pattern.made_for} to adult")
        wearer = WEARERS.get(manuscript.only_size.casefold(), "")
        return set_type(f"{kind}, for {wearer}" if wearer else kind)
    return set_type(f"{kind}, for {words}" if kind and words else kind or (f"For {words}" if words else ""))


def name_yarn(manuscript: BookletInput) -> str:
    """The weight of the yarn by name and number, or the yarn's own name."""
    yarn = manuscript.pattern.yarn
    return set_type(name_weight(yarn) or yarn.name) if yarn else ""


def name_weight(yarn: Yarn) -> str:
    """`Medium (weight 4)`, by one of them where the other is not known; empty where neither is."""
    if yarn.weight is None:
        return yarn.weight_name
    return f"{yarn.weight_name} (weight {yarn.weight})" if yarn.weight_name else f"Weight {yarn.weight}"


def _say_whom_it_fits(manuscript: BookletInput) -> Markup | str:
    """The wearer's measures in all sizes, `Bust: 76 (86) cm or 30 (34) in`; empty where none is given."""
    pattern = manuscript.pattern
    own = [one for one in list_own(manuscript.sized, manuscript.amounts.measures) if one.is_body]
    named = [(_FITS.sub("", one.name), print_own(one, pattern.units_first)) for one in own]
    lines = [_tell_measure(_sentence(name), pairs, len(pattern.size_names)) for name, pairs in named if all(pairs)]
    return Markup("<br>").join(lines)


def _list_finished_sizes(manuscript: BookletInput) -> Markup | str:
    """Width by length of the whole: a line a size, or a line a measure where sizes are many."""
    pattern = manuscript.pattern
    chosen = _pick_leading_measures(manuscript)
    if not chosen or any(not pair for _, pairs in chosen for pair in pairs):
        return ""
    names = pattern.size_names
    if len(names) > MAX_SIZES_IN_LINE or any(name for name, _ in chosen):
        lines = [_tell_measure(_sentence(name), pairs, len(names)) for name, pairs in chosen]
        return Markup("<br>").join(lines)
    lines = []
    for size, name in enumerate(names):
        first, second = (_join_sides([pairs[size][unit] for _, pairs in chosen]) for unit in (0, 1))
        head = f"{set_type(name)}: " if name and len(names) > 1 else ""
        lines.append(f"{head}{first} ({second})")
    return Markup("<br>").join(lines)


def _tell_measure(name: str, pairs: Sequence[tuple[str, ...]], sizes: int) -> str:
    """`Depth: 14 (16, 19) cm or 5½ (6½, 7½) in`; one size in the form `24 cm (9½ in)`."""
    if sizes < 2:
        return f"{name}: {pairs[0][0]} ({pairs[0][1]})"
    return f"{name}: " + " or ".join(_list_in_unit(list(figures)) for figures in zip(*pairs, strict=True))


def _join_sides(figures: list[str]) -> str:
    """Width by length, the unit once: `70.5 × 71 cm`."""
    *sides, last = figures
    return f"{NO_BREAK_SPACE}×{NO_BREAK_SPACE}".join([*(side.rpartition(NO_BREAK_SPACE)[0] for side in sides), last])


def _list_in_unit(figures: list[str]) -> str:
    """Figures of one unit in the trade's form, the unit once: `16 (17¾, 19) in`."""
    unit = figures[0].rpartition(NO_BREAK_SPACE)[2]
    return f"{print_size_list([figure.rpartition(NO_BREAK_SPACE)[0] for figure in figures])}{NO_BREAK_SPACE}{unit}"


def _pick_leading_measures(manuscript: BookletInput) -> list[tuple[str, Sequence[tuple[str, ...]]]]:
    """The measures that say how large the whole is, each with its figures in both units, size by size.

    Those of the first piece are the whole's where it is the only one. Of several pieces the sizes' own measure
    leads, such as the bust of a garment or the height of a toy, and the length of the first piece stands beside it.
    """
    pattern, measures = manuscript.pattern, manuscript.amounts.measures
    first = [measure for measure in measures if measure.part == measures[0].part]
    across = [measure for measure in first if measure.axis in ("width", "circumference")]
    along = [measure for measure in first if measure.axis in ("length", "depth")]
    own = [measure for measure in list_own(manuscript.sized, measures) if not measure.is_body]
    if own and len({measure.part for measure in measures}) != 1:
        beside = () if own[0].is_upright else _print_measures(along[:1], pattern, named=True)
        return [(own[0].name, print_own(own[0], pattern.units_first)), *beside]
    is_round = any(measure.axis == "circumference" for measure in across[:1])
    named = is_round or len(pattern.size_names) > MAX_SIZES_IN_LINE
    return _print_measures([*across[:1], *along[:1]], pattern, named=named)


def _print_measures(
    measures: Sequence[Measure], pattern: Pattern, named: bool
) -> list[tuple[str, Sequence[tuple[str, ...]]]]:
    return [
        (
            measure.name if named else "",
            [
                print_both(cm, inches, pattern.units_first) if cm is not None and inches is not None else ()
                for cm, inches in zip(measure.cm, measure.inches, strict=True)
            ],
        )
        for measure in measures
    ]


def _list_yarn_totals(manuscript: BookletInput) -> Markup | str:
    pattern, yarn = manuscript.pattern, manuscript.amounts.yarn
    if yarn is None:
        return ""
    by_size = {name: [need for need in yarn.needs if need.size == name] for name in pattern.size_names}
    by_size = {name: needs for name, needs in by_size.items() if needs}
    lengths = [
        sum_yarn_lengths([need.metres_to_buy for need in needs], pattern.units_first) for needs in by_size.values()
    ]
    if len(lengths) > MAX_SIZES_IN_LINE:
        return " or ".join(_list_in_unit(list(figures)) for figures in zip(*lengths, strict=True))
    lines: list[str] = []
    for (name, needs), (first, second) in zip(by_size.items(), lengths, strict=True):
        known = [need.balls for need in needs if need.balls is not None]
        balls = f", {sum(known)} {'ball' if sum(known) == 1 else 'balls'}" if known else ""
        head = f"{set_type(name)}: " if name and len(by_size) > 1 else ""
        lines.append(f"{head}{first} ({second}){balls}")
    return Markup("<br>").join(lines)


def _lower_start(text: str) -> str:
    """The text without the capital at its start; a word in capitals keeps it."""
    return text[:1].lower() + text[1:] if text[1:2] == " " or text[1:2].islower() else text


def _sentence(text: str) -> str:
    """The text with a capital at its start."""
    text = text.strip()
    return text[:1].upper() + text[1:]
