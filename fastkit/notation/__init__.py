"""How the trade writes things: units, fractions, designations, entry ids; parse and format."""
