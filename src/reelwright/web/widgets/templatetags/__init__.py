"""Tags and filters of the house."""
