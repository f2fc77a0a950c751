#!/usr/bin/env bash
# What the scripts at the top do on a machine that lacks something, and with input they do not know. Nothing is
# installed or built here: a made-up tree and stand-ins on the path show the decisions.
#   bash scripts_test.sh SOURCE_DIR BINARY_DIR
set -euo pipefail
source_dir=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0

check() { # check NAME CONDITION...
  local name=$1
  shift
  if "$@"; then
    echo "ok      $name"
  else
    echo "FAILED  $name"
    failures=$((failures + 1))
  fi
}
contains() { [[ "$1" == *"$2"* ]] || { echo "   missing: $2"; echo "   in: $1"; return 1; }; }

# --- every script is sound shell -------------------------------------------------------------------------------------
for script in start test redd .ci/run tools/build-web tools/with-node tools/make-package tools/common.sh; do
  check "$script is sound shell" bash -n "$source_dir/$script"
  [[ "$script" == tools/common.sh ]] || check "$script can be run" test -x "$source_dir/$script"
done

# --- bad input is named ----------------------------------------------------------------------------------------------
refusal() { # prints what ./start says, and fails if ./start does not fail
  local said
  if said=$("$source_dir/start" "$@" 2>&1 </dev/null); then
    echo "   ./start $* did not refuse"
    return 1
  fi
  printf '%s' "$said"
}
check "start names an unknown option" contains "$(refusal --prot 7)" "--prot"
check "start names a port that is none" contains "$(refusal --port 70000)" "70000"
check "start asks for a missing value" contains "$(refusal --port)" "--port needs a value"
check "start explains itself" contains "$("$source_dir/start" --help)" "--no-browser"
check "test explains itself" contains "$("$source_dir/test" --help)" "ctest arguments"

# --- packages --------------------------------------------------------------------------------------------------------
stand_ins="$scratch/bin"
mkdir -p "$stand_ins"
printf '#!/bin/sh\nfor name; do :; done\ncase "$name" in there-*) printf installed ;; *) exit 1 ;; esac\n' >"$stand_ins/dpkg-query"
printf '#!/bin/sh\necho "apt-get $*" >>"%s/apt-calls"\n' "$scratch" >"$stand_ins/apt-get"
chmod +x "$stand_ins"/*

with_common() { # runs a few lines after tools/common.sh, in a made-up tree whose path has a space
  root="$scratch/a tree" PATH="$stand_ins:$PATH" bash -c 'set -euo pipefail; source "$0/tools/common.sh"; eval "$1"' \
    "$source_dir" "$1" 2>&1 </dev/null
}
mkdir -p "$scratch/a tree"

said=$(with_common 'ensure_packages there-one there-two')
check "all packages there: says so" contains "$said" "all 2 packages are there"
check "all packages there: no apt-get" test ! -e "$scratch/apt-calls"

if ((EUID == 0)); then
  with_common 'ensure_packages there-one lacking-one' >/dev/null
  calls=$(cat "$scratch/apt-calls")
  check "a package is missing: it is installed" contains "$calls" "install -y --no-install-recommends lacking-one"
  check "a package is missing: the lists are refreshed first" contains "$(head -n 1 "$scratch/apt-calls")" "update"
fi

# The same without root and without sudo, if this machine can become somebody else.
if ((EUID == 0)) && command -v setpriv >/dev/null; then
  chmod 755 "$scratch"
  cp "$source_dir/tools/common.sh" "$scratch/common.sh"
  for tool in bash cat tail mkdir nproc; do ln -sf "$(command -v "$tool")" "$stand_ins/$tool"; done
  status=0
  said=$(root="$scratch/a tree" PATH="$stand_ins" "$(command -v setpriv)" --reuid=65534 --regid=65534 --clear-groups bash -c \
    'set -euo pipefail; source "$0"; ensure_packages there-one lacking-one' "$scratch/common.sh" 2>&1 </dev/null) || status=$?
  check "no root, no sudo: it stops" test "$status" -ne 0
  check "no root, no sudo: says what an administrator must run" contains "$said" \
    "apt-get update && apt-get install -y --no-install-recommends lacking-one"
fi

# --- when the program is built anew ----------------------------------------------------------------------------------
tree="$scratch/a tree"
mkdir -p "$tree/src/chemistry" "$tree/web/dist" "$tree/build/release/bin"
touch "$tree/src/chemistry/ammonia.cpp" "$tree/CMakeLists.txt"
current() { [[ "$(with_common 'program_is_current && echo current || echo stale')" == "$1" ]]; }
check "nothing built: stale" current stale
printf '#!/bin/sh\n' >"$tree/build/release/bin/redd"
chmod +x "$tree/build/release/bin/redd"
find "$tree/src" "$tree/web" "$tree/CMakeLists.txt" -exec touch -d '1 minute ago' {} +
touch "$tree/build/release/.built"
check "built, nothing changed: current" current current
touch -d '1 minute' "$tree/src/chemistry/ammonia.cpp"
check "a source changed: stale" current stale
touch -d '1 minute ago' "$tree/src/chemistry/ammonia.cpp"
check "changed back in time: current" current current
sleep 0.02
rm "$tree/src/chemistry/ammonia.cpp"
check "a source was deleted: stale" current stale

if ((failures > 0)); then
  echo "$failures checks failed"
  exit 1
fi
echo "all checks passed"
