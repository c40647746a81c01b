"""The user's own file: tools at hand, stock, attempts, makers' torques, kept situations."""
