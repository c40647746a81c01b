"""The standard normal distribution, as far as quantiles of a lognormal strength need it."""

from math import erfc, exp, pi, sqrt

CLOSE = 1e-15  # of a standard deviation or of z: a smaller step is rounding


def normal_deviate(share: float) -> float:
    """
    Deviate z below which a share p of the standard normal distribution lies, Phi(z) = p.

    Newton's method from the middle outwards; on each side of it the normal integral is bent one
    way only, so that the steps never pass the root.

    Args:
        share: Share p [-], 0 < p < 1.

    Returns:
        Deviate z [-].

    Raises:
        ValueError: When *share* is not between 0 and 1.

    References:
        1. Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.1 and 26.2.29 (Phi by
           erfc), 3.9.5 (Newton).

    >>> round(normal_deviate(0.975), 4), normal_deviate(0.5)
    (1.96, 0.0)
    """
    if not 0 < share < 1:
        raise ValueError(f"share must be above 0 and below 1, got {share!r}")
    if share > 0.5:
        return -normal_deviate(1 - share)
    z = 0.0
    while True:
        step = (erfc(-z / sqrt(2)) / 2 - share) * sqrt(2 * pi) * exp(z * z / 2)
        if step <= CLOSE * max(1.0, -z):
            return z
        z -= step
