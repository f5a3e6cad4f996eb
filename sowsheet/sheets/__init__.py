"""Printed pages: each sheet lays out frozen shapes in points; `paint` alone turns them into a PDF."""
