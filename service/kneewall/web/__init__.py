"""The form, the printable sheet and the pages that describe the service. All of it is drawn from the question types; nothing is kept."""
