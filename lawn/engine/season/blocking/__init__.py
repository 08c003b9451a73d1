"""What stands in the way where no plan keeps all of its rules."""
