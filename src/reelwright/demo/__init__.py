"""The demo workshop: everything in this folder is invented, from cables to customers."""
