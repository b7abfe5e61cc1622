"""The run across all rooms: a day's orders in, a day pack out."""
