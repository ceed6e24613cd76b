"""`python -m foamwright` is the same as the `foamwright` command."""

import sys

from foamwright.front import main

if __name__ == "__main__":
    sys.exit(main())
