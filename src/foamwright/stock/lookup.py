"""Look things up in stock by the words a builder uses, and print them."""

from foamwright.core.bands import Band
from foamwright.core.nearest import nearest_names
from foamwright.stock.estimates import PACK_CAPACITIES_MAH, PACK_CELLS, usual_pack_mass
from foamwright.stock.fields import CLASSES, FREEZING, dimension_of, known
from foamwright.stock.model import Stock
from foamwright.stock.propellers import propellers_in_stock

SINGULAR = {
    "boards": "board",
    "rods": "rod, stick or wire",
    "plies": "plywood",
    "tapes": "tape or film",
    "glues": "glue",
    "bands": "rubber band",
    "motors": "motor",
    "controllers": "controller",
    "servos": "servo",
    "others": "other thing",
}
# Dimension -> (unit shown, its size in SI)
SHOWN: dict[str, tuple[str, float]] = {
    "length": ("mm", 1e-3),
    "mass": ("g", 1e-3),
    "areal mass": ("g/m2", 1e-3),
    "density": ("kg/m3", 1.0),
    "pressure": ("MPa", 1e6),
    "line force": ("N/mm", 1e3),
    "temperature": ("degC", 1.0),
    "time": ("s", 1.0),
    "kv": ("Kv", 0.10471975511965977),
    "resistance": ("mohm", 1e-3),
    "current": ("A", 1.0),
    "torque": ("N m", 1.0),
    "angular speed": ("rad/s", 1.0),
    "number": ("", 1.0),
}
# what stands below sizes that are no entries of their own
SIZES_NOTES = {
    "propellers": (
        "mass low / typical / high; any other size does as well: write kind, diameter and pitch",
        "under [propeller]",
        "source: common practice, no source",
    ),
    "packs": (
        "mass low / typical / high; any other size does as well: write cells, capacity, the C of",
        "the label and the mass of yours under [pack]",
        "source: sizes common practice, no source; mass a regression, from memory",
    ),
}


def find(stock: Stock, words: tuple[str, ...] = ()) -> str:
    """What stock holds, or the entries whose name or table holds all the words.

    Args:
        stock: The stock tables. [-]
        words: Words to look for; none lists every name. [-]

    Returns:
        Lines to print; when nothing fits, the nearest names.

    Source:
        Definition.

    Example:
        >>> from foamwright.stock.load import load_stock
        >>> find(load_stock(), ("birch", "1/16")).splitlines()[0]
        'birch ply 1/16 in (plywood)'
    """
    sizes = _sizes()
    if not words:
        listed = [_list(stock, table) for table in CLASSES]
        listed += ["\n".join([table, *(f"  {name}" for name in of)]) for table, of in sizes.items()]
        return "\n".join(listed)
    wanted = [word.lower() for word in words]
    hits = [
        (table, name)
        for table in CLASSES
        for name in getattr(stock, table)
        if all(word in f"{name} {SINGULAR[table]} {table}".lower() for word in wanted)
    ]
    found = [_entry(stock, table, name) for table, name in hits]
    for table, of in sizes.items():
        lines = [
            f"{name}: {text}"
            for name, text in of.items()
            if all(word in f"{name} {table}".lower() for word in wanted)
        ]
        if lines:
            found.append("\n".join([*lines, *(f"  {words}" for words in SIZES_NOTES[table])]))
    if found:
        return "\n\n".join(found)
    names = [name for table in CLASSES for name in getattr(stock, table)]
    names += [name for of in sizes.values() for name in of]
    near = nearest_names(" ".join(words), names, most=5, cutoff=0.3)
    head = f'Nothing in stock holds "{" ".join(words)}".'
    return "\n".join([head, *(["Nearest:"] if near else []), *(f"  {name}" for name in near)])


def _sizes() -> dict[str, dict[str, str]]:
    """Propellers and packs that choices are made from: their names, and what they weigh."""
    propellers = {entry.name: _words(entry.mass, "mass") for entry in propellers_in_stock()}
    packs = {
        f"{cells} cells {capacity} mAh": _words(usual_pack_mass(cells, capacity * 3.6), "mass")
        for cells in PACK_CELLS
        for capacity in PACK_CAPACITIES_MAH
    }
    return {"propellers": propellers, "packs": packs}


def _list(stock: Stock, table: str) -> str:
    return "\n".join([table, *(f"  {name}" for name in getattr(stock, table))])


def _entry(stock: Stock, table: str, name: str) -> str:
    entry = getattr(stock, table)[name]
    lines = [f"{name} ({SINGULAR[table]})"]
    sources: list[str] = []
    for field in CLASSES[table].__dataclass_fields__:
        if field == "name":
            continue
        value = getattr(entry, field)
        dimension = dimension_of(table, field) or "number"
        lines.append(f"  {field.replace('_', ' '):28}{_words(value, dimension)}")
        if isinstance(value, Band) and value.source not in sources:
            sources.append(value.source)
    lines += [f"  source: {source}" for source in sources]
    return "\n".join(lines)


def _words(value: object, dimension: str) -> str:
    if isinstance(value, Band):
        if not known(value):
            return "not given"
        if value.low == value.high:
            return _number(value.typical, dimension)
        unit = SHOWN[dimension][0]
        three = " / ".join(
            _number(each, dimension, bare=True) for each in (value.low, value.typical, value.high)
        )
        return f"{three} {unit}".rstrip()
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return _number(value, dimension)
    if isinstance(value, tuple):
        return " x ".join(_number(each, dimension, bare=True) for each in value) + " mm"
    return str(value)


def _number(value: float, dimension: str, *, bare: bool = False) -> str:
    unit, size = SHOWN[dimension]
    shown = value - FREEZING if dimension == "temperature" else value / size
    text = f"{shown:.4g}" if abs(shown) < 1000 else f"{shown:.0f}"
    return text if bare or not unit else f"{text} {unit}"
