"""The contrast of colours against published and worked values; what was read where stands beside each."""

import pytest
from setwright.compiler.contrast import LEAST_CONTRAST, WHITE, contrast
from setwright.compiler.vocabulary import ACCENTS


@pytest.mark.parametrize(
    ("colour", "on_white"),
    [
        ("#ffffff", 1.0),  # the same colour: 1 to 1, by definition (WCAG 2.2, "contrast ratio")
        ("#000000", 21.0),  # the most there is, by definition
        ("#0000ff", 8.59),  # read in livebook.manning.com
        ("#767676", 4.54),  # 46% grey: read in livebook.manning.com
        # Worked from the formula in W3C's definition of relative luminance.
        ("#595959", 7.005), ("#5a5a5a", 6.897), ("#777777", 4.478), ("#949494", 3.033), ("#ffff00", 1.074),
    ],
)  # fmt: skip
def test_contrast_on_white(colour: str, on_white: float) -> None:
    assert contrast(colour, WHITE) == contrast(WHITE, colour) == pytest.approx(on_white, abs=5e-3)


def test_the_greys_beside_the_bar_stand_on_their_sides_of_it() -> None:
    assert contrast("#767676", WHITE) > LEAST_CONTRAST > contrast("#777777", WHITE)


@pytest.mark.parametrize("name", ACCENTS)
def test_accents_by_name_reach_the_stricter_level(name: str) -> None:
    assert contrast(ACCENTS[name], WHITE) >= 7  # WCAG 2.2, success criterion 1.4.6 (AAA)
