"""Reelwright: from a customer's question to a proven cable."""

import os

# Matrices here are small. On a busy machine the threads of the linear algebra wait for each other
# twenty times longer than the work takes; numpy and scipy read this once, when they are loaded.
for _name in ("OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_name, "1")

__version__ = "0.1.0"
