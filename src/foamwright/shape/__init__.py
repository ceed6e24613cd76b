"""The shape of the plane.

Datum and signs, for the whole house: x runs aft from the fuselage nose, y to the right wing, z up
from the fuselage line. Angles are measured from the fuselage line. A nose-up moment, a roll to the
right and a yaw to the right are positive. Elevator and aileron deflections are positive trailing
edge down, the rudder positive trailing edge left.
"""
