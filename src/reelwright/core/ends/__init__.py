"""How an end is made: what fits what, what is stripped, pressed and joined, and in which order."""
