"""Counted parts in stock: connectors, boots, ferrules, with a movement for each change."""
