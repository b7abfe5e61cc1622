"""What can hurt, and whose rules come first."""
