"""Power traces of welds: read from a file, held against the good ones, kept."""
