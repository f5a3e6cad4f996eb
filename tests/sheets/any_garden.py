"""Gardens of all sorts for the sheets: lines, beds' names in many scripts, and how many are tried."""

from __future__ import annotations

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st

BED_NAMES = st.sampled_from(
    [
        "One",
        "Grządka przy południowej ścianie szklarni",
        "Βόρειο παρτέρι δίπλα στον τοίχο",
        "Северная грядка у забора за теплицей номер четыре",
        "Luống rau phía đông cạnh nhà kính",
        "Donaudampfschifffahrtsgesellschaftsgartenbeetreihe",
    ]
)
ITEMS = st.sampled_from(
    [
        "lettuce",
        "garlic since October",
        "leeks",
        "carrots",
        "maybe kale",
        "spinach till late May",
        "French beans, lettuce between",
        "headed lettuce every 3 weeks",
        "lamb's lettuce mid-October",
        "celeriac (cięty, późny)",
        "calabrese mid-April under fleece",
        "onions from seed 26 March under fleece",
    ]
)
LINES = st.lists(ITEMS, min_size=1, max_size=3).map(", then ".join)
FEW = settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    derandomize=True,
    phases=(Phase.explicit, Phase.generate),  # a failing garden is small enough to look at as it is
)
