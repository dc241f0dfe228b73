"""The fold: a frozen state and an event in, a new state and its changes out."""
