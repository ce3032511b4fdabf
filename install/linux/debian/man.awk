# A manual page from what a command prints with --help. -v command="stockseat ledger roll" -v version=0.2.0 -v day=2026-11-25 -v about="what it does"
function clean(s) { gsub(/\\/, "\\e", s); gsub(/-/, "\\-", s); if (s ~ /^[.']/) s = "\\&" s; return s }
function section(s) { printf ".SH %s\n", clean(toupper(s)); where = s }
BEGIN {
    name = command; gsub(/ /, "-", name)
    printf ".TH %s 1 \"%s\" \"stockseat %s\" \"Stockseat\"\n", clean(toupper(name)), day, version
    printf ".SH NAME\n%s \\- %s\n", clean(name), clean(about)
    section("Description")
}
/^Description:$/ { next }
/^[^ ].*:$/ { section($0 == "Usage:" ? "Synopsis" : substr($0, 1, length($0) - 1)); next }
/^ *$/ { if (where == "Description") print ".PP"; next }
where == "Synopsis" || where == "Examples" { if ($0 ~ /^ /) { sub(/^ +/, ""); printf ".nf\n%s\n.fi\n", clean($0); next } section("Notes") }
/^  [^ ]/ {
    line = substr($0, 3)
    if (match(line, /   */)) { printf ".TP\n.B %s\n%s\n", clean(substr(line, 1, RSTART - 1)), clean(substr(line, RSTART + RLENGTH)) }
    else print clean(line)
    next
}
{ print clean($0) }
