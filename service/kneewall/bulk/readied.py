"""Importing this module gets everything ready that worker processes need, once for all of them: they are copies of the process that imports it."""

from importlib import import_module

from kneewall.physics.start_tables import begin_tables

begin_tables()
import_module("kneewall.bulk.chunk")
import_module("kneewall.catalogue").get_ready()
