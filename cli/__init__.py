"""What people type and see: commands, tables, reports and the live page."""
