"""What a fastener is, how to get it out, how tight it goes back: an offline workshop companion."""
