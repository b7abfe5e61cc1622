"""What public rules allow of noise, ultrasound and fume, as far as a caution names it.

Only to be read beside a measurement at the place; no caution is left out because of it.
"""

import math

from reelwright.core.errors import BadValue

NOISE_CRITERION_DB, NOISE_EXCHANGE_DB, NOISE_DAY_H = 90.0, 5.0, 8.0
"""29 CFR 1910.95 table G-16: 90 dBA for 8 h, half the time for each 5 dB more."""

ULTRASOUND_CEILING_DB = 105.0
"""Airborne, in the third octave at 20 kHz; ACGIH, from memory."""

COPPER_FUME_KG_PER_M3 = 0.1e-6
"""Mean over 8 h; 29 CFR 1910.1000 table Z-1, from memory."""

LEAD_KG_PER_M3 = 0.05e-6
"""Mean over 8 h; 29 CFR 1910.1025, from memory."""


def allowed_noise_h(level_db: float) -> float:
    """Return the hours a day allowed at a steady A-weighted level: 8/2^((L − 90)/5).

    ``level_db`` [dB] is dBA. 29 CFR 1910.95, appendix A. Raises BadValue for no number.
    """
    if not math.isfinite(level_db):
        raise BadValue(
            owner="allowed_noise_h", field="level_db", value=level_db, accepted="a finite number"
        )
    return float(NOISE_DAY_H / 2 ** ((level_db - NOISE_CRITERION_DB) / NOISE_EXCHANGE_DB))


def mean_noise_level_db(*, dose_share: float) -> float:
    """Return the level [dBA] over 8 h that a dose stands for: 16.61·log₁₀(dose) + 90.

    ``dose_share`` [1]: hours spent over hours allowed, summed. 29 CFR 1910.95, appendix A. Raises
    BadValue for a dose that is not above zero.
    """
    if not (math.isfinite(dose_share) and dose_share > 0):
        raise BadValue(
            owner="mean_noise_level_db",
            field="dose_share",
            value=dose_share,
            accepted="a number above zero",
        )
    return 16.61 * math.log10(dose_share) + NOISE_CRITERION_DB
