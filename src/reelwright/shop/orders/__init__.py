"""Customers, what they wrote, and what they were answered."""
