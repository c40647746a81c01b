"""Pure: situation, words, chain of links, plan."""
