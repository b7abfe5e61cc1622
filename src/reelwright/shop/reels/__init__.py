"""Lots, reels, flaws, and the ledger of every millimetre that came and went."""
