"""Words that plainly say that nothing is wrong, and those that only sound like it; slips in words lives hang on."""

import pytest

from builds.readings.engine.seen_said import untrue_since
from builds.work.engine.faults import is_fault
from garage.engine.slips import mended
from garage.engine.systems_said import fault_said, sound_said, systems_said

SOUND = """
No play found in wheel bearing | Wheel nuts not loose, checked | No play in wheel bearing | No cracks found |
No leaks anywhere on the brake pipes | No sign of leaks at the calipers | Ball joint: no play, not bent |
Wheel bearing, no wear found | No visible cracks in the wishbone | Track rod not bent | Studs: none missing |
Hose not leaking, checked twice | Nothing loose at the rear axle | No play and no wear in the hubs |
wheel nuts aren't loose | NO PLAY IN TRACK ROD END
"""
REAL = """
No brakes | Car not stopping | no pedal | Wheel nut not tight | Wheel nuts not torqued | no brake at the rear |
No play in brake pedal | Nipple not loose enough | Nut not loose yet but turning |
Not loose when cold: brake caliper | No leak at the pump but the brake hose weeps |
Wheel bearing not only loose but cracked | No play? wheel bearing knocks | Wheel bearing loose, no cracks |
brake does not hold | brake pads worn, discs not cracked | No more play in the rack |
Brake pipe not leaking now, was wet this morning | Wheel nut missing, stud not bent |
no leak test done, brake hose damp | Hub has play | nothing holds the wheel, nut lost | Brake not releasing |
not just loose, wheel nut gone | No steering lock, column loose | Brake hose leaks, no cracks found
"""
SAID = [" ".join(line.split()) for line in SOUND.split("|")]
MEANT = [" ".join(line.split()) for line in REAL.split("|")]


@pytest.mark.parametrize("line", SAID)
def test_what_plainly_says_that_nothing_is_wrong_is_no_fault(line):
    assert (sound_said(line), fault_said(line), is_fault(line, "", found=True)) == (True, False, False)
    assert untrue_since(line) == (frozenset(), frozenset())


@pytest.mark.parametrize("line", MEANT)
def test_what_says_a_fault_is_one_whatever_else_it_denies(line):
    assert not sound_said(line)
    assert is_fault(line, "", found=True) or not systems_said(line)


@pytest.mark.parametrize(("line", "untrue"), [
    ("No play found in the hub, wheel nuts loose", "wheel_torque"), ("No cracks; hub has play", "bearing_play"),
    ("no leaks at the pump but the brake hose weeps", "brake_bleed"), ("wheel nut not tight", "wheel_torque"),
    ("no brakes, pedal to the floor", "brake_bleed"), ("brake: no pedal", "brake_bleed"),
    ("wheel nuts not torqued", "wheel_torque"),
])  # fmt: skip
def test_beside_what_is_denied_the_rest_is_heard(line, untrue):
    assert untrue in untrue_since(line)[1]


@pytest.mark.parametrize(("line", "system"), [
    ("sterring arm bent", "steering"), ("steerng stiff", "steering"), ("brkae hose leaking", "brakes"),
    ("petorl smell in the cabin", "fuel"), ("throtle sticks", "engine"), ("suspention knocks", "suspension"),
    ("whele loose", "wheels"),
])  # fmt: skip
def test_a_slip_in_a_word_that_lives_hang_on_is_the_word_that_was_meant(line, system):
    assert system in systems_said(line)


@pytest.mark.parametrize("word", ["brace", "break", "broke", "wheat", "metal", "medal", "patrol", "wearing", "damped"])
def test_a_word_of_its_own_is_no_slip(word):
    assert mended(word) == word
