"""How a cable behaves: direct current, loss, delay, levels; each formula with its source."""
