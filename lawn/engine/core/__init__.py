"""What every topic of the engine uses: checks of numbers, dates, errors, the glossary, the working."""
