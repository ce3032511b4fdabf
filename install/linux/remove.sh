#!/bin/sh
# Removes Stockseat's program and unit from this machine. The configuration, the ledger and the user stay, unless --purge is given.
set -eu

here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
# shellcheck source=install/linux/shared.sh
. "$here/shared.sh"

case "${1-}" in
-h | --help) echo "usage: remove.sh [--purge]"; echo "--purge: also removes configuration, ledger and user; this can't be undone"; echo "DESTDIR: the folder install.sh staged into; then systemd is not touched"; exit 0 ;;
esac
purge=no
if [ "${1-}" = --purge ]; then purge=yes; shift; fi
[ $# -eq 0 ] || fail 64 "The only argument is --purge; '$1' was given." "usage: remove.sh [--purge]"

dest=${DESTDIR-}
dest=${dest%/}
if [ -n "${DESTDIR-}" ] && [ -z "$dest" ]; then
    fail 64 "DESTDIR is '/', which is the running system." "Leave DESTDIR out to remove from it."
fi
unit=$dest/etc/systemd/system/stockseat.service
dropins=$unit.d

if [ -z "$dest" ]; then
    [ "$(id -u)" -eq 0 ] || fail 2 "remove.sh needs root; it runs as '$(id -un)'." "Run it with sudo."
    command -v systemctl >/dev/null || fail 2 "There is no systemctl on this machine." "Set DESTDIR to clear a staged folder."
    if [ -f "$unit" ]; then
        systemctl stop stockseat || fail 2 "The service could not be stopped; nothing was removed." \
            "See systemctl status stockseat, then run remove.sh again."
        systemctl disable stockseat
        say "stopped and disabled stockseat"
    fi
fi

# Removes the given files and folders that exist, and says so.
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
# The programs that the links point to were installed by install.sh, even if changed since. A folder without a link to it was
# installed by install.sh when its name agrees with its content.
for link in "$dest/opt/stockseat" "$dest/opt/stockseat.previous"; do
    if [ -L "$link" ]; then
        version=$(readlink -- "$link")
        clear "$link"
        if is_version "$version"; then clear "$dest/opt/$version"; fi
    elif [ -f "$link/stockseat" ]; then
        clear "$link"
    elif [ -e "$link" ]; then
        say "kept: $link holds no program, so install.sh did not make it"
    fi
done
for folder in "$dest"/opt/stockseat-*; do
    version=${folder##*/}
    if is_version "$version" && [ -d "$folder" ] && [ ! -L "$folder" ]; then
        if [ "$(version_of "$folder")" = "$version" ]; then clear "$folder"; else say "kept: $folder does not have the content that install.sh put there"; fi
    fi
done
clear "$dest/opt/stockseat.new" "$dest/opt/stockseat.link" "$dest/opt/stockseat.restart-due"
if [ -z "$dest" ]; then
    systemctl daemon-reload
    systemctl reset-failed stockseat 2>/dev/null || :
fi

if [ "$purge" = yes ]; then
    clear "$dest/etc/stockseat" "$dest/var/lib/stockseat" "$dropins"
    if [ -z "$dest" ]; then
        home=$(getent passwd stockseat | cut -d : -f 6)
        if [ -n "$home" ] && [ "$home" != /var/lib/stockseat ]; then
            say "kept: the user stockseat, whose home is $home, so install.sh did not make it"
        else
            if [ -n "$home" ]; then userdel stockseat; say "removed the user stockseat"; fi
            if getent group stockseat >/dev/null; then groupdel stockseat; say "removed the group stockseat"; fi
        fi
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
