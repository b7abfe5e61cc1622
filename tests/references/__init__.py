"""What the engines compute, held against values from outside the project."""
