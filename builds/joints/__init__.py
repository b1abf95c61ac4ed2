"""Joints with a torque, their marks and signatures."""
