"""Rinkfold: replays an ice hockey game log into exact strength, penalty releases and scoring."""
