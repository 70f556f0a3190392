# The texts of grammar/serve.drills that pages show, as C that xgettext reads:
# each as the program joins it, its lines without the blanks at their ends and
# one blank between them.
function finish() {
    if (text == "")
        return
    gsub(/"/, "\\\"", text)
    printf "#line %d \"%s\"\n%sWORDS(\"%s\");\n", line, FILENAME, note, text
    text = ""
}

function trimmed(s) {
    sub(/^[ \t]+/, "", s)
    sub(/[ \t]+$/, "", s)
    return s
}

/^#/ { next }
/^[^ \t]/ { finish(); shown = 0 }
/^(Drill|Set-up|Goal):/ {
    note = /^Drill/ ? "/* TRANSLATORS: a drill; stands behind its name in the notes */ " : ""
    line = NR
    shown = 1
    sub(/^[^:]*:/, "")
    text = trimmed($0)
    next
}
/^[ \t]/ && shown { text = text " " trimmed($0) }
/^$/ { finish(); shown = 0 }
END { finish() }
