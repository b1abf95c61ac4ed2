"""Which words plainly name work that opens nothing; common practice, no source."""

import pytest

from garage.engine.opens_nothing_said import opens_nothing_said


@pytest.mark.parametrize(
    ("plain", "titles"),
    [
        (True, "Polish the bonnet; wash the car; check the exhaust; look at the prop; order a gearbox; charge battery"),
        (True, "Sponsor stickers; race numbers decal; measure the prop; top up the gearbox; listen to the diff"),
        (False, "Prop off and on; fit the wide arches; undertray off; dash out; new doughnuts on the prop; exhaust"),
        (False, "Check the exhaust, it leaks; clean and refit the prop; look at the prop and fit a new UJ; sort it"),
        (False, "Wiper motor; washer jets; oil cooler; o-ring; dust seals; check valve; grease nipple; ring gear"),
        (False, "Back box; polish the ports, head off; bumper; roll the arches; "),
    ],
)
def test_cleaning_looking_and_ordering_open_nothing(plain, titles):
    assert [title for title in titles.split(";") if opens_nothing_said(title) is not plain] == []
