"""Lines of many equal sections: exact, to the last digits that a machine has."""

import mpmath
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.layers import evaluate, layer_polynomials, layered_line
from reelwright.core.physics.two_port import cascade, greatest_gain, line_of
from tests.core.physics.network_world import band, small_coax


def _in_many_digits(steps: np.ndarray, q: complex) -> tuple[complex, complex]:
    """S11 and S22 of a stack by 2×2 products in forty digits, q taken exactly as it is."""
    with mpmath.workdps(40):
        place = mpmath.mpc(q)
        a, b, c, d = mpmath.mpf(1), mpmath.mpf(0), mpmath.mpf(0), mpmath.mpf(1)
        for at, step in enumerate(steps):
            r = mpmath.mpf(float(step))
            a, b, c, d = a + b * r, a * r + b, c + d * r, c * r + d
            if at < len(steps) - 1:
                b, d = b * place, d * place
        return complex(c / a), complex(-b / a)


@pytest.mark.parametrize("spread", [0.005, 0.05])
def test_a_thousand_sections_agree_with_forty_digits(spread: float) -> None:
    """1,000 random sections: S11 and S22 within 1e-13 of products in forty digits."""
    chance = np.random.default_rng(11)
    impedance = 75 * np.exp(spread * chance.standard_normal(1000))
    around = np.concatenate(([75.0], impedance, [75.0]))
    steps = (around[1:] - around[:-1]) / (around[1:] + around[:-1])
    frequency = np.linspace(1e6, 3e9, 12)
    through = np.sqrt(frequency) * 1.2e-7 + 2j * np.pi * frequency * 0.2e-9
    q = np.exp(-2 * through)
    forth, back = layer_polynomials(steps)
    values = evaluate(np.stack([forth, back, back[::-1]]), q)
    for at, place in enumerate(q):
        s11, s22 = _in_many_digits(steps, complex(place))
        assert abs(values[1, at] / values[0, at] - s11) < 1e-13
        assert abs(-values[2, at] / values[0, at] - s22) < 1e-13


@given(st.lists(st.floats(0.5, 2.0), min_size=1, max_size=70), st.floats(20.0, 200.0))
@settings(max_examples=40, deadline=None)
def test_polynomials_and_a_cascade_say_the_same(ratio: list[float], reference: float) -> None:
    """Any impedances and any reference: the layers agree with joining lines one by one."""
    frequency = band(41)
    parameters = small_coax(frequency)
    layers = layered_line(
        parameters=parameters,
        section_m=0.07,
        relative_impedance_ratio=ratio,
        reference_ohm=reference,
    )
    one_by_one = cascade(
        *(
            line_of(
                frequency_hz=frequency,
                gamma=parameters.gamma,
                impedance_ohm=parameters.impedance_ohm * each,
                length_m=0.07,
                reference_ohm=reference,
            )
            for each in ratio
        )
    )
    for name in ("s11", "s21", "s22"):
        assert np.allclose(getattr(layers, name), getattr(one_by_one, name), rtol=0, atol=1e-11)
    assert greatest_gain(layers).max() <= 1 + 1e-11


def test_a_polynomial_is_evaluated_as_horner_does() -> None:
    """The product of matrices gives what Horner's rule gives, for sizes around its blocks."""
    chance = np.random.default_rng(3)
    for size in (1, 2, 47, 48, 49, 500):
        coefficients = chance.standard_normal((2, size))
        at = 0.99 * np.exp(1j * chance.random(1500) * 7)
        expected = [np.polyval(row[::-1], at) for row in coefficients]
        assert np.allclose(evaluate(coefficients, at), expected, rtol=0, atol=1e-12)


def test_very_many_sections_are_joined_by_transforms_as_well() -> None:
    """5,000 sections, beyond the plain product: S11 within 1e-12 of forty digits."""
    steps = 0.003 * np.random.default_rng(2).standard_normal(5001)
    q = np.array([0.99995 * np.exp(2.0j), 0.9999 * np.exp(0.3j)])
    forth, back = layer_polynomials(steps)
    values = evaluate(np.stack([forth, back]), q)
    for at, place in enumerate(q):
        assert (
            abs(values[1, at] / values[0, at] - _in_many_digits(steps, complex(place))[0]) < 1e-12
        )


def test_first_order_is_only_a_screen() -> None:
    """The sum of single reflections misses the exact answer by more than 1 % where it is large."""
    frequency = np.linspace(3.9e8, 4.3e8, 801)
    parameters = small_coax(frequency)
    ratio = 1 + 0.004 * np.sin(2 * np.pi * (np.arange(4000) + 0.5) / 20)
    exact = layered_line(
        parameters=parameters, section_m=0.0155, relative_impedance_ratio=ratio, reference_ohm=75.0
    )
    around = np.concatenate(([1.0], ratio, [1.0]))
    steps = (around[1:] - around[:-1]) / (around[1:] + around[:-1])
    q = np.exp(-2 * parameters.gamma * 0.0155)
    single = np.abs(evaluate(steps[None], q)[0])
    assert np.abs(single - np.abs(exact.s11)).max() > 0.01


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"section_m": 0.0}, "section_m"),
        ({"relative_impedance_ratio": []}, "relative_impedance_ratio"),
        ({"relative_impedance_ratio": [1.0, -1.0]}, "relative_impedance_ratio"),
        ({"reference_ohm": -75.0}, "reference_ohm"),
    ],
)
def test_impossible_layers_are_refused(changed: dict[str, object], field: str) -> None:
    """A section without length, no sections, a negative ratio or reference: each by its field."""
    given_ = {
        "parameters": small_coax(band(5)), "section_m": 0.1, "relative_impedance_ratio": [1.0],
        "reference_ohm": 75.0, **changed,
    }  # fmt: skip
    with pytest.raises(BadValue) as refused:
        layered_line(**given_)  # type: ignore[arg-type]
    assert refused.value.field == field


def test_a_step_of_total_reflection_is_refused() -> None:
    """A reflection of one would divide by nothing."""
    with pytest.raises(BadValue, match="step_reflection"):
        layer_polynomials(np.array([0.1, 1.0]))
