# For scripts that run ring three with an office that stands in a root of its own: sourced, with the root's folder in
# $root, the unpacked package's in $bundled and the words that start its office there in $office. The office runs inside,
# the tests outside; they meet in /tmp: pipes, profiles, package and documents.
# shellcheck shell=bash disable=SC2154  # root, bundled and office are the caller's

if mountpoint -q "$root/tmp"; then
    echo "$root/tmp is still mounted from a run before: umount it" >&2
    exit 1
fi
share=$(mktemp -d /tmp/slipbark-host-XXXXXX)
leave() {
    umount "$root/proc" "$root/dev" 2>/dev/null || true
    umount "$root/tmp" 2>/dev/null || echo "$root/tmp is still mounted: umount it before anything is removed there" >&2
    rm -rf "$share"
}
trap leave EXIT
mount --bind /dev "$root/dev"
mount --bind /tmp "$root/tmp"
mount -t proc proc "$root/proc"

mkdir "$share/program" "$share/bundled" "$share/examples"
cp -r "$bundled/." "$share/bundled"
cp -r tests/calc/fixtures "$share"
cp build/examples/*.fods "$share/examples"
# An office that ends with 81 asks to be started again, after it has set up its profile. It must not outlive its test,
# which ends this script by a signal that no script can catch.
cat >"$share/program/soffice.bin" <<SCRIPT
#!/bin/sh
export HOME="$share"
while true; do
    setpriv --pdeathsig KILL chroot "$root" $office "\$@"
    status=\$?
    [ \$status = 81 ] || exit \$status
done
SCRIPT
chmod +x "$share/program/soffice.bin"
export SLIPBARK_TEST_PROGRAM=$share/program SLIPBARK_TEST_BUNDLED=$share/bundled
export SLIPBARK_TEST_FIXTURES=$share/fixtures SLIPBARK_TEST_EXAMPLES=$share/examples

# The tests of what the portable component lacks: listed where its ring is.
left_out_of_portable() {
    ctest --preset release -R '^calc_workbooks_portable$' --show-only=json-v1 | sed -n 's/.*"--gtest_filter=-\(.*\)".*/\1/p'
}
