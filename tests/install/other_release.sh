#!/usr/bin/env bash
# By hand, as root: the archive of "cmake --build BUILD --target archive" in a root that holds
# nothing but the C library of a Debian release.
#   other_release.sh skeinfall-0.1.0-linux-x86_64.tar.xz trixie
set -euo pipefail
archive=$(realpath "$1")
release=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$work"/{lists,cache}/partial "$work/root"
site=$(apt-get indextargets --format '$(SITE)' | head -n 1)
echo "deb [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] $site $release main" \
  > "$work/sources.list"
options=(-o Dir::Etc::sourcelist="$work/sources.list" -o Dir::Etc::sourceparts=-
  -o Dir::State::lists="$work/lists" -o Dir::Cache="$work/cache")
apt-get -q "${options[@]}" update
(cd "$work" && apt-get -q "${options[@]}" download libc6)
dpkg-deb -x "$work"/libc6_*.deb "$work/root"
for link in lib lib64; do
  [ -e "$work/root/$link" ] || ln -s "usr/$link" "$work/root/$link"
done
tar -xf "$archive" -C "$work/root"
program=$(cd "$work/root" && ls -d */bin/skeinfall)
sample=/${program%/bin/skeinfall}/share/doc/skeinfall/sample_stash
run() { LD_ORIGIN_PATH=/${program%/skeinfall} chroot "$work/root" "/$program" "$@"; }
run stash import "$sample/stash.csv" --stash /stash -q
run report "$sample/projects/lantern-cowl.toml" --stash /stash --pdf /page.pdf
[ "$(head -c 5 "$work/root/page.pdf")" = "%PDF-" ]
echo "the archive runs on $release"
