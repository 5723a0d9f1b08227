"""Writes the filled tables to stdout, for the process that began this one."""

import sys

import msgspec

from kneewall.physics.by_coolprop.fill import filled_tables

sys.stdout.buffer.write(msgspec.msgpack.encode(filled_tables()))
