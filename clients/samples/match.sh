#!/usr/bin/env bash
# Asks for a colour over HTTP/JSON with nothing but curl.   match.sh '#5a6b3c' [http://127.0.0.1:7400]
set -euo pipefail
target=${1:?which colour? for example '#5a6b3c'}
service=${2:-http://127.0.0.1:7400}
here=$(dirname "${BASH_SOURCE[0]}")

# --fail-with-body: a refusal is printed, and ends the script.
ask() {
  curl --silent --show-error --fail-with-body --max-time 60 --retry 3 --retry-connrefused \
    ${MIXENGINE_KEY:+--header "Authorization: Bearer $MIXENGINE_KEY"} --json @- "$service$1"
}

printf '{"fileName": "coast.csv", "content": "%s"}' "$(base64 <"$here/coast.csv" | tr -d '\n')" | ask /v1/shelves/samples:import >/dev/null
answer=$(printf '{"shelf": "samples", "target": {"text": "%s"}}' "$target" | ask /v1/match) || { echo "$answer" >&2; exit 1; }

if command -v jq >/dev/null; then
  jq -r '"\(.matches[0].recipe.text) gives \(.matches[0].color.hex), \(.matches[0].color.words), \(.matches[0].deltaE00 * 100 | round / 100) from the target"' <<<"$answer"
else
  echo "$answer"
fi
