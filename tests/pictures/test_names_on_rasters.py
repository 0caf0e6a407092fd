"""Names of lots in the sentences and titles that a raster writes."""

import pytest

from yarncolor.pictures.fonts import in_sentence, pixel_name


@pytest.mark.parametrize("name", ["藍", "كحلي", "Kelp 藍"])
def test_what_the_font_cannot_set_has_one_number_in_sentences_and_keys(name):
    names = ("Foam", name)
    assert in_sentence(f"today: Foam, {name}", names) == "today: Foam, lot 2"
    assert pixel_name(1, names) == "lot 2"
