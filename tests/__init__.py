"""Every check of Reelwright; the folders mirror src/reelwright."""
