"""Whatever a guide holds, its author is told what is wrong and where, soon, in bounded memory."""

import json
import time
from functools import cache
from pathlib import Path

import pytest
from bounded_cases import Ended, ends_of
from hostile_cases import cases

from guidegen.errors import ContentError
from guidegen.layout.nesting.stored_plans import parse_plans
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.words import ENGLISH

TESTS = Path(__file__).parent
CASES = cases()


@cache
def results() -> dict[str, Ended]:
    """How each case ended in a process of its own, which has 1 GiB of memory and 5 s for each."""
    return ends_of("hostile_run.py")


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_hostile_guide_is_told_with_its_place(case):
    """A hostile folder ends in problems with a place and the expected words, never otherwise."""
    result = results()[case.name]
    assert result["ended"] == "problems", result
    assert case.says in result["words"]
    assert result["placed"], result["words"][:500]
    assert len(result["words"]) < 100_000


def test_the_corpus_is_large_enough():
    """With the drawings there are at least 150 hostile files, each with a name of its own."""
    drawings = len(list((TESTS / "corpus" / "svg").glob("*.svg")))
    assert len({case.name for case in CASES}) == len(CASES)
    assert len(CASES) >= 150
    assert len(CASES) + drawings >= 250


LIST = "{% set l = [" + "1," * 1000 + "] %}"
NESTED = LIST + "{% for a in l %}" * 4 + "{% endfor %}" * 4
"""A thousand turns, each of a thousand turns, …"""
LONG_BODY = LIST + "{% for a in l %}{% for b in l %}" + "x" * 100_000 + "{% endfor %}{% endfor %}"
"""A million turns of a long text: 100 GB."""


@pytest.mark.parametrize(
    "template",
    [
        "{{ ''.__class__.__mro__ }}",
        "{{ views.__init__.__globals__ }}",
        "{{ range(999999999) | list | length }}",
        "{% for x in views recursive %}{{ loop(views) }}{% endfor %}",
        NESTED,
        LONG_BODY,
        "{{ 'a' * 999999999 }}",
        "{{ [1] * 999999999 }}",
        "{{ 9 ** 9 ** 9 }}",
        "{{ '%999999999d' | format(1) }}",
        "{{ '{:>999999999}'.format(1) }}",
        "{{ 'a'.ljust(999999999) }}",
        "{{ 'a' | center(999999999) }}",
        "{{ 'a' | indent(999999999) }}",
        "{{ lipsum(n=100000) }}",
        "{% macro a() %}{{ a() }}{% endmacro %}{{ a() }}",
        "{% include 'a.j2' %}",
        "{% include '/etc/hosts' %}",
        "{{ 1 / 0 }}",
        "{{ ''.split('') }}",
        "{{ " + "(" * 5000 + "1" + ")" * 5000 + " }}",
        "{% set views.a = 1 %}",
        "{{ views.append(1) }}",
        "{% set a = 'aa' %}" + "{% set a = a ~ a %}" * 40 + "{{ a|length }}",
        "{% set a = 'aa' %}" + "{% set a = a + a %}" * 40 + "{{ a|length }}",
        "{% set a = [1] %}" + "{% set a = a + a %}" * 40 + "{{ a|length }}",
        "{% set a = 'aa' %}" + "{% set a = a|replace('a', 'aaaaaaaaaa') %}" * 12,
        "{% set a = 'aa' %}" + "{% set a = a.replace('a', 'aaaaaaaaaa') %}" * 12,
        "{% set a = ['aa', 'aa'] %}"
        + "{% set b = a|join('') %}{% set a = [b, b, b, b, b, b, b, b] %}" * 12,
        "{% set a = 'a' %}" + "{% set a = a.join([a, a, a, a, a]) %}" * 20,
        "{{ '%999999999d' % 1 }}",
        "{{ 9 * 9 }}" + "{% set a = 999999999 %}" + "{% set a = a * a %}" * 40 + "{{ a }}",
        "{% macro m(n) %}{{ m(n + 1) if n < 40 }}{{ m(n + 1) if n < 40 }}{% endmacro %}{{ m(0) }}",
        "{% set n = n|default(0) + 1 %}{% if n < 40 %}{% include 'a.j2' %}{% include 'a.j2' %}{% endif %}",
        "{{ views|slice(10**8)|list }}",
        "{{ views|slice(100000000)|list }}",
        "{{ views|batch(100000000, 1)|list }}",
        "{{ views|tojson(indent=1000000000) }}",
        "{{ 5|round(-999999999) }}",
        "{{ 5|round(999999999) }}",
        "{{ 'a'|wordwrap(1, wrapstring='b' ~ 'c') }}",
        "{{ (1).to_bytes(1000000000, 'big') }}",
        "{% set a = [1, 1] %}" + "{% set a = [a, a] %}" * 40 + "{{ a }}",
        "{% set a = [1, 1] %}" + "{% set a = [a, a] %}" * 40 + "{{ a ~ '' }}",
        "{% set a = [1, 1] %}" + "{% set a = [a, a] %}" * 40 + "{{ a|join }}",
        "{% set a = [1, 1] %}" + "{% set a = [a, a] %}" * 40 + "{{ a|string }}",
        *(
            "".join(
                f"{{% set {n} = [1, 1] %}}" + f"{{% set {n} = [{n}, {n}] %}}" * 40 for n in "ab"
            )
            + compared
            for compared in (
                "{{ a == b }}",
                "{{ a in [b] }}",
                "{{ [a, b]|sort|length }}",
                "{{ [a].index(b) }}",
                "{{ a is eq b }}",
                "{{ [a]|select('equalto', b)|list|length }}",
            )
        ),
        "{% macro m(n) %}{% if n %}{{ m(n - 1, varargs, varargs) }}{% else %}"
        "{{ varargs == [varargs, varargs] }}{% endif %}{% endmacro %}{{ m(60, 1) }}",
        "{% set s = namespace(a=1) %}"
        + LIST
        + "{% for x in l %}{% set s.a = [s.a, s.a] %}{% endfor %}",
        "{% macro m() %}"
        + "x" * 100_000
        + "{% endmacro %}"
        + LIST
        + "{% for a in l %}{% for b in l %}{{ m() }}{% endfor %}{% endfor %}",
        LIST
        + "{% set t = 'x' %}"
        + "{% set t = t ~ t %}" * 19
        + "{% for a in l %}{{ t }}{% endfor %}",
    ],
)
def test_a_hostile_template_is_told_with_its_file(template):
    """A template that reaches for Python, or for endless text or work, is an error that names its
    file, within 5 s of the processor."""
    started = time.process_time()
    with pytest.raises(ContentError) as caught:
        Engine(Theme("bad", {"a.j2": template.encode()}), ENGLISH).render("a.j2", views=[1])
    assert caught.value.problems[0].place.file.startswith("themes/bad/")
    assert time.process_time() - started < 5


def test_plain_templates_are_let_through():
    """Sums, texts after one another, joined lists and many turns are what templates are for."""
    template = (
        "{{ 2 + 3 * 4 - 1 }} {{ 7 // 2 }} {{ 7 % 4 }} {{ 'a' ~ 1 ~ '<' }} {{ [1, 'b<']|join(' + ') }} "
        "{{ ([1] + [2])|length }} {{ 'aXb'|replace('X', '-') }} {{ 2.345|round(1) }} {{ none }} "
        "{% for a in many %}{{ a }}{% endfor %}"
    )
    text = Engine(Theme("good", {"a.j2": template.encode()}), ENGLISH).render(
        "a.j2", many=["x"] * 50_000
    )
    assert text == "13 3 3 a1&lt; 1 + b&lt; 2 a-b 2.3 None " + "x" * 50_000


PLAN = {
    "material": "foam",
    "thickness": 5,
    "least": 1,
    "method": "rows",
    "cost": 1,
    "least_cost": 1,
    "sheets": [],
}


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        '{"a":' * 100_000,
        "[]",
        "null",
        "1" * 5000,
        "{",
        '{"version": 1}',
        '{"version": 1, "plans": []}',
        '{"version": 1, "plans": {"a": 1}}',
        json.dumps({"version": 1, "plans": {"a": {**PLAN, "cost": float("nan")}}}),
        json.dumps({"version": 1, "plans": {"a": {**PLAN, "cost": float("inf")}}}),
        json.dumps({"version": 1, "plans": {"a": {**PLAN, "method": "__import__"}}}),
        json.dumps({"version": 1, "plans": {"a": {**PLAN, "sheets": [{"sheet": []}]}}}),
        json.dumps({"version": 1, "plans": {"a": {**PLAN, "sheets": "abc"}}}),
        '{"version": 1, "plans": {"a": {"cost": ' + "9" * 6000 + "}}}",
        json.dumps({"version": 1, "plans": {"a": {**PLAN, "least": 1e400}}}),
    ],
    ids=range(16),
)
def test_hostile_plans_are_made_again(text):
    """A file of plans that does not hold brings a warning and no plan."""
    stored, problems = parse_plans(text, "plans/M.json")
    assert not stored.plans
    assert [problem.code for problem in problems] == ["stored-plans"]
    assert len(str(problems[0])) < 1000
