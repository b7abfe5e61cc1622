"""Bit patterns: maximum-length sequences, and the scrambler of serial digital video.

Bits are 0 and 1 in arrays of integers, in the order in which they are sent.
"""

from collections.abc import Iterable

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue

Bits = npt.NDArray[np.int8]

TAPS = {7: 6, 9: 5, 15: 14}
"""Second tap of the sequence of each length 2ⁿ − 1: ITU-T O.150 (from memory)."""

WORD_BITS = 10
EQUALISER_STRESS = (0x300, 0x198)
"""Words whose scrambled form may be runs of 19 and 1: SMPTE RP 178 (values from memory)."""
CLOCK_STRESS = (0x200, 0x110)
"""Words whose scrambled form may be runs of 20 and 20: SMPTE RP 178 (values from memory)."""


def maximum_length_sequence(order_count: int) -> Bits:
    """Return the 2ⁿ − 1 bits of x[k] = x[k−n] ⊕ x[k−m], m from TAPS, from a start of all ones.

    ``order_count`` is n: 7, 9 or 15. Raises BadValue for another.
    """
    if order_count not in TAPS:
        raise BadValue(
            owner="maximum_length_sequence",
            field="order_count",
            value=order_count,
            accepted=", ".join(map(str, TAPS)),
        )
    size, tap = 2**order_count - 1, TAPS[order_count]
    bits = [1] * order_count
    while len(bits) < size:
        bits.append(bits[-order_count] ^ bits[-tap])
    return np.array(bits, dtype=np.int8)


def words_to_bits(words: Iterable[int]) -> Bits:
    """Return words of ten bits as bits, the least significant first: the order of the wire.

    Raises BadValue for a word outside 0 to 3FFh.
    """
    bits: list[int] = []
    for word in words:
        if not 0 <= word < 2**WORD_BITS:
            raise BadValue(owner="words_to_bits", field="words", value=word, accepted="0 to 0x3FF")
        bits.extend((word >> place) & 1 for place in range(WORD_BITS))
    return np.array(bits, dtype=np.int8)


def scramble(bits: Bits, *, state: tuple[int, ...] = (0,) * 9, level_before: int = 0) -> Bits:
    """Return the levels sent for ``bits``: scrambler x⁹ + x⁴ + 1, then x + 1 (a 1 turns the level).

    ``state`` holds the last nine scrambled bits, the latest first, ``level_before`` the last level.
    y[n] = x[n] ⊕ y[n−5] ⊕ y[n−9]: the polynomial counts from the oldest bit, so the tap named x⁴
    lies *five* bits back. With four, the stress words are never sustained. Source: SMPTE ST 259
    (polynomials as quoted in RP 178). Raises BadValue for a state that is not nine bits.
    """
    if len(state) != 9 or set(state) - {0, 1} or level_before not in (0, 1):
        raise BadValue(owner="scramble", field="state", value=state, accepted="nine bits of 0 or 1")
    history, level = list(state), level_before
    sent = np.empty(len(bits), dtype=np.int8)
    for place, bit in enumerate(bits):
        scrambled = int(bit) ^ history[4] ^ history[8]
        history = [scrambled, *history[:8]]
        level ^= scrambled
        sent[place] = level
    return sent


def stress_pattern(words: tuple[int, int], *, word_pairs: int) -> Bits:
    """Return ``word_pairs`` repetitions of a stress pair as sent, from the state that sustains it.

    The state is all zeros and the level before is 0; one line in 512 of a picture begins so.
    """
    if word_pairs < 1:
        raise BadValue(
            owner="stress_pattern", field="word_pairs", value=word_pairs, accepted="1 or more"
        )
    return scramble(words_to_bits(words * word_pairs))


def run_lengths(bits: Bits) -> list[int]:
    """Return the lengths of runs of equal bits, in order; the first and last may be cut."""
    turns = np.flatnonzero(np.diff(bits)) + 1
    edges = np.concatenate(([0], turns, [len(bits)]))
    return [int(length) for length in np.diff(edges)]
