"""What must hold of every season: its windows, its needs, its plans."""
