# Sourced by tools/run and tools/test, with $root set: installs the Debian packages they need and
# builds. No git, no compiler and no running service are assumed.

say() { printf '%s\n' "$*"; }
fail() {
  printf '%s\n' "$*" >&2
  exit 1
}

# as_root COMMAND...: as root directly, as another user through sudo.
as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo -- "$@"
  else
    fail "Packages are missing and there is no sudo here. As root, run: $*"
  fi
}

# packages_for WHEN...: their names in tools/packages, one a line.
packages_for() {
  local when group package
  for when in "$@"; do
    while read -r group package _; do
      if [ "$group" = "$when" ]; then printf '%s\n' "$package"; fi
    done <"$root/tools/packages"
  done
}

# install_packages WHEN...: installs what is missing of packages_for WHEN...
install_packages() {
  if ! command -v dpkg-query >/dev/null; then
    say "Not a Debian system: going on with what is here (tools/packages lists what is needed)."
    return
  fi
  local wanted missing log apt
  mapfile -t wanted < <(packages_for "$@" | sort -u)
  mapfile -t missing < <(comm -23 <(printf '%s\n' "${wanted[@]}") \
    <(dpkg-query -W -f='${db:Status-Status} ${Package}\n' "${wanted[@]}" 2>/dev/null |
      sed -n 's/^installed //p' | sort -u))
  if [ "${#missing[@]}" -eq 0 ]; then return; fi

  say "Installing ${#missing[@]} Debian packages: ${missing[*]}"
  mkdir -p "$root/build"
  log=$root/build/packages.log
  # Through env, since sudo drops the environment.
  apt=(env DEBIAN_FRONTEND=noninteractive apt-get -q -y)
  as_root "${apt[@]}" update >"$log" 2>&1 || say "apt-get update had errors; trying all the same."
  if ! as_root "${apt[@]}" install --no-install-recommends "${missing[@]}" >>"$log" 2>&1; then
    tail -n 20 "$log" >&2
    fail "apt-get could not install them. Is there a network, and is this Debian 12?"
  fi
}

# Where ccache has answers from earlier builds.
ccache_answers() {
  local files=0
  if command -v ccache >/dev/null; then
    files=$(ccache --print-stats | sed -n 's/^files_in_cache[[:space:]]*//p')
  fi
  [ "${files:-0}" -gt 0 ]
}

# build PRESET [TARGET...]: configures the first time (later ninja does when it must), then builds.
# Where ccache has nothing yet, units are compiled six at a time as one: half the time and less.
build() {
  local preset=$1 log=$root/build/$1-configure.log
  shift
  cd "$root"
  mkdir -p build
  if [ -z "${together-}" ]; then
    if ccache_answers; then together=OFF; else together=ON; fi
  fi
  if [ ! -f "build/$preset/build.ninja" ] &&
    ! cmake --preset "$preset" -DCMAKE_UNITY_BUILD="$together" -DCMAKE_UNITY_BUILD_BATCH_SIZE=6 \
      >"$log" 2>&1; then
    tail -n 30 "$log" >&2
    fail "Configuring failed; the whole log is in $log"
  fi
  cmake --build --preset "$preset" --target "${@:-all}"
}
