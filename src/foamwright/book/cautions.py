"""The usual cautions, printed at the steps where they matter; common practice, no source."""

BLADE = (
    "Blade: a fresh one, along a metal ruler, away from the hand that holds it; capped when put "
    "down."
)
HOT_GLUE = "Hot glue sticks to skin and burns: a wet cloth within reach, eyes clear of strings."
OTHER_GLUE = "Read the label of the glue: gloves where it says so, fresh air always."
SPRAY = "Spray glue, varnish and heated foam fume: out of doors or at an open window."
PROPELLER = (
    "Propeller: fitted last. Off for all work with a pack connected. Pointed away from you "
    "and from "
    "others, nobody in the plane of its disc, never a hand across it. Throw away one with a nick."
)
PACK = (
    "LiPo: charged attended, balanced, at no more than its capacity in one hour, on something that "
    "cannot burn, never one that is warm, swollen or dented; stored half full."
)
FLYING = (
    "Away from people, roads, animals and power lines, in sight, in daylight, sober; give way to "
    "everything with people aboard. Laws, your authority and your club come before anything "
    "printed "
    "here; rules change, so ask them."
)
ESTIMATE = "These figures are computed estimates with bands, not a promise that it flies."
