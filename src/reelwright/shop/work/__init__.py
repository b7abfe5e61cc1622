"""What is to be made: pieces, cut plans, bench plans, travellers, and the cuts booked."""
