"""What a line costs and is sold for."""
