#!/bin/sh
# The Debian package in a clean root: it installs with nothing but what it says it depends on, runs
# for somebody who is not root, and leaves nothing when it is taken away.
#
#   deb_check.sh PACKAGE.deb
#
# Wants root, a mirror that apt knows, and mmdebstrap or debootstrap. Exit status 0: all is so;
# 1: something is not; 77: it can't be tried here.
set -eu

unable() {
    echo "deb_check: not tried: $1"
    exit 77
}
fault() {
    echo "deb_check: $1"
    exit 1
}

package=$(readlink -f "$1")
[ "$(id -u)" -eq 0 ] || unable "only root can"
suite=$(. /etc/os-release && echo "${VERSION_CODENAME-}")
# "libc6 (>= 2.35), libfmt9 (>= 9.1)" -> libc6,libfmt9
needed=$(dpkg-deb -f "$package" Depends | sed 's/ *([^)]*)//g; s/ *|[^,]*//g; s/ //g')

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
chmod 755 "$work"
root=$work/root
if command -v mmdebstrap >/dev/null; then
    mmdebstrap --variant=minbase --include="$needed" "$suite" "$root" >"$work/log" 2>&1 ||
        { tail -n 5 "$work/log"; unable "mmdebstrap makes no root"; }
elif command -v debootstrap >/dev/null; then
    debootstrap --variant=minbase --include="$needed" "$suite" "$root" >"$work/log" 2>&1 ||
        { tail -n 5 "$work/log"; unable "debootstrap makes no root"; }
else
    unable "there is no mmdebstrap and no debootstrap"
fi

# Every path; not what dpkg itself notes, nor logs.
paths() {
    (cd "$root" && find . -xdev | grep -vE '^\./(proc|sys|dev|run|tmp|var/(log|cache))/|^\./var/lib/dpkg/' | sort) >"$1"
}
inside() {
    chroot "$root" "$@"
}
as_nobody() {
    chroot --userspec=nobody:nogroup "$root" env LC_ALL=C.UTF-8 HOME=/nonexistent sh -c "$1"
}

cp "$package" "$root/var/cache/waxwright.deb"
paths "$work/before"
inside dpkg -i /var/cache/waxwright.deb >"$work/log" 2>&1 || { cat "$work/log"; fault "dpkg -i fails"; }
examples=/usr/share/doc/waxwright/examples
as_nobody "waxwright --version" || fault "it does not run"
as_nobody "waxwright check $examples" | tail -n 1
as_nobody "waxwright sheet $examples/first.candle" | grep -q '^- \[ \] Pour at ' ||
    fault "there is no sheet"
as_nobody "waxwright why missing-basis >/dev/null" || fault "no page of a rule"
as_nobody "waxwright --complete ch" | grep -q '^check' || fault "nothing is completed"
for file in share/man/man1/waxwright.1.gz share/bash-completion/completions/waxwright \
    share/zsh/vendor-completions/_waxwright share/fish/vendor_completions.d/waxwright.fish \
    share/doc/waxwright/copyright share/doc/waxwright/docs/README.md; do
    [ -s "$root/usr/$file" ] || fault "there is no /usr/$file"
done

paths "$work/with"
[ "$(comm -13 "$work/before" "$work/with" | wc -l)" -gt 20 ] || fault "hardly anything was installed"
inside dpkg -r waxwright >/dev/null 2>&1 || fault "dpkg -r fails"
paths "$work/after"
diff "$work/before" "$work/after" || fault "dpkg -r leaves or takes something"
inside dpkg -i /var/cache/waxwright.deb >/dev/null 2>&1 || fault "it does not install again"
inside dpkg --purge waxwright >/dev/null 2>&1 || fault "dpkg --purge fails"
paths "$work/after"
diff "$work/before" "$work/after" || fault "dpkg --purge leaves or takes something"
inside dpkg-query -W waxwright >/dev/null 2>&1 && fault "dpkg still knows it"
echo "deb_check: installed, run and taken away in a clean $suite"
