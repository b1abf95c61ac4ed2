"""Letters are read as they were meant."""

import pytest

from garage.engine.letters import as_meant
from garage.engine.systems_said import systems_said


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        *(("ＢＲＡＫＥ hoses", "brake hoses"), ("Ⓑrake", "brake"), ("brаke", "brake"), ("𝐁𝐫𝐚𝐤𝐞", "brake")),
        *(("b r a k e line", "brake line"), ("b.r.a.k.e", "brake"), ("b-r-a-k-e", "brake"), ("b_r_a_k_e", "brake")),
        *(("o s r shock", "o s r shock"), ("a b c", "a b c"), ("bra\u200cke", "brake"), ("brake\u0301", "brake")),
        *(("new рас pipe", "new pac pipe"), ("рессора", "рессора"), ("αrm", "arm"), ("", "")),
        *(("4 x m 8 bolts", "4 x m 8 bolts"), ("Track‑rod", "track‐rod"), ("½ in", "1⁄2 in")),
    ],
)
def test_each_letter_is_the_one_that_was_meant(text, meant):
    assert as_meant(text) == meant


@pytest.mark.parametrize("title", ["ＢＲＡＫＥ hoses", "Ⓑrake", "Brаke", "b r a k e", "B R A K E S"])
def test_a_name_is_found_in_whatever_letters_it_was_written(title):
    assert systems_said(title) == ("brakes",)
