"""What each lane of tests runs and how long it takes: which browsers, which database, which share of the run."""
