"""The pages at the desk."""
