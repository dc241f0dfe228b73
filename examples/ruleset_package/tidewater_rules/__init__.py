"""The rules of the Tidewater Youth League, which is invented."""

from pathlib import Path

U12 = Path(__file__).with_name("tidewater-12u.toml")
