"""Pure formulas: floats in, floats or small tuples out; mm, N, MPa, N·mm."""
