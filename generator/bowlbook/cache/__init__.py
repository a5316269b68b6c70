"""Results kept between runs: one store, and one rule for when a result may be used again."""
