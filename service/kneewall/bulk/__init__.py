"""Many questions at once: the endpoint, the file runner, the local pool of processes and the cluster."""
