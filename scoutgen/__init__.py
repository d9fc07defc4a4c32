"""Charts and scouting entries in; an honest, private scouting site out."""

__version__ = "0.1.0"

import os

# The mix is learned with thousands of small matrices, where the threads of numpy's linear algebra wait for each
# other far longer than they work (ten times, on two busy cores). It reads this once, when numpy is first imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
