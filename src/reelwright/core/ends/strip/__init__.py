"""What is stripped off an end, where the blades close, and how long the piece is cut."""
