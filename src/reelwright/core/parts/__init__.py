"""Value objects that all engines share: cable, its layers, lot, connector, end, length, jacket."""
