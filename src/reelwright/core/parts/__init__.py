"""Value objects that all engines share: cable and its layers, lot, connector, end, length, jacket."""
