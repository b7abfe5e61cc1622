"""Settings, addresses of the pages and the door for the web server."""
