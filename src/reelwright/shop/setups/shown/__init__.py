"""What page and paper show of a set-up, worked out once for both."""
