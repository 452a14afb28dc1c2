# Sourced by demo/run.sh and tests/run.sh: installs what is missing, configures and builds.
# Debian 12. Nothing here runs again once it is done.

build_packages="cmake ninja-build g++ pkg-config ccache libyaml-cpp-dev libspdlog-dev libfmt-dev
  libboost1.81-dev libcli11-dev nlohmann-json3-dev libcairo2-dev libpango1.0-dev libfontconfig-dev
  libqrencode-dev fonts-dejavu-core tzdata"

missing_packages() {
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || echo "$package"
  done
}

# As root: installs. Otherwise: prints the one line to run, and stops.
need() {
  missing=$(missing_packages "$@" | tr '\n' ' ')
  [ -z "$missing" ] && return 0
  if [ "$(id -u)" -ne 0 ]; then
    echo "Some packages are missing. Run this line, then start again:" >&2
    echo "  sudo apt-get update && sudo apt-get install -y --no-install-recommends $missing" >&2
    exit 2
  fi
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -q >/dev/null || echo "The package list could not be refreshed; going on." >&2
  if apt-get install -s --no-install-recommends $missing | grep '^Remv' >&2; then
    echo "Installing these would remove the packages above. Decide that yourself:" >&2
    echo "  apt-get install --no-install-recommends $missing" >&2
    exit 2
  fi
  echo "Installing: $missing"
  apt-get install -y -q --no-install-recommends $missing >/dev/null || {
    echo "The packages could not be installed." >&2
    exit 2
  }
}

# build FOLDER [cmake options and targets]: configures once, builds what is given.
build() {
  folder=$1
  shift
  cmake -S "$root" -B "$folder" -G Ninja "$@" >/dev/null || exit 2
}
