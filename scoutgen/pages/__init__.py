"""Measures to view models, markdown, charts and facts."""
