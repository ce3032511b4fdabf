#!/bin/sh
# Makes a Debian package from a published folder of the native program. The same input makes the same bytes.
set -eu
umask 022

here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
# shellcheck source=install/linux/shared.sh
. "$here/shared.sh"

if [ $# -ne 2 ]; then
    echo "usage: package.sh PUBLISHED_DIR OUT_DIR"
    echo "PUBLISHED_DIR      what \`dotnet publish -r linux-x64\` wrote"
    echo "OUT_DIR            gets stockseat_VERSION_amd64.deb"
    echo "SOURCE_DATE_EPOCH  seconds since 1970: the date of everything in it; that of the last commit unless set"
    [ "${1-}" = --help ] || exit 64
    exit 0
fi
published=${1%/}
root=$(CDPATH='' cd -- "$here/../.." && pwd)
parts=$here/debian
{ [ -x "$published/stockseat" ] && [ -f "$published/libe_sqlite3.so" ]; } || fail 64 "The published folder '$1' has no program 'stockseat' with its library." \
    "Make it first: dotnet publish -c Release -r linux-x64 -o DIR src/Stockseat"
[ ! -f "$published/stockseat.dll" ] || fail 64 "The published folder '$1' has the ordinary build, which needs a runtime." \
    "Publish the native program: dotnet publish -c Release -r linux-x64 -o DIR src/Stockseat"
for tool in dpkg-deb strip gzip awk; do
    command -v "$tool" >/dev/null || fail 2 "'$tool' is not installed." "Install it: apt install dpkg binutils gzip mawk"
done
SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH-$(git -C "$root" log -1 --format=%ct 2>/dev/null || :)}
[ -n "$SOURCE_DATE_EPOCH" ] || fail 64 "Nothing says which date the package has: this is no git repository." "Set SOURCE_DATE_EPOCH to seconds since 1970."
export SOURCE_DATE_EPOCH
day=$(date --utc --date="@$SOURCE_DATE_EPOCH" +%Y-%m-%d)
program=$(CDPATH='' cd -- "$published" && pwd)/stockseat
version=$("$program" --version | cut -d + -f 1)

made=$(mktemp -d)
trap 'rm -rf -- "$made"' EXIT
trap 'exit 2' HUP INT TERM
tree=$made/tree
put() { install -D -m "$1" -- "$2" "$tree/$3"; }

put 0755 "$program" usr/lib/stockseat/stockseat
put 0644 "$published/libe_sqlite3.so" usr/lib/stockseat/libe_sqlite3.so
strip --strip-unneeded -- "$tree/usr/lib/stockseat/libe_sqlite3.so"
mkdir -p -- "$tree/usr/bin"
ln -s ../lib/stockseat/stockseat "$tree/usr/bin/stockseat"
put 0644 "$parts/sysusers.conf" usr/lib/sysusers.d/stockseat.conf
put 0644 "$parts/completion" usr/share/bash-completion/completions/stockseat
put 0644 "$parts/overrides" usr/share/lintian/overrides/stockseat

# The unit, with the package's place for the program.
sed -e 's|^# Stockseat under systemd\..*|# Stockseat under systemd.|' -e 's|/opt/stockseat/stockseat|/usr/lib/stockseat/stockseat|' \
    "$here/stockseat.service" >"$made/unit"
put 0644 "$made/unit" lib/systemd/system/stockseat.service

# The configuration: the demo's, for the site to change.
(cd -- "$root/config" && find . -type f -name '*.json' | LC_ALL=C sort) >"$made/config"
while read -r file; do put 0640 "$root/config/$file" "etc/stockseat/${file#./}"; done <"$made/config"
find "$tree/etc/stockseat" -type d -exec chmod 0750 {} +
mkdir -p -- "$tree/DEBIAN"
sed 's|^\.|/etc/stockseat|' "$made/config" >"$tree/DEBIAN/conffiles"

# Documents.
doc=usr/share/doc/stockseat
for file in README.md install/README.md install/metrics.md install/moving.md config/README.md proto/README.md; do
    put 0644 "$root/$file" "$doc/$file"
    gzip -9n -- "$tree/$doc/$file"
done
put 0644 "$here/../prometheus/stockseat.rules.yml" "$doc/examples/stockseat.rules.yml"
{
    printf 'Stockseat is under the Apache License 2.0. On Debian systems the whole text is in\n/usr/share/common-licenses/Apache-2.0.\n\n'
    printf 'Copyright: the Stockseat authors.\n\n'
    cat -- "$here/../third-party-notices.md"
} >"$made/copyright"
put 0644 "$made/copyright" "$doc/copyright"
printf 'stockseat (%s) stable; urgency=medium\n\n  * See the release notes of the project.\n\n -- The Stockseat authors <stockseat@example.org>  %s\n' \
    "$version" "$(LC_ALL=C date --utc --date="@$SOURCE_DATE_EPOCH" '+%a, %d %b %Y %H:%M:%S +0000')" | gzip -9n >"$made/changelog.gz"
put 0644 "$made/changelog.gz" "$doc/changelog.gz"

# A manual page for each command, from its own help. $1: the command's words; $2: what it does.
manual() {
    name=stockseat$(printf '%s' "${1:+ $1}" | tr ' ' -)
    # shellcheck disable=SC2086 # the words of a command
    "$program" $1 --help >"$made/$name.help"
    awk -v command="stockseat${1:+ $1}" -v version="$version" -v day="$day" -v about="$2" -f "$parts/man.awk" "$made/$name.help" >"$made/$name.1"
    gzip -9n -- "$made/$name.1"
    put 0644 "$made/$name.1.gz" "usr/share/man/man1/$name.1.gz"
    # A line of a list of commands: two spaces, the command, its arguments, two spaces or more, what it does.
    sed -n '/^Options:/,/^$/d; s/^  \([a-z][a-z]*\)\( <[^ ]*>\)* \{2,\}\(.*\)$/\1\t\3/p' "$made/$name.help" | while IFS="$(printf '\t')" read -r word about; do
        manual "${1:+$1 }$word" "$about"
    done
}
manual "" "where round stock sits in its fixture"

sed -e "s|@VERSION@|$version|" -e "s|@SIZE@|$(du -sk --apparent-size -- "$tree" | cut -f 1)|" "$parts/control.in" >"$tree/DEBIAN/control"
conffiles=$(tr '\n' ' ' <"$tree/DEBIAN/conffiles")
folders=$(cd -- "$tree" && find etc/stockseat -type d -printf '/%p ' | LC_ALL=C sort)
for script in preinst postinst prerm postrm; do
    sed -e "s|@CONFFILES@|$conffiles|" -e "s|@FOLDERS@|$folders|" -e "s|@VERSION@|$version|" "$parts/$script" >"$tree/DEBIAN/$script"
    chmod 0755 -- "$tree/DEBIAN/$script"
done
(cd -- "$tree" && find . -type f ! -path './DEBIAN/*' -printf '%P\0' | LC_ALL=C sort -z | xargs -0 md5sum) >"$tree/DEBIAN/md5sums"

# The file system's own order and dates don't count.
find "$tree" -exec touch --no-dereference --date="@$SOURCE_DATE_EPOCH" {} +
mkdir -p -- "$2"
deb=${2%/}/stockseat_${version}_amd64.deb
dpkg-deb --root-owner-group -Zxz --threads-max=1 --build "$tree" "$made/deb" >/dev/null
mv -- "$made/deb" "$deb"
say "made $deb ($(du -k -- "$deb" | cut -f 1) kB)"
