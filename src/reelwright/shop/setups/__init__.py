"""Set-ups: a cable with a connector, its revisions, the pulls that prove it."""
