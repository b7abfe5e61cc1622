"""Reelwright: from a customer's question to a proven cable."""

__version__ = "0.1.0"
