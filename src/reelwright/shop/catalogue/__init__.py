"""What the workshop can sell: cables, connectors, the words customers use for them, and prices."""
