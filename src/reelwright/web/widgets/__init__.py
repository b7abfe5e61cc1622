"""What all pages share: the frame, who may see what, errors in words, fields that speak units."""
