"""Markdown made safe and set."""

import time

import pytest

from booklet.pages.prose import fill_names, render_line, render_prose


@pytest.mark.parametrize(
    "hostile",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "![cat](file:///etc/passwd)",
        "[click](javascript:alert(1))",
        "[click](data:text/html,x)",
        "<a href='https://a.example' onclick='x()'>a</a>",
        "<style>p{display:none}</style>",
        '<https://a.example/"onclick=x>',
        "[x]: javascript:alert(1)\n\n[x][x]",
    ],
)
def test_nothing_hostile_comes_through(hostile: str) -> None:
    for html in (render_prose(hostile), render_line(hostile)):
        assert "<script" not in html
        assert "<img" not in html
        assert "<style" not in html
        assert 'href="javascript' not in html
        assert 'href="data' not in html
        assert 'href="file' not in html
        assert not any(part.startswith("on") for tag in html.split("<")[1:] for part in tag.split(">")[0].split()[1:])


def test_links_lead_to_the_web_to_mail_and_into_the_booklet() -> None:
    text = "[a](https://a.example) [b](mailto:b@a.example) [c](#gauge) [d](other.md)"
    assert render_line(text) == (
        '<a href="https://a.example">a</a> <a href="mailto:b@a.example">b</a> <a href="#gauge">c</a> d'
    )


def test_typography_reaches_across_tags_and_leaves_code_alone() -> None:
    assert render_line('"*so*" and `4"`') == '“<em>so</em>” and <code>4"</code>'


def test_characters_of_html_stay_escaped() -> None:
    assert render_line("a < b & c > d") == "a &lt; b &amp; c &gt; d"


@pytest.mark.parametrize(
    "text",
    ["- one\n\n- two", "1. one\n\n   more\n\n2. two", "- a\n    - b\n\n    - c\n\n- d", "- a\n\n    > quoted"],
)
def test_list_items_hold_no_paragraphs(text: str) -> None:
    html = render_prose(text)
    assert "<li><p>" not in html.replace("\n", "")
    assert "<p>" not in html or "<blockquote>" in html


def test_names_in_braces_become_a_size_list() -> None:
    numbers = {"panel": (61, 65, 69), "edge": (4, 4, 4)}
    assert fill_names("{panel} sts, {edge} ch, {other}", numbers) == "61 (65, 69) sts, 4 ch, {other}"


@pytest.mark.parametrize("indent", ["  ", "   ", "    "])
def test_lists_within_lists_may_be_indented_by_two_to_four_spaces(indent: str) -> None:
    assert (
        render_prose(f"- a\n{indent}- b\n- c").replace("\n", "") == "<ul><li>a<ul><li>b</li></ul></li><li>c</li></ul>"
    )


@pytest.mark.parametrize(
    "text", ["[" * 50_000, "![" * 9_000, "[a](" * 5_000, "> " * 3_000, "- " * 3_000, "> - " * 2_000, "*a " * 6_000,
             "\n".join("    " * depth + "- a" for depth in range(90))]
)  # fmt: skip
def test_text_made_to_take_long_or_nest_deep_is_rendered_all_the_same(text: str) -> None:
    start = time.perf_counter()
    html = render_prose(text)
    assert time.perf_counter() - start < 3
    assert html.count("<ul>") <= 40
    assert html.count("<blockquote>") <= 10


def test_a_list_that_begins_with_another_number_keeps_it_on_paper() -> None:
    assert '<ol start="3" style="counter-reset:list-item 2">' in render_prose("3. Sew the sides.\n4. Block.")
    assert "style" not in render_prose("1. Sew the sides.\n2. Block.")
