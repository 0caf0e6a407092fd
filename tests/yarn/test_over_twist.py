"""What more twist in the singles than planned does to the yarn."""

import pytest

from tests.helpers.yarns import body_of
from yarncolor.yarn.over_twist import over_twisted

SINGLES = {"single_tex": 100.0, "twist_tpm": 400.0}


@pytest.mark.parametrize("model", ["helix", "untwisting"])
def test_nothing_more_changes_nothing_whichever_model_is_in_force(model):
    yarn = body_of(spinning=SINGLES, plying={"twist_tpm": 260.0, "contraction_model": model})
    told = over_twisted(yarn, 0.0)
    assert (told.single_length, told.yarn_length) == pytest.approx((1, 1))
    assert told.contraction == pytest.approx(yarn.contraction)
    assert told.twist_tpm == pytest.approx(400)
    assert over_twisted(yarn, 0.1).twist_tpm == pytest.approx(440)
