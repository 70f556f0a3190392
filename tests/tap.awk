# Reads one TAP stream: shows the failures with the lines below them, writes
# "passed failed skipped" to the file `totals`. A stream that ends in a bad
# exit status, runs another number of tests than it planned, or runs none,
# counts one failure more. What a failing stream said on standard error is
# shown last.
function failure(text) {
    failed++
    print "FAILED  " name ": " text
}
function result(line) {
    seen++
    sub(/^(not )?ok[ \t]*[0-9]*[ \t]*(-[ \t]*)?/, "", line)
    return line
}
/^1\.\.[0-9]+/ { planned += substr($1, 4); plans++; next }
/^(not )?ok( .*)?[ \t]# *[Ss][Kk][Ii][Pp]/ {
    line = result($0)
    skipped++
    showing = 0
    print "skipped " name ": " line
    next
}
/^ok( |$)/ { result($0); passed++; showing = 0; next }
/^not ok( |$)/ { failure(result($0)); showing = 1; next }
/^Bail out!/ { failure($0); next }
# The summary cmocka gives of a group repeats what its tests said.
/^# (not )?ok - / { next }
showing && shown[name]++ < 400 { print "        " $0 }
END {
    odd = ""
    if (plans == 0) odd = "no plan"
    else if (planned != seen) odd = "planned " planned ", ran " seen
    else if (seen == 0) odd = "no test ran"
    else if (status != 0 && failed == 0) odd = "exit status " status
    if (odd != "") failure(odd)
    if (failed > 0) {
        while ((getline line < err) > 0 && said++ < 40) print "        " line
    }
    print passed + 0, failed + 0, skipped + 0 > totals
    if (failed == 0) print "passed  " name ": " passed + 0
}
