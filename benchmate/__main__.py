"""`python -m benchmate`."""

import sys

from benchmate.cli import main

if __name__ == "__main__":
    sys.exit(main())
