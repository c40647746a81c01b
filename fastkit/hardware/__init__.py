"""Pure: what is it, what replaces it, how is the thread made good."""
