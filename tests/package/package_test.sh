#!/usr/bin/env bash
# The Debian package, made twice from the program of this build tree, installed into a scratch root, used, installed over
# itself and removed. What it may not do: differ between two makings, touch anything outside /usr, or touch a season.
#   bash package_test.sh SOURCE_DIR BINARY_DIR
# The scratch root knows the packages of this machine (their names and versions only), so dependencies are really checked.
set -euo pipefail
source_dir=$1
binary_dir=$2
scratch=$(mktemp -d)
server=
trap '[[ -z "$server" ]] || kill "$server" 2>/dev/null || true; rm -rf "$scratch"' EXIT
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
contains() { [[ "$1" == *"$2"* ]] || { echo "   missing: $2"; echo "   in: ${1:0:800}"; return 1; }; }
lacks() { [[ "$1" != *"$2"* ]] || { echo "   unwanted: $2"; return 1; }; }
equal() { [[ "$1" == "$2" ]] || { echo "   $1"; echo "   is not: $2"; return 1; }; }
empty() { [[ -z "$1" ]] || { echo "   ${1:0:800}"; return 1; }; }
not_checked() { echo "--      not checked here, $1 is missing: $2"; }

# --- making it -------------------------------------------------------------------------------------------------------
export SOURCE_DATE_EPOCH=1700000000
make_package() { # into folder $1
  cpack --config "$binary_dir/CPackConfig.cmake" -G DEB -B "$1" >"$1.log" 2>&1 || { cat "$1.log"; exit 1; }
}
make_package "$scratch/first"
make_package "$scratch/second"
package=$(echo "$scratch"/first/redd_*.deb)
check "there is one package" test -f "$package"
check "made again, it is the same to the last byte" cmp "$package" "$scratch/second/$(basename "$package")"

depends=$(dpkg-deb --field "$package" Depends)
for library in libc6 libsqlite3-0 libical3 libssl3 libsodium23 libcurl4 libmosquitto1 tzdata; do check "it depends on $library" contains "$depends" "$library"; done
listing=$(dpkg-deb --contents "$package")
check "everything in it is root's and lies below /usr" empty "$(grep -vE ' root/root .* \./(usr/.*)?$' <<<"$listing" || true)"
check "nothing in it can be written by others" empty "$(grep -E '^[^l].{7}w' <<<"$listing" || true)"
check "it runs nothing of its own while it is installed" empty "$(dpkg-deb --ctrl-tarfile "$package" | tar -t | grep -E '(pre|post)(inst|rm)' || true)"

if command -v lintian >/dev/null; then
  # The program of this tree may be unoptimised; that alone is let pass.
  check "lintian finds no fault" lintian --allow-root --fail-on error,warning --suppress-tags hardening-no-fortify-functions "$package"
else
  not_checked lintian "the package's form"
fi

# --- installing it ---------------------------------------------------------------------------------------------------
top=$scratch/root
mkdir -p "$top"/var/lib/dpkg/{info,updates,triggers}
cp /var/lib/dpkg/status "$top/var/lib/dpkg/status"
for info in format; do [[ ! -e /var/lib/dpkg/info/$info ]] || cp "/var/lib/dpkg/info/$info" "$top/var/lib/dpkg/info/"; done
cp /var/lib/dpkg/info/*.list "$top/var/lib/dpkg/info/"
: >"$top/var/lib/dpkg/available"
in_root() { # dpkg on the scratch root
  PATH=$PATH:/usr/sbin:/sbin dpkg --root="$top" --no-triggers --force-not-root --log="$scratch/dpkg.log" "$@" >"$scratch/dpkg.txt" 2>&1 || { cat "$scratch/dpkg.txt"; return 1; }
}
state() { dpkg-query --admindir="$top/var/lib/dpkg" -W -f '${db:Status-Status}' redd 2>/dev/null || true; }
check "it is installed, with what it depends on there" in_root --install "$package"
check "dpkg calls it installed" equal "$(state)" installed

# --- using it, as somebody with an empty home ------------------------------------------------------------------------
home=$scratch/home
mkdir -p "$home"
unset REDD_DATA REDD_LANGUAGE REDD_UNITS REDD_AUTHOR DISPLAY WAYLAND_DISPLAY XDG_DATA_HOME NOTIFY_SOCKET
export HOME=$home
redd=$top/usr/bin/redd
check "redd --version" contains "$("$redd" --version)" "redd 0."
check "redd --demo today" contains "$("$redd" --demo today --quick)" "What to do"
check "redd calc" contains "$("$redd" calc oxygen_saturation temperature_c=8 elevation_m=640)" "mg"
"$redd" init --name "Invented season" --time-zone America/Denver --first-day "$(date +%F)" --volume 210L --elevation-m 640 \
  --species brook_trout --target 8C >/dev/null
"$redd" log temperature 8.4C >/dev/null
check "a season of one's own is kept in the home" test -s "$home/.local/share/redd/season.redd"

# Served as the unit does, with somebody listening for "ready", fetched once, stopped as systemd stops it.
port=$((20000 + RANDOM % 20000))
fetched() { # the answer to GET $1
  exec 3<>"/dev/tcp/127.0.0.1/$port"
  printf 'GET %s HTTP/1.1\r\nHost: 127.0.0.1:%s\r\nConnection: close\r\n\r\n' "$1" "$port" >&3
  cat <&3
  exec 3>&-
}
"$redd" serve --no-browser --port "$port" >"$scratch/serve.txt" 2>&1 &
server=$!
for _ in $(seq 200); do
  grep -q "Ctrl+C" "$scratch/serve.txt" && break
  sleep 0.05
done
page=$(fetched / | tr -d '\0')
check "the page is served" contains "$page" "200 OK"
check "the page is Redd's" contains "$page" "<title>Redd"
check "it is installed over itself while it serves" in_root --install "$package"
check "it still answers" contains "$(fetched /api/day | tr -d '\0')" "200 OK"
kill -TERM "$server"
status=0
wait "$server" || status=$?
server=
check "SIGTERM ends it cleanly" equal "$status" 0
check "it says so" contains "$(cat "$scratch/serve.txt")" "Redd has stopped"

# --- the unit, the icon ----------------------------------------------------------------------------------------------
unit=$top/usr/lib/systemd/user/redd.service
check "the unit names the program of the package" grep -qx 'ExecStart=/usr/bin/redd serve --no-browser' "$unit"
check "nothing enables the unit" empty "$(find "$top/usr" "$top/etc" -path '*.wants*' 2>/dev/null)"
if command -v systemd-analyze >/dev/null; then
  # Of the unit alone: the program it starts stands in the scratch root.
  faults_of_unit() { systemd-analyze verify --man=no "$1" 2>&1 | grep -F "$1" || true; }
  sed "s|/usr/bin/redd|$redd|" "$unit" >"$scratch/redd.service"
  sed 's|^PrivateTmp=|PrivatTmp=|' "$scratch/redd.service" >"$scratch/wrong.service"
  check "systemd understands each line of the unit" empty "$(faults_of_unit "$scratch/redd.service")"
  check "and would name one that it does not" contains "$(faults_of_unit "$scratch/wrong.service")" "PrivatTmp"
else
  not_checked systemd-analyze "the unit"
fi
if command -v desktop-file-validate >/dev/null; then
  check "the icon's file is sound" empty "$(desktop-file-validate "$top/usr/share/applications/redd.desktop" 2>&1)"
else
  not_checked desktop-file-validate "the icon's file"
fi
check "what the icon starts is sound shell" bash -n "$top/usr/libexec/redd/open-page"
# Whose page it opens: the system's table of listeners is a file of ours here, and nothing is really opened.
mkdir "$scratch/stubs"
printf '#!/bin/sh\necho "opened $1"\n' >"$scratch/stubs/xdg-open"
printf '#!/bin/sh\nexit 0\n' >"$scratch/stubs/systemctl"
chmod +x "$scratch"/stubs/*
sed "s|/proc/net/tcp /proc/net/tcp6|$scratch/listeners|" "$top/usr/libexec/redd/open-page" >"$scratch/open-page"
icon() { # what it does when user $1 listens on port 7333
  printf '  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid\n   0: 0100007F:1CA5 00000000:0000 0A 00000000:00000000 00:00000000 00000000  %s        0 551\n' "$1" >"$scratch/listeners"
  PATH=$scratch/stubs:$PATH bash "$scratch/open-page" 2>/dev/null
}
check "the icon opens the person's own page" equal "$(icon "$UID")" "opened http://127.0.0.1:7333"
check "and the guide where the port is another person's" equal "$(icon $((UID + 1)))" "opened /usr/share/doc/redd/guide/installing.md"

# --- the manual ------------------------------------------------------------------------------------------------------
pages=$(cd "$top/usr/share/man" && find . -name '*.gz' | sort)
for page in man1/redd.1.gz man1/redd-log.1.gz es/man1/redd.1.gz es/man1/redd-log.1.gz; do check "there is $page" contains "$pages" "./$page"; done
commands=$("$redd" completion bash | sed -n "s/^  'redd') printf '%s\\\\n' '\(.*\)' ;;\$/\1/p" | head -n 1)
check "the commands are known" contains "$commands" "today"
for command in $commands; do
  for folder in man1 es/man1; do check "$folder tells of $command" test -s "$top/usr/share/man/$folder/redd-$command.1.gz"; done
done
faults=
for page in $pages; do
  text=$scratch/page.1
  gzip -dc "$top/usr/share/man/$page" >"$text"
  if command -v mandoc >/dev/null; then faults+=$(mandoc -T lint -W warning "$text" 2>&1 || true); fi
  if command -v groff >/dev/null; then faults+=$(groff -K utf8 -man -ww -z "$text" 2>&1 || true); fi
done
command -v mandoc >/dev/null || not_checked mandoc "the manual's form"
command -v groff >/dev/null || not_checked groff "the manual as man shows it"
check "no page makes man complain" empty "$faults"
if command -v mandoc >/dev/null; then
  check "the manual reads in Spanish" contains "$(gzip -dc "$top/usr/share/man/es/man1/redd-today.1.gz" | mandoc -T utf8 | sed 's/.\x08//g')" "Qué significan"
fi

# --- completion ------------------------------------------------------------------------------------------------------
completed() { # what bash offers for the words given, the last one unfinished
  env -i PATH="$top/usr/bin:$PATH" HOME="$home" bash --norc -c '
    cd "$HOME"
    source "$0"
    COMP_WORDS=("$@")
    COMP_CWORD=$(($# - 1))
    _redd
    printf "%s\n" "${COMPREPLY[@]}"' "$top/usr/share/bash-completion/completions/redd" "$@" | tr '\n' ' '
}
touch "$home/season copy.json"
check "bash completes a command" equal "$(completed redd tod)" "today "
check "bash completes a kind" equal "$(completed redd log water-c)" "water-change "
check "bash completes a flag" contains "$(completed redd log reading --be)" "--between"
check "bash completes a flag of any command" contains "$(completed redd today --lang)" "--language"
check "bash completes a choice" equal "$(completed redd --language e)" "en es "
check "bash completes a choice after =" equal "$(completed redd --units = m)" "metric "
check "bash completes a word of a record" contains "$(completed redd log count dead)" "dead-eggs"
check "bash completes a formula" contains "$(completed redd calc oxygen_)" "oxygen_saturation"
check "bash completes a file with a space" equal "$(completed redd import readings seas)" "season copy.json "
check "bash offers nothing where it knows nothing" empty "$(completed redd serve --port '' | tr -d ' ')"
rm "$home/season copy.json"
for shell in zsh fish; do
  if command -v "$shell" >/dev/null; then
    file=$(echo "$top"/usr/share/{zsh/vendor-completions/_redd,fish/vendor_completions.d/redd.fish} | tr ' ' '\n' | grep "$shell")
    check "$shell reads its completion" "$shell" -n "$file"
  else
    not_checked "$shell" "its completion"
  fi
done
if command -v fish >/dev/null; then
  check "fish completes a command" contains "$(fish --no-config -c "source $top/usr/share/fish/vendor_completions.d/redd.fish; complete -C 'redd tod'" 2>&1)" "today"
fi

# --- removing it -----------------------------------------------------------------------------------------------------
seasons() { (cd "$home" && find . -type f -exec sha256sum {} + | sort); }
before=$(seasons)
check "it is removed" in_root --remove redd
check "the program is gone" test ! -e "$redd"
check "it is purged" in_root --purge redd
check "nothing of it is left" empty "$(find "$top/usr" -mindepth 1 2>/dev/null | head)"
check "the seasons are as they were" equal "$(seasons)" "$before"
check "there were seasons" contains "$before" "season.redd"

if ((failures > 0)); then
  echo "$failures checks failed"
  exit 1
fi
echo "all checks passed"
