"""A process window in few trials: what was tried, what to try next, where the window lies."""
