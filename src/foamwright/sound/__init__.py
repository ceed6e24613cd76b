"""What a phone hears: propeller speed on the bench, airspeed of a fly-by."""
