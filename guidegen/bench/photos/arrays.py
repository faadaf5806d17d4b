"""Names of the arrays that the stages of a trace hand on."""

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
"""Points are rows of x and y."""
type BenchMask = NDArray[np.bool_]
type Whole = NDArray[np.int64]
type Pixels = NDArray[np.uint8]
"""Rows, columns, red, green, blue; sRGB."""
