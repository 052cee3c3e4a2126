"""Products of matrices that are finite, whatever flags of the processor are left standing.

Some builds of BLAS leave flags of an invalid or overflowing operation behind where both matrices
and their product are finite, since they also multiply what happens to lie beside the matrices in
memory; NumPy then warns of the product (NumPy issue 24067). Only the result can tell.
"""

import numpy as np
import numpy.typing as npt

from fewtubes.errors import DefectError

__all__ = ["finite_product"]


def finite_product(
    one: npt.NDArray[np.float32], other: npt.NDArray[np.float32]
) -> npt.NDArray[np.float32]:
    """Return the product of two finite matrices, shapes (a, b) and (b, c) to (a, c).

    Raises
    ------
    DefectError
        If it is not finite.
    """
    with np.errstate(invalid="ignore", over="ignore", divide="ignore"):
        product = one @ other
    if not np.isfinite(product).all():
        raise DefectError("a product of matrices in the bound of a search is not finite")
    return product
