"""The only room that knows MkDocs: plugin, editions, policy, styles, the final scan."""
