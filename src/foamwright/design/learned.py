"""[learned] what the flights of the version before taught, as data."""

from pydantic import Field

from foamwright.design.fields import Length, Mass, Section


class Learned(Section):
    """[learned] what weighing and flying the version before taught."""

    version_before: str = ""
    "Design file that it was learned on."
    mass: Mass = Field(default=0.0, ge=-0.5, le=0.5)
    "What the scale showed beyond the parts list; negative is lighter."
    cg: Length = Field(default=0.0, ge=-0.1, le=0.1)
    "Measured CG aft of the computed one; negative is forward."
    drag: float = Field(default=1.0, ge=0.4, le=3.0)
    "Drag at zero lift over what is computed."
    thrust: float = Field(default=1.0, ge=0.5, le=1.5)
    "Thrust over what is computed."
    current: float = Field(default=1.0, ge=0.3, le=3.0)
    "Current at the same thrust over what is computed."
