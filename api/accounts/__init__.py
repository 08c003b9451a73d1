"""Accounts: sign up, sign in, sign out, who am I, join by invitation."""
