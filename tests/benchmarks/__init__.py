"""The harness of the benchmarks."""
