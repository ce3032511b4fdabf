#!/bin/sh
# Takes Stockseat's program and unit off this machine. The configuration, the ledger and the user stay, unless --purge takes them too.
set -eu

say() { printf 'remove.sh: %s\n' "$*"; }
fail() {
    code=$1; shift
    printf 'remove.sh: %s\n' "$@" >&2
    exit "$code"
}

case "${1-}" in
-h | --help) echo "usage: remove.sh [--purge]"; echo "--purge: configuration, ledger and user too; there is no way back"; echo "DESTDIR: the folder install.sh staged into; then systemd is not touched"; exit 0 ;;
esac
purge=no
if [ "${1-}" = --purge ]; then purge=yes; shift; fi
[ $# -eq 0 ] || fail 64 "It takes no argument but --purge; '$1' was given." "usage: remove.sh [--purge]"

dest=${DESTDIR-}
dest=${dest%/}
if [ -n "${DESTDIR-}" ] && [ -z "$dest" ]; then
    fail 64 "DESTDIR is '/', which is the running system." "Leave DESTDIR out to remove from it."
fi
unit=$dest/etc/systemd/system/stockseat.service
dropins=$unit.d

if [ -z "$dest" ]; then
    [ "$(id -u)" -eq 0 ] || fail 2 "This needs root; it runs as '$(id -un)'." "Run it with sudo."
    command -v systemctl >/dev/null || fail 2 "There is no systemctl on this machine." "Set DESTDIR to clear a staged folder."
    if [ -f "$unit" ]; then
        systemctl stop stockseat || fail 2 "The service could not be stopped; nothing was removed." \
            "See systemctl status stockseat, then run this again."
        systemctl disable stockseat
        say "stopped and disabled stockseat"
    fi
fi


# Removes what is there of the names given, and says so.
clear() {
    for path in "$@"; do
        if [ -e "$path" ] || [ -L "$path" ]; then
            rm -rf -- "$path"
            say "removed $path"
        fi
    done
}

clear "$unit" "$dropins/10-ordinary-build.conf"
rmdir -- "$dropins" 2>/dev/null || :
clear "$dest/opt/stockseat" "$dest/opt/stockseat.previous" "$dest/opt/stockseat.new" "$dest/opt/stockseat.link" "$dest/opt/stockseat.restart-due" \
    "$dest"/opt/stockseat-????????????????
if [ -z "$dest" ]; then
    systemctl daemon-reload
    systemctl reset-failed stockseat 2>/dev/null || :
fi

if [ "$purge" = yes ]; then
    clear "$dest/etc/stockseat" "$dest/var/lib/stockseat" "$dropins"
    if [ -z "$dest" ]; then
        if getent passwd stockseat >/dev/null; then userdel stockseat; say "removed the user stockseat"; fi
        if getent group stockseat >/dev/null; then groupdel stockseat; say "removed the group stockseat"; fi
    fi
    exit 0
fi

for kept in "$dest/etc/stockseat" "$dest/var/lib/stockseat" "$dropins"; do
    if [ -e "$kept" ]; then say "kept: $kept"; fi
done
if [ -e "$dest/var/lib/stockseat" ]; then
    say "The ledger is the record of every answer: move it to an archive before you delete $dest/var/lib/stockseat or use --purge."
fi
if [ -z "$dest" ] && getent passwd stockseat >/dev/null; then
    say "The user and group stockseat stay, since those files belong to them."
fi
