#!/usr/bin/env bash
# Brings what the tests need beyond npm packages: a Chromium to drive, and voices and tools to make test speech with.
# Does nothing where they are there already.
set -euo pipefail
missing=()
command -v chromium >/dev/null || command -v chromium-browser >/dev/null || command -v google-chrome >/dev/null || [ -n "${CHROMIUM:-}" ] || missing+=(chromium)
command -v flite >/dev/null || missing+=(flite)
command -v espeak-ng >/dev/null || missing+=(espeak-ng)
command -v sox >/dev/null || missing+=(sox)
command -v pdftoppm >/dev/null || missing+=(poppler-utils)
[ ${#missing[@]} -eq 0 ] && exit 0
if ! command -v apt-get >/dev/null; then
  echo "The tests need: ${missing[*]}. Install them with this system's package manager, or set CHROMIUM to a browser's path." >&2
  exit 1
fi
run=()
[ "$(id -u)" -eq 0 ] || run=(sudo)
echo "Installing for the tests: ${missing[*]}" >&2
export DEBIAN_FRONTEND=noninteractive
"${run[@]}" apt-get update -qq
"${run[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}"
