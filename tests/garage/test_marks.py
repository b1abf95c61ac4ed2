"""Template tags: words that stand there on a condition, names with their tape, a form of one button."""

import re

from django.template import Context, Template
from django.test import RequestFactory

from tests.pages import words, written


def drawn(source: str, **context: object) -> str:
    request = RequestFactory().get("/cars/?page=2")
    return Template("{% load marks %}" + source).render(Context({"request": request, **context}))


def test_words_that_are_not_always_there_bring_what_leads_to_them():
    source = '{{ name }}{{ thread|after:", " }}{{ klass|after:", " }}{{ single|then:"; one of a kind" }}'
    assert drawn(source, name="Stud", thread="<M12>", klass="", single=True) == "Stud, &lt;M12&gt;; one of a kind"
    assert drawn(source, name="Stud", thread=None, klass="10.9", single=False) == "Stud, 10.9"


def test_a_comma_may_follow_the_name_of_a_car():
    line = drawn("{% car_name name 'green' %}, Saltmarsh", name="<Heron>")
    assert "&lt;Heron&gt;<span" in line
    assert words(line).strip() == "&lt;Heron&gt; , green tape , Saltmarsh"
    assert line.endswith("</span>, Saltmarsh")


def test_a_stripe_says_how_its_job_stands():
    assert [drawn("{{ s|stripe_word }}", s=stripe) for stripe in ("half", "none", "")] == ["in hand", "open", "open"]


def test_a_state_is_a_bolt_and_its_word_or_another():
    assert words(drawn("{% state 'hold' %}")).strip() == "on hold"
    assert 'href="#bolt-hold"' in drawn("{% state 'hold' %}") and 'href="#bolt-none"' in drawn("{% state none %}")
    assert words(drawn("{% state 'full' word %}", word="fits <M8>")).strip() == "fits &lt;M8&gt;"


def test_a_rank_says_by_which_job_it_counts():
    assert words(drawn("{% rank 'needed' %}")).strip() == "needed"
    assert "#mark-safety" in drawn("{% rank 'safety' %}") and "#mark-safety" not in drawn("{% rank 'wanted' %}")
    assert "“Weld &lt;it&gt;” waits for it" in drawn("{% rank 'safety' title %}", title="Weld <it>")


def test_a_button_says_what_it_is_told_and_nothing_that_stands_round_it():
    around = {"kind": "danger", "name": "else", "value": "1", "spoken": "else", "next": "/else/"}
    form = written(drawn('{% act url "Sign" spoken=job %}', url="/jobs/1/sign/", job="Weld <the> arm", **around))
    assert '<button class="plain">Sign<span class="unseen">: Weld &lt;the&gt; arm</span></button>' in form
    assert 'action="/jobs/1/sign/"' in form
    assert "else" not in form
    assert re.search(r'name="next" value="/cars/\?page=2"', form)
