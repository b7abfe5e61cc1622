"""One item's cutting as a program in whole numbers, for HiGHS to prove or to better."""
