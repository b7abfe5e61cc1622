"""What energy a weld wants, and what its trace of power tells."""
