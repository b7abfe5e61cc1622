"""Speed, quality and accuracy, measured by hand and kept in RESULTS.md."""
