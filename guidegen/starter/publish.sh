#!/bin/sh
# Checks the site and makes it, and stops at the first error: by hand, or as the one step of a
# continuous-integration job. Afterwards out/ is what a web host needs, whole or as it was before.
set -eu
cd -- "$(dirname -- "$0")"
guidegen proof --all
guidegen press --quiet "$@"
