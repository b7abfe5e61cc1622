"""Files of readings: pulls, heights, stripped lengths and pins, one in each row."""
