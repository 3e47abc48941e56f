"""Tests of the WITSML documents."""
