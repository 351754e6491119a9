"""How uncertainties pass through a sum: first derivatives with the covariances kept, and what nested loads share."""

import math
from collections.abc import Sequence

import numpy as np

Matrix = Sequence[Sequence[float]]


def propagated(derivatives: Matrix, covariance: Matrix) -> tuple[tuple[float, ...], ...]:
    """The covariance matrix of several results of the same inputs.

    Parameters: derivatives, of m results by n inputs [each result's unit per input's], shape (m, n); covariance, of
        the inputs [products of their units], shape (n, n), symmetrical.
    Returns: derivatives x covariance x derivatives transposed, shape (m, m) [products of the results' units].
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.2.2, and H.2.3 for several results.
    """
    by_input = np.asarray(derivatives, dtype=float)
    found = by_input @ np.asarray(covariance, dtype=float) @ by_input.T
    return tuple(tuple(row) for row in found.tolist())


def propagated_u(gradient: Sequence[float], covariance: Matrix) -> float:
    """The standard uncertainty of one result of several inputs.

    Parameters: gradient, its first derivatives [its unit per input's], shape (n,); covariance, of the inputs
        [products of their units], shape (n, n), symmetrical.
    Returns: the standard uncertainty [the result's unit]; 0 where rounding leaves less than nothing.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.2.2, equation 13.
    """
    return math.sqrt(max(0.0, propagated([gradient], covariance)[0][0]))


def difference_u(one_u: float, other_u: float) -> float:
    """The standard uncertainty of the difference of two nested loads: all that hangs in one hangs in the other too.

    Parameters: one_u, other_u, standard uncertainties of both loads [g or N].
    Returns: sqrt(|other_u**2 - one_u**2|) [that unit]: what hangs in both is the lighter one, so their covariance is
        the smaller variance and leaves only the masses that were added. A ratio of two loads of one cord shares its
        masses too: with the covariance kept its relative uncertainty is smaller than in quadrature.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.2.2 and F.1.2.3 (a quantity that two results share).
    """
    return math.sqrt(abs(other_u - one_u) * (other_u + one_u))
