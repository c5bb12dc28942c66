#!/usr/bin/env bash
# Runs general solvers beside moiety's own search and prints the comparison as
# a table:
#
#   testdata/compare/run.sh [-limit 60s] [-solvers HiGHS,CBC,GLPK] [INSTANCES]
#
# INSTANCES is a directory of abstract instances (default testdata/instances);
# the samples and the real duplex come too, whole and divided. Needs Go, Node.js
# with npm, and cbc and glpsol (Debian packages coinor-cbc and glpk-utils); what
# is missing is left out of the table. Nothing is written into the repository.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
if command -v npm >/dev/null; then
	cp "$here/package.json" "$here/package-lock.json" "$scratch/"
	(cd "$scratch" && npm ci --silent --no-audit --no-fund) >&2
	export NODE_PATH="$scratch/node_modules"
fi
cd "$here/../.."
go build -o "$scratch/compare" ./testdata/compare
"$scratch/compare" -scratch "$scratch" "$@"
