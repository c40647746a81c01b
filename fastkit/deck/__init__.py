"""Results -> cards -> drawings -> sheets -> PDF."""
