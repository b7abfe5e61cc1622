"""The engineering: no Django, no disk, no clock, no unseeded chance."""
