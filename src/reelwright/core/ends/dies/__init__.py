"""What a hexagon does to a pin and a ferrule, which cavity to take, with what force and height."""
