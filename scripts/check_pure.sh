#!/usr/bin/env bash
# The layers that compute must not reach for the world: fails where one of the given static libraries
# refers to SQLite, to files or standard streams, to the environment or to the system's clock.
#   check_pure.sh LIBRARY...
set -euo pipefail
banned='^(sqlite3_|fopen|getenv|secure_getenv|time$|gettimeofday|clock_gettime)|_ZNSt6chrono.*clock3nowEv|_ZSt4(cout|cerr|clog)|_ZSt3cin|basic_[io]?fstream|basic_filebuf|date12current_zone'
status=0
for library in "$@"; do
  found=$(nm --undefined-only "$library" 2>/dev/null | awk '$1 == "U" {print $2}' | sort -u | grep -E "$banned" || true)
  if [ -n "$found" ]; then
    echo "$(basename "$library") reaches for:"
    echo "$found" | c++filt | sed 's/^/  /'
    status=1
  fi
done
[ "$#" -gt 0 ] || { echo "no library was given"; exit 1; }
[ "$status" -eq 0 ] && echo "$# libraries are pure"
exit "$status"
