"""Whether a connector goes on a cable: by millimetres, by contacts, and by how ends are joined."""
