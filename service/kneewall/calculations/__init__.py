"""One folder = one calculation = one endpoint."""
