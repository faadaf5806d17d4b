"""What is needed in → what to buy: packs, lengths, alternatives, what is at hand."""
