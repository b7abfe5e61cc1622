"""To-scale drawings as plain SVG text, the same for page and paper; one module a drawing."""
