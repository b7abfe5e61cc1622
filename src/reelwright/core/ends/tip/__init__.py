"""Where the tip of a pin lands in its window."""
