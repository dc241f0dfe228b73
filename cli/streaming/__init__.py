"""`rinkfold stream`: lines in, answers out, one game."""
