"""Pure, records in: does this tool get there and turn; near fits."""
