"""Pure, records in: torque window, breakaway, strip, what snaps first."""
