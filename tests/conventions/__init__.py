"""The house rules as tests. Every rule is a function of source text, and is seen to fail once."""
