"""Files of readings: pulls, heights and stripped lengths, one in each row."""
