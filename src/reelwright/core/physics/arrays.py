"""The array type of the engine. Frequency is the last axis where there are several."""

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]
ComplexArray = npt.NDArray[np.complex128]
Floats = float | FloatArray
