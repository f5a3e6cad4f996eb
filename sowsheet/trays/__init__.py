"""The propagation space: what stands where, what shares a tray, what is owned and what is short."""
