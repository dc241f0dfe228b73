"""What `explanation` is made of: causes, what they changed in the trade's words, the rules, and what tells most."""
