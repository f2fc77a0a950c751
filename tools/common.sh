# Shared by start, test, redd and tools/*: finding and installing what is missing, and building.
# Sourced, never run. The caller has set `root` to the top of the source tree.
# shellcheck shell=bash disable=SC2034,SC2154

# Everything made here goes below build/, also the logs of steps that come before the first build.
mkdir -p "$root/build"

# What the program needs to be built and run, and what the tests need on top. Debian 12 package names.
program_packages=(
  g++ cmake ninja-build brotli
  libboost1.81-dev libsqlite3-dev nlohmann-json3-dev libhowardhinnant-date-dev libcli11-dev libtomlplusplus-dev libical-dev libssl-dev libsodium-dev
  libcurl4-openssl-dev libmosquitto-dev
  tzdata
)
test_packages=(
  ccache libgtest-dev librapidcheck-dev libbenchmark-dev
  clang-22 lld-22 llvm-22 libclang-rt-22-dev
  libc++-22-dev-wasm32 libc++abi-22-dev-wasm32 libclang-rt-22-dev-wasm32 wasi-libc
  chromium fonts-dejavu-core
  dpkg-dev file mandoc bash-completion
  mosquitto
)

# What making a package of it takes on top.
packing_packages=(dpkg-dev file gzip)

# The compiler cache, where there is one, serves every checkout of this tree alike.
export CCACHE_BASEDIR="$root" CCACHE_NOHASHDIR=1

say() { printf '%s\n' "$@"; }
complain() { printf '%s\n' "$@" >&2; }

stop() {
  complain "$@"
  exit 1
}

# missing_packages NAME... prints those that are not fully installed, one a line.
missing_packages() {
  local name
  for name in "$@"; do
    [[ "$(dpkg-query -W -f '${db:Status-Status}' "$name" 2>/dev/null)" == installed ]] || printf '%s\n' "$name"
  done
}

# ensure_packages NAME... installs what is missing. When nothing is missing it needs neither root nor a network.
ensure_packages() {
  if ! command -v dpkg-query >/dev/null; then
    complain "This machine has no dpkg, so nothing is installed here. Redd needs these Debian 12 packages or their like: $*"
    return 0
  fi
  local missing as_root=()
  mapfile -t missing < <(missing_packages "$@")
  if ((${#missing[@]} == 0)); then
    say "      all $# packages are there"
    return 0
  fi
  say "      installing ${#missing[@]} of $# packages: ${missing[*]}"
  if ((EUID != 0)); then
    if ! command -v sudo >/dev/null; then
      complain "" \
        "Some packages are missing, and installing them takes an administrator (there is no sudo here)." \
        "Ask an administrator to run this, then start again:" \
        "" \
        "    apt-get update && apt-get install -y --no-install-recommends ${missing[*]}"
      exit 1
    fi
    as_root=(sudo)
  fi
  local log="$root/build/packages.log"
  mkdir -p "$root/build"
  if ! { "${as_root[@]}" apt-get update &&
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}"; } \
    >"$log" 2>&1 </dev/null; then
    complain "" "The packages could not be installed. The last lines of $log:" ""
    tail -n 15 "$log" >&2
    complain "" "Mend that, or have an administrator run this, then start again:" "" \
      "    apt-get update && apt-get install -y --no-install-recommends ${missing[*]}"
    exit 1
  fi
}

# configure PRESET makes build/PRESET ready, once, or again when the presets changed or the tree was moved.
configure() {
  local preset=$1 tree="$root/build/$1"
  if [[ -f "$tree/CMakeCache.txt" ]] && ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$tree/CMakeCache.txt"; then
    rm -rf "$tree"
  fi
  [[ -f "$tree/build.ninja" && "$tree/.configured" -nt "$root/CMakePresets.json" ]] && return 0
  mkdir -p "$tree"
  if ! (cd "$root" && cmake --preset "$preset") >"$tree/configure.log" 2>&1; then
    tail -n 30 "$tree/configure.log" >&2
    stop "" "The build could not be prepared. All of it: $tree/configure.log"
  fi
  touch "$tree/.configured"
}

# build PRESET [ninja arguments] builds; Ninja counts the steps on the screen. One build of a tree at a time.
build() {
  local preset=$1 tree="$root/build/$1"
  shift
  configure "$preset"
  (
    flock 9
    NINJA_STATUS='      [%f/%t] ' ninja -C "$tree" "$@"
  ) 9>"$tree/.lock" || stop "" "The build of '$preset' failed; the compiler's words are above."
}

# Everything the program is made from. The folders count too: a deleted file changes the time of its folder.
program_sources=(CMakeLists.txt CMakePresets.json cmake src web/dist data docs/openapi.json)

# program_is_current says whether build/release/bin/redd is newer than all of them, without asking the build system.
program_is_current() {
  local stamp="$root/build/release/.built" source present=()
  [[ -x "$root/build/release/bin/redd" && -f "$stamp" ]] || return 1
  for source in "${program_sources[@]}"; do
    [[ -e "$root/$source" ]] && present+=("$root/$source")
  done
  [[ -z "$(find "${present[@]}" -newer "$stamp" -print -quit)" ]]
}

# build_program builds build/release/bin/redd. The stamp's time is taken before, so an edit during the build counts.
build_program() { # [--quiet]
  mkdir -p "$root/build/release"
  touch "$root/build/release/.started"
  build release "$@" redd
  mv "$root/build/release/.started" "$root/build/release/.built"
}

# pack PRESET FOLDER makes the Debian package of a built program into a folder.
pack() {
  cpack --config "$root/build/$1/CPackConfig.cmake" -G DEB -B "$2"
  rm -rf "$2/_CPack_Packages"
}

# core_tools prints the packages whose versions decide the bytes of the core for the browser.
core_tools() {
  dpkg-query -W -f '${Package} ${Version}\n' clang-22 lld-22 libc++-22-dev-wasm32 libc++abi-22-dev-wasm32 \
    libclang-rt-22-dev-wasm32 wasi-libc nlohmann-json3-dev 2>/dev/null || true
}

# node_is_fitting says whether the Node on the path can build the page (20.19 or newer, or 22.12 or newer).
node_is_fitting() {
  node -e '
    const [major, minor] = process.versions.node.split(".").map(Number);
    process.exit(major > 22 || (major === 22 && minor >= 12) || (major === 20 && minor >= 19) ? 0 : 1);
  ' >/dev/null 2>&1
}

# use_own_node puts the Node that ensure_node brought, if any, first on the path.
use_own_node() {
  if [[ -x "$root/build/node/bin/node" ]]; then
    PATH="$root/build/node/bin:$PATH"
    export PATH
  fi
}

# ensure_node makes a fitting Node and npm available. Debian 12's own Node is too old for the page's tools, so its npm
# is used once to bring newer ones as ordinary npm packages (tools/node) into build/node.
ensure_node() {
  use_own_node
  if node_is_fitting && command -v npm >/dev/null; then
    say "      Node $(node --version) and npm $(npm --version) are there"
    return 0
  fi
  command -v npm >/dev/null || ensure_packages npm
  say "      bringing a newer Node than Debian's into build/node"
  local own="$root/build/node" log="$root/build/node.log"
  mkdir -p "$own"
  cp "$root"/tools/node/package.json "$root"/tools/node/package-lock.json "$root"/tools/node/.npmrc "$own/"
  (cd "$own" && npm ci) >"$log" 2>&1 </dev/null || {
    tail -n 15 "$log" >&2
    stop "" "Node could not be brought. All of it: $log. Or install Node 22 by hand and start again."
  }
  mkdir -p "$own/bin"
  local program
  for program in "$own"/node_modules/node-linux-*/bin/node; do
    [[ -x "$program" ]] && ln -sfn "$program" "$own/bin/node"
  done
  ln -sfn ../node_modules/npm/bin/npm-cli.js "$own/bin/npm"
  ln -sfn ../node_modules/npm/bin/npx-cli.js "$own/bin/npx"
  use_own_node
  hash -r
  node_is_fitting || stop "" "The Node that was brought does not run on this machine ($(uname -m)). Install Node 22 by hand and start again."
  say "      Node $(node --version) and npm $(npm --version) are there"
}

# ensure_web_modules installs the page's tools when the lock file changed since the last time.
ensure_web_modules() {
  local lock="$root/web/package-lock.json" stamp="$root/web/node_modules/.lock-installed"
  if cmp -s "$lock" "$stamp"; then
    say "      the page's tools are there"
    return 0
  fi
  say "      installing the page's tools"
  (cd "$root/web" && npm ci) >"$root/build/npm-ci.log" 2>&1 </dev/null || {
    tail -n 15 "$root/build/npm-ci.log" >&2
    stop "" "The page's tools could not be installed. All of it: $root/build/npm-ci.log"
  }
  cp "$lock" "$stamp"
}
