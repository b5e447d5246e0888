"""All pairs, against plain enumeration."""

from itertools import combinations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import csr_array

from holeplacer.placement.base_pair import with_base


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(2, 3), st.floats(0.2, 0.8))
def test_as_enumeration(seed, count, density):
    """A cover with a base is found if and only if there is one."""
    rng = np.random.default_rng(seed)
    covers = rng.random((6, 9)) < density
    covers[np.arange(6), rng.integers(0, 9, 6)] = True
    partners = rng.random((9, 9)) < 0.2
    partners = (partners | partners.T) & ~np.eye(9, dtype=bool)
    exists = any(
        covers[:, chosen].any(axis=1).all() and partners[np.ix_(chosen, chosen)].any()
        for size in range(2, count + 1)
        for chosen in combinations(range(9), size)
    )
    found = with_base(csr_array(covers.astype(np.int32)), partners, count)
    assert (found is not None) == exists
    if found is not None:
        assert len(found) == count
        assert covers[:, found].any(axis=1).all()
        assert partners[np.ix_(found, found)].any()
