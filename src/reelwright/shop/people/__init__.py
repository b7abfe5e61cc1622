"""The workshop itself, its people, what each may do and has been trained for."""
