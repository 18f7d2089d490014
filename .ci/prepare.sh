# Sourced by examples/first-run.sh and tests/run.sh: packages, then a build in build/.
# POSIX sh. Expects $root, the folder of this repository.
root=${root:?set root to the folder of the repository}

say() { printf '\n== %s\n' "$*"; }
die() {
  printf 'underprop: %s\n' "$*" >&2
  exit 70
}

# Installs those of the named Debian packages that are missing. Asks for rights only if any is.
need_packages() {
  if ! command -v dpkg-query >/dev/null 2>&1 || ! command -v apt-get >/dev/null 2>&1; then
    for tool in c++ cmake ninja; do
      command -v "$tool" >/dev/null 2>&1 && continue
      die "'$tool' is missing, and this is not a Debian system where it could be installed for you.
Needed: a C++20 compiler, CMake 3.22 or newer, Ninja, and the development packages of Eigen 3.4,
fmt, CLI11 and nlohmann_json; for the tests Catch2. On Debian and Ubuntu these are:
  $*"
    done
    return 0 # CMake tells which library is missing, if one is
  fi
  missing=""
  for package in "$@"; do
    # shellcheck disable=SC2016 # dpkg-query expands this, not the shell
    status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) || status=""
    [ "$status" = installed ] || missing="$missing $package"
  done
  [ -n "$missing" ] || return 0
  say "Installing:$missing"
  as_root=""
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null 2>&1 ||
      die "missing packages, and no sudo to install them. As root: apt-get install$missing"
    as_root="sudo"
  fi
  # shellcheck disable=SC2086 # one word a package
  {
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get update -q </dev/null &&
      $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends \
        $missing </dev/null
  } || die "the packages could not be installed:$missing"
}

# build_all ON|OFF: configures with or without the tests and builds everything.
build_all() {
  say "Configuring (build/)"
  generator="-GNinja"
  # Only continuous integration refuses what the next compiler warns of.
  strict=OFF
  [ "${CI:-}" != true ] || strict=ON
  [ ! -f "$root/build/CMakeCache.txt" ] || generator="" # as it was configured before
  # shellcheck disable=SC2086 # nothing, where the generator is set already
  cmake -S "$root" -B "$root/build" $generator -DBUILD_TESTING="$1" \
    -DUNDERPROP_WARNINGS_AS_ERRORS="$strict" ||
    die "the build could not be configured; see above"
  say "Building"
  cmake --build "$root/build" --parallel "$(nproc 2>/dev/null || echo 2)" ||
    die "the build failed; see above"
}
