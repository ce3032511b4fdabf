# shellcheck shell=sh
# What install.sh and remove.sh share; each reads it before it does anything.

say() { printf '%s: %s\n' "${0##*/}" "$*"; }

# What is wrong with which value, then what to do next. $1: exit code, 64 for wrong usage, 2 for "could not be done".
fail() {
    code=$1; shift
    for line in "$@"; do printf '%s: %s\n' "${0##*/}" "$line" >&2; done
    exit "$code"
}

# The name of the program's folder $1, made from its content.
version_of() {
    printf 'stockseat-'
    (cd -- "$1" && find . -type f -print0 | LC_ALL=C sort -z | xargs -0 -r sha256sum -- | sha256sum | cut -c 1-16)
}

# Whether $1 is such a name: stockseat- and 16 digits.
is_version() {
    case "$1" in stockseat-????????????????) ;; *) return 1 ;; esac
    case "${1#stockseat-}" in *[!0123456789abcdef]*) return 1 ;; esac
}

# What systemd says of the service. While it is ending, that is waited for: afterwards it may be started again.
state() {
    i=0
    while now=$(systemctl show --property=ActiveState --value stockseat) && [ "$now" = deactivating ] && [ "$i" -lt 100 ]; do
        i=$((i + 1))
        sleep 0.2
    done
    printf '%s\n' "$now"
}

# Whether the service becomes ready; systemd may be starting it for the second time or later. Waits a minute at most.
is_ready() {
    j=0
    while [ "$(state)" = activating ] && [ "$j" -lt 300 ]; do
        j=$((j + 1))
        sleep 0.2
    done
    case "$(state)" in active | reloading | refreshing) ;; *) return 1 ;; esac
}
