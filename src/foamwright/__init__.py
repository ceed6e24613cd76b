"""Design, check, cut and improve radio-control airplanes made of foam board.

`foamwright.load("brindle-cob.toml")` gives a `Plane`; everything it says is computed
from that one file.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from foamwright.opening import load
    from foamwright.plane import Plane
    from foamwright.shape.inverse import closest_fold

__all__ = ["Plane", "__version__", "closest_fold", "load"]
__version__ = "0.1.0"

_HOMES = {
    "load": "foamwright.opening",
    "Plane": "foamwright.plane",
    "closest_fold": "foamwright.shape.inverse",
}


def __getattr__(name: str) -> Any:  # noqa: ANN401 - a module may hold anything
    """Fetch the public names when first asked for, so that importing the package stays light."""
    if name not in _HOMES:
        message = f"module 'foamwright' has no attribute {name!r}"
        raise AttributeError(message)
    from importlib import import_module

    value = getattr(import_module(_HOMES[name]), name)
    globals()[name] = value
    return value
