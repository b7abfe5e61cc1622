"""The records of the workshop: models hold, services write, selectors read."""
