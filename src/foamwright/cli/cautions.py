"""The usual cautions, printed once at the end of `check` and `sheets`."""

CHECKED = (
    "These figures are estimates with bands, not a promise that it flies. "
    "Wing: proof-load it by hand before it flies, held at the tips, with the g it shall bear. "
    "Propeller: fit it last, and keep it off for all work with a pack connected. "
    "LiPo: charge attended, on something that cannot burn; never one that is swollen or dented. "
    "Flying: away from people, roads and animals, in sight, giving way to manned aircraft, "
    "range check and motor-off fail-safe first. "
    "Laws, your club and your field decide what you may fly and where; rules change, so ask them."
)
CUT = (
    "Print at 100 % ('actual size') and measure the scale bar before you cut. "
    "Blade: fresh, along a metal ruler, away from your hand, capped after. "
    "Hot glue burns: wet cloth at hand. Spray glue and heated foam: fresh air. "
    "Propeller last, pack unplugged while you build; the cautions of 'foamwright check' hold too, "
    "and local rules come before anything printed here."
)
