#!/usr/bin/env bash
# Asks for a colour over HTTP/JSON with nothing but curl.   match.sh '#5a6b3c' [http://127.0.0.1:7400]
set -euo pipefail
target=${1:?which colour? for example '#5a6b3c'}
service=${2:-${MIXENGINE_ADDRESS:-http://127.0.0.1:7400}}
here=$(dirname "${BASH_SOURCE[0]}")

# Prints the answer; a refusal goes to the error stream, and ends the script. The key goes through a pipe: a command line can be read by every user of the machine.
ask() {
  local answer
  answer=$(curl --silent --show-error --fail-with-body --max-time 60 --retry 3 --retry-connrefused ${MIXENGINE_CA:+--cacert "$MIXENGINE_CA"} \
    --header @<(printf '%s' "${MIXENGINE_KEY:+Authorization: Bearer $MIXENGINE_KEY}") --json @- "$service$1") || { echo "$answer" >&2; return 1; }
  echo "$answer"
}

printf '{"fileName": "coast.csv", "content": "%s"}' "$(base64 <"$here/coast.csv" | tr -d '\n')" | ask /v1/shelves/samples:import >/dev/null
answer=$(printf '{"shelf": "samples", "target": {"text": "%s"}}' "$target" | ask /v1/match)

if command -v jq >/dev/null; then
  jq -r '"\(.matches[0].recipe.text) gives \(.matches[0].color.hex), \(.matches[0].color.words), \(.matches[0].deltaE00 * 100 | round / 100) from the target"' <<<"$answer"
else
  echo "$answer"
fi
