"""What CoolProp works out at start-up, in a process of its own: `python -m kneewall.physics.by_coolprop` writes it as MessagePack."""
