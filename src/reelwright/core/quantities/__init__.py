"""Constants with their sources, conversion, reading what people type, display."""
