"""Files in, typed records and frames out, or every problem at once."""
