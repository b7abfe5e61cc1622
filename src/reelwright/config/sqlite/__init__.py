"""Django's SQLite engine with one writer at a time, whoever writes."""
