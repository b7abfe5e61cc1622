"""What an end must hold, by whose rule, and what its pulls prove."""
