#!/usr/bin/env bash
# The layers that compute must not reach for the world: fails where one of the given static libraries
# refers to SQLite, to files or standard streams, to the environment or to the system's clock. One may:
# measure opens the zone's file, which is data of the place like the catalogue.
#   check_pure.sh LIBRARY...
set -euo pipefail
banned='^(sqlite3_|f?open(at)?(64)?$|getenv|secure_getenv|time$|gettimeofday|clock_gettime)|_ZNSt6chrono.*clock3nowEv|_ZSt4(cout|cerr|clog)|_ZSt3cin|basic_[io]?fstream|basic_filebuf|date12current_zone'
status=0
for library in "$@"; do
  symbols=$(nm --undefined-only "$library") || { echo "$library cannot be read"; exit 1; }
  found=$(awk '$1 == "U" {print $2}' <<<"$symbols" | sort -u | grep -E "$banned" || true)
  if [ "$(basename "$library")" = libmeasure.a ]; then found=$(grep -v '^open$' <<<"$found" || true); fi
  if [ -n "$found" ]; then
    echo "$(basename "$library") reaches for:"
    c++filt <<<"$found" | sed 's/^/  /'
    status=1
  fi
done
[ "$#" -gt 0 ] || { echo "no library was given"; exit 1; }
[ "$status" -eq 0 ] && echo "$# libraries are pure"
exit "$status"
