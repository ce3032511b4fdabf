#!/bin/sh
# Installs or upgrades Stockseat under systemd, from a published folder. Running it again changes nothing that is already right.
# An existing configuration and the ledger are never changed. A running service is restarted when its program or unit changed.
set -eu
umask 022

usage() {
    cat <<'TEXT'
usage: install.sh PUBLISHED_DIR [CONFIG_DIR]
       install.sh --back

PUBLISHED_DIR  what `dotnet publish` wrote: the program `stockseat` and the files beside it
CONFIG_DIR     a folder with stockseat.json and fixtures/; copied only where /etc/stockseat/stockseat.json does not exist
--back         puts the program and the unit from before the last upgrade back, and removes the ones that failed

Environment:
DESTDIR        an existing or new folder to stage into; then no user is created and systemd is not touched
TEXT
}

here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
# shellcheck source=install/linux/shared.sh
. "$here/shared.sh"

case "${1-}" in -h | --help) usage; exit 0 ;; esac
if [ $# -lt 1 ] || [ $# -gt 2 ]; then usage >&2; exit 64; fi
back=no
if [ "$1" = --back ]; then
    if [ $# -gt 1 ]; then usage >&2; exit 64; fi
    back=yes
fi

published=${1%/}
config=${2-}
config=${config%/}
dest=${DESTDIR-}
dest=${dest%/}
if [ -n "${DESTDIR-}" ] && [ -z "$dest" ]; then
    fail 64 "DESTDIR is '/', which is the running system." "Leave DESTDIR out to install, or name another folder to stage into."
fi

program=$dest/opt/stockseat
etc=$dest/etc/stockseat
units=$dest/etc/systemd/system
unit=$units/stockseat.service
dropin=$units/stockseat.service.d/10-ordinary-build.conf
state=$dest/var/lib/stockseat

# Everything is checked before anything is written.
if [ "$back" = yes ]; then
    [ -d "$program.previous/" ] || fail 2 "There is no earlier program to go back to: $program.previous does not exist." \
        "Nothing was changed. Install the program that you want: install.sh PUBLISHED_DIR"
else
    [ -d "$published" ] || fail 64 "The published folder '$1' does not exist." \
        "Make it first: dotnet publish -c Release -r linux-x64 -o DIR src/Stockseat"
    [ -f "$published/stockseat" ] || fail 64 "The published folder '$published' has no program 'stockseat' in it." \
        "Give the folder that dotnet publish wrote with -o."
fi
if [ -n "$config" ]; then
    [ -f "$config/stockseat.json" ] || fail 64 "The configuration folder '$config' has no stockseat.json in it." \
        "Give a folder with stockseat.json and fixtures/, or leave the argument out."
fi
if [ -d "$program" ] && [ ! -L "$program" ]; then
    fail 2 "$program is a folder; this script needs a link there." "Run remove.sh, then install.sh again; configuration and ledger stay."
fi
[ -f "$here/stockseat.service" ] || fail 2 "The unit '$here/stockseat.service' is missing." \
    "Keep install.sh and stockseat.service in one folder."
if [ -z "$dest" ]; then
    [ "$(id -u)" -eq 0 ] || fail 2 "install.sh needs root; it runs as '$(id -un)'." \
        "Run it with sudo, or set DESTDIR to stage into a folder."
    command -v systemctl >/dev/null || fail 2 "There is no systemctl on this machine." \
        "The unit needs systemd. Set DESTDIR to stage into a folder."
    [ ! -e /usr/lib/stockseat/stockseat ] || fail 2 "The package stockseat is installed, and two programs would share one ledger." \
        "Upgrade the package with apt, or remove it first: apt remove stockseat (configuration and ledger stay)."
fi

due=$program.restart-due
# After an upgrade that failed, the program in use never became ready.
proven=yes
if [ -z "$dest" ] && [ -e "$due" ]; then proven=no; fi
# A start that systemd is repeating would take the program from before, so that counts as running too; and so does an upgrade that failed.
running=no
if [ -z "$dest" ]; then
    case "$(state)" in
    active | activating | reloading | refreshing) running=yes ;;
    failed) if [ "$proven" = no ] || [ "$back" = yes ]; then running=yes; fi ;;
    esac
fi
# Remembered on the disk: when a run is interrupted before the restart, the next run restarts the service.
restart_is_due() { if [ "$running" = yes ]; then : >"$due"; fi; }

# Points the link $1 to the folder $2 beside it. A link is replaced in one step, so there is a complete program at every moment, the
# old or the new one, even if systemd starts the service in between.
point() {
    ln -s -- "$2" "$program.link"
    mv -T -- "$program.link" "$1"
}

# Removes the programs that neither link points to, if they still are as this script made them.
sweep() {
    for folder in "$dest"/opt/stockseat-*; do
        old=${folder##*/}
        if is_version "$old" && [ -d "$folder" ] && [ ! -L "$folder" ] && [ "$old" != "$(readlink -- "$program")" ] \
            && [ "$old" != "$(readlink -- "$program.previous")" ] && [ "$(version_of "$folder")" = "$old" ]; then
            rm -rf -- "$folder"
        fi
    done
}

# Installs the unit $1, and beside it what the build in use needs.
put_unit() {
    mkdir -p -- "$units"
    if cmp -s -- "$1" "$unit"; then
        say "unit: $unit is already up to date"
    else
        restart_is_due
        install -m 0644 -- "$1" "$units/.stockseat.service.new"
        mv -- "$units/.stockseat.service.new" "$unit"
        say "unit: installed $unit"
    fi
    if [ -f "$program/stockseat.dll" ]; then
        mkdir -p -- "$(dirname -- "$dropin")"
        printf '%s\n' '# Written by install.sh. The ordinary .NET build compiles while it runs, and its runtime binds' \
            '# threads to processors when it starts: unless both are allowed it ends at once.' '[Service]' \
            'MemoryDenyWriteExecute=no' 'SystemCallFilter=sched_setaffinity sched_setscheduler' >"$dropin"
        chmod 0644 -- "$dropin"
        say "unit: $dropin allows what the ordinary build needs"
    elif [ -f "$dropin" ]; then
        rm -f -- "$dropin"
        rmdir -- "$(dirname -- "$dropin")" 2>/dev/null || :
        say "unit: removed $dropin; the native program does not need it"
    fi
    if [ -z "$dest" ]; then systemctl daemon-reload; fi
}

# Starts the program in use. What systemd counted of earlier starts does not count for this one.
restart() {
    systemctl reset-failed stockseat 2>/dev/null || :
    systemctl restart stockseat || return 1
    rm -f -- "$due"
    say "service: restarted and ready"
}

fresh=$program.new
trap 'rm -rf -- "$fresh" "$program.link" "$etc/.incoming"' EXIT
trap 'exit 2' HUP INT TERM
rm -rf -- "$fresh" "$program.link"
before=$(readlink -- "$program" || :)

if [ "$back" = yes ]; then
    kept=$(readlink -- "$program.previous")
    restart_is_due
    point "$program" "$kept"
    say "program: $program is $kept again"
    ours=$program/stockseat.service
    [ -f "$ours" ] || ours=$unit # An older install.sh put no unit beside its programs.
    put_unit "$ours"
    rm -f -- "$program.previous"
    sweep
    if [ "$running" = yes ]; then
        restart || fail 2 "The service does not start with the earlier program either: see journalctl -u stockseat -n 50." \
            "Correct what the log names, then: systemctl restart stockseat"
    fi
    exit 0
fi

# Each program has a folder of its own, named by its content, with the unit that belongs to it; $program is a link to the one in use.
mkdir -p -- "$fresh"
cp -R -- "$published/." "$fresh/"
# What only a debugger needs is three times as large as the program.
find "$fresh" -type f \( -name '*.dbg' -o -name '*.pdb' -o -name '*.xml' \) -exec rm -f -- {} +
cp -- "$here/stockseat.service" "$fresh/"
for notice in "$here/../third-party-notices.md" "$here/../../LICENSE"; do
    if [ -f "$notice" ]; then cp -- "$notice" "$fresh/"; fi
done
chmod -R u=rwX,go=rX -- "$fresh"
chmod 0755 -- "$fresh/stockseat"
if [ -z "$dest" ]; then chown -R root:root -- "$fresh"; fi

name=$(version_of "$fresh")
if [ "$before" = "$name" ] && diff -r -- "$fresh" "$program/" >/dev/null 2>&1; then
    say "program: $program is already up to date"
else
    if [ "$before" = "$name" ]; then
        fail 2 "The program in $program was changed since it was installed." "Run remove.sh, then install.sh again; configuration and ledger stay."
    fi
    # A folder with this name is the previous program, or was left by an interrupted run.
    restart_is_due
    rm -rf -- "$dest/opt/$name"
    mv -- "$fresh" "$dest/opt/$name"
    sync -f -- "$dest/opt/$name"
    if [ -n "$before" ] && [ "$proven" = yes ]; then
        point "$program.previous" "$before"
        say "program: the previous one is kept in $program.previous"
    fi
    point "$program" "$name"
    say "program: $program is now $name"
fi
sweep

if [ -z "$dest" ]; then
    if ! getent group stockseat >/dev/null; then
        groupadd --system stockseat
        say "group: created stockseat"
    fi
    if ! getent passwd stockseat >/dev/null; then
        useradd --system --gid stockseat --home-dir /var/lib/stockseat --no-create-home --shell /usr/sbin/nologin \
            --comment Stockseat stockseat
        say "user: created stockseat"
    fi
    owner=root:stockseat
else
    owner=
fi

# The configuration: stockseat.json comes last, so that the next run can complete an interrupted one.
if [ ! -d "$etc" ]; then
    mkdir -p -- "$etc"
    chmod 0750 -- "$etc"
    if [ -n "$owner" ]; then chown "$owner" -- "$etc"; fi
fi

# Copies the file or folder $1 of the configuration to the name $2, completely or not at all.
bring() {
    rm -rf -- "$etc/.incoming"
    cp -R -- "$1" "$etc/.incoming"
    # A file that only its owner may read, such as a sealing key, stays private and is given to the service. Targets of links are not changed.
    if [ -n "$owner" ]; then
        find "$etc/.incoming" -exec chown -h "$owner" -- {} +
        find "$etc/.incoming" ! -type l ! -perm /077 -exec chown stockseat:stockseat -- {} +
    fi
    find "$etc/.incoming" ! -type l -perm /077 -exec chmod u=rwX,g=rX,o= -- {} +
    mv -- "$etc/.incoming" "$2"
    say "configuration: copied to $2"
}

if [ -e "$etc/stockseat.json" ] || [ -L "$etc/stockseat.json" ]; then
    say "configuration: $etc/stockseat.json exists; nothing in $etc was changed"
elif [ -n "$config" ]; then
    for entry in "$config"/*; do
        name=$(basename -- "$entry")
        if [ "$name" = stockseat.json ]; then continue; fi
        if [ -e "$etc/$name" ] || [ -L "$etc/$name" ]; then
            say "configuration: $etc/$name exists and was kept"
        else
            bring "$entry" "$etc/$name"
        fi
    done
    bring "$config/stockseat.json" "$etc/stockseat.json"
fi

put_unit "$here/stockseat.service"

if [ -n "$dest" ]; then
    say "staged into $dest. No user was created and systemd was not touched."
    exit 0
fi

# The ordinary build looks for its runtime outside /opt/stockseat, but can't find it under /home or /root, which the unit hides.
if [ -f "$program/stockseat.dll" ] && [ ! -f "$program/libcoreclr.so" ]; then
    if [ ! -e /etc/dotnet/install_location ] && [ ! -d /usr/share/dotnet ] && [ ! -d /usr/lib/dotnet ]; then
        say "warning: this is the ordinary build, and no .NET runtime was found in /usr/share/dotnet or /usr/lib/dotnet."
        say "         Install the ASP.NET Core runtime 10 for all users, or publish the native program."
    fi
fi

if [ "$running" = yes ]; then
    if [ -e "$due" ]; then
        way="Correct what the log names, or install another program: install.sh PUBLISHED_DIR"
        if [ -d "$program.previous/" ]; then way="To go back: '$here/install.sh' --back"; fi
        restart || fail 2 "The service does not start with the new program: see journalctl -u stockseat -n 50." "$way"
    else
        is_ready || fail 2 "The service is not ready: systemd says '$(state)'. Neither its program nor its unit changed." \
            "See journalctl -u stockseat -n 50, correct what it names, then: systemctl restart stockseat"
        say "service: it is running, and neither its program nor its unit changed"
    fi
    exit 0
fi
rm -f -- "$due"

echo
if [ -e "$etc/stockseat.json" ]; then
    echo "Next:"
    echo "  1. Check $etc/stockseat.json: addresses, clients, gauges; and the revisions in $etc/fixtures."
else
    echo "There is no configuration yet; the service would end with exit code 64. Next:"
    echo "  1. Put stockseat.json and fixtures/ into $etc, readable for the group stockseat,"
    echo "     or run install.sh again with a CONFIG_DIR."
fi
cat <<TEXT
  2. Start it, now and at every boot:   systemctl enable --now stockseat
  3. Check that it is ready:             systemctl status stockseat; journalctl -u stockseat -n 50
The ledger is in $state. Stockseat is not a safety function and replaces none:
local codes and licensed practice come first.
TEXT
