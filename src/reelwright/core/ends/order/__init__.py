"""In which order an end is put together, and what is looked at on the way."""
