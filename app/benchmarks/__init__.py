"""Time and memory against the budgets: ``python -m app.benchmarks``."""
