"""The cover and the page of facts at a glance."""

from markupsafe import Markup

from booklet.amounts.figures import print_number
from booklet.amounts.making_time import print_hours
from booklet.model.pattern import Gauge
from booklet.pages.figures import list_in_unit, print_both, print_length, print_yarn_length
from booklet.pages.finished_size import MAX_SIZES_IN_LINE, list_finished_sizes
from booklet.pages.illustrations import show_first
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import render_line, render_prose
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Cover, Fact, Section


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
        Fact("Finished size", list_finished_sizes(manuscript)),
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
    headings = [set_type(caution.heading) for caution in manuscript.amounts.cautions]
    if not headings:
        return ""
    return Markup(
        '{}: <a href="#safety">see the safety notes</a><span class="on-page" data-to="#safety"></span>'
    ).format("; ".join([headings[0], *map(_lower_start, headings[1:])]))


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
    return set_type(f"{kind}, for {words}" if kind and words else kind or (f"For {words}" if words else ""))


def name_yarn(manuscript: BookletInput) -> str:
    """The weight of the yarn by name and number, or the yarn's own name."""
    yarn = manuscript.pattern.yarn
    if yarn is None:
        return ""
    weight = (
        ""
        if yarn.weight is None
        else f"{yarn.weight_name} (weight {yarn.weight})"
        if yarn.weight_name
        else f"Weight {yarn.weight}"
    )
    return set_type(weight or yarn.name)


def _list_yarn_totals(manuscript: BookletInput) -> Markup | str:
    pattern, yarn = manuscript.pattern, manuscript.amounts.yarn
    if yarn is None:
        return ""
    totals = dict(yarn.totals)
    if not totals and len({need.letter for need in yarn.needs}) == 1:
        totals = {need.size: need for need in yarn.needs}
    needs = [totals[name] for name in pattern.size_names if name in totals]
    lengths = [print_yarn_length(need.metres_to_buy, pattern.units_first) for need in needs]
    if len(needs) > MAX_SIZES_IN_LINE:
        return " or ".join(list_in_unit(list(figures)) for figures in zip(*lengths, strict=True))
    lines: list[str] = []
    for need, (first, second) in zip(needs, lengths, strict=True):
        balls = "" if need.balls is None else f", {need.balls} {'ball' if need.balls == 1 else 'balls'}"
        lines.append(f"{set_type(need.size)}: {first} ({second}){balls}" if need.size else f"{first} ({second}){balls}")
    return Markup("<br>").join(lines)


def _lower_start(text: str) -> str:
    """The text without the capital at its start; a word in capitals keeps it."""
    return text[:1].lower() + text[1:] if text[1:2].islower() else text


def _sentence(text: str) -> str:
    """The text with a capital at its start."""
    text = text.strip()
    return text[:1].upper() + text[1:]
