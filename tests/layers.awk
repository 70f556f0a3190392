# See tests/layers. First the table of rooms, then the sources.

function base(path) { sub(/.*\//, "", path); return path }
function dir(path) { sub(/\/[^\/]*$/, "", path); return path }

# The code of a line, without its comments and texts; `in_comment` carries over.
function bare(line,    out, i, c, two) {
    out = ""
    for (i = 1; i <= length(line); i++) {
        c = substr(line, i, 1)
        two = substr(line, i, 2)
        if (in_comment) {
            if (two == "*/") { in_comment = 0; i++ }
        } else if (two == "/*") {
            in_comment = 1
            i++
        } else if (two == "//") {
            break
        } else if (c == "\"" || c == "'") {
            for (i++; i <= length(line) && substr(line, i, 1) != c; i++)
                if (substr(line, i, 1) == "\\") i++
            out = out c c
        } else {
            out = out c
        }
    }
    return out
}

function words(list, into, why,    part, n, i) {
    n = split(list, part, " ")
    for (i = 1; i <= n; i++) into[part[i]] = why
}

function exists(path,    line, found) {
    found = (getline line < path) >= 0
    close(path)
    return found
}

function fault(text) { faults = faults "# " FILENAME ":" FNR ": " text "\n" }

function finish() {
    if (file == "") return
    if (room == "") faults = faults "# " file " lies in no room of the table\n"
    printf "%s - %s keeps to its doors\n%s", faults == "" ? "ok" : "not ok", file, faults
}

BEGIN {
    CMD = 10
    words("printf fprintf vprintf vfprintf dprintf puts fputs putchar putc fputc fwrite perror " \
        "stdout stderr", in_cmd, "only src/cmd prints")
    words("exit _exit _Exit quick_exit abort atexit signal raise", in_cmd, "only src/cmd exits")
    words("getenv secure_getenv setenv setlocale localeconv nl_langinfo time clock clock_gettime " \
        "gettimeofday localtime localtime_r gmtime gmtime_r strftime system popen fork isatty",
        in_cmd, "only src/cmd asks the machine")
    words("malloc calloc realloc aligned_alloc strdup strndup asprintf vasprintf alloca",
        in_arena, "only src/base/arena.c takes memory")
    words("strcpy strcat strncpy strncat sprintf vsprintf gets strtok strtok_r", nowhere,
        "no bound that is checked")
    words("strtod strtof strtold atoi atol atof isalpha isdigit isalnum isspace isupper islower " \
        "isprint ispunct toupper tolower wcwidth mbstowcs mbrtowc", nowhere, "depends on the locale or hides overflow")
}

# --- the table ---------------------------------------------------------------
FILENAME == "DEVELOPERS.md" {
    if ($0 ~ /^\| [0-9]+ \| `src\//) {
        split($0, cell, /[ \t]*\|[ \t]*/)
        number = cell[2]
        n = split(cell[3], part, "`")
        for (i = 2; i <= n; i += 2) where[part[i]] = number + 0
        n = split(cell[4], part, "`")
        for (i = 2; i <= n; i += 2) { door[part[i]] = number + 0; where["include/" part[i]] = number + 0 }
    }
    next
}

# --- a source ----------------------------------------------------------------
FNR == 1 {
    finish()
    file = FILENAME
    faults = ""
    in_comment = 0
    room = (file in where) ? where[file] : (dir(file) in where) ? where[dir(file)] : ""
    # The tables of words belong to the lexer, whose door shows them.
    if (file ~ /^grammar\/.*\.def$/) room = 2
    # Runs while building and is no part of the program.
    host = (file == "src/token/mkhash.c")
}

/^[ \t]*#[ \t]*include[ \t]*"/ {
    split($0, part, "\"")
    name = part[2]
    if (name in door) {
        if (door[name] > room) fault("room " room " includes the door of room " door[name] ", " name)
    } else if (name == "word_hash.h") {
        if (room != 2) fault("the hash of words belongs to room 2")
    } else if (name == "serve_drills.h") {
        if (dir(file) != "src/drill") fault("the drills are read by src/drill")
    } else if (name == "words.def" || name == "marks.def") {
        if (room != 2 && room != 3) fault("the table of words is seen through token.h and syntax.h")
    } else if (name == "diag.def") {
        if (room != 0) fault("the table of messages is seen through diag.h")
    } else if (!exists((name ~ /\// ? "src" : own(file)) "/" name) ||
        (name ~ /\// && "src/" dir(name) != own(file))) {
        fault("no door: " name)
    }
    next
}
/^[ \t]*#[ \t]*include[ \t]*<hpdf/ && file !~ /^src\/pdf\// { fault("only src/pdf sees libharu") }
{
    code = bare($0)
    n = split(code, part, /[^A-Za-z0-9_]+/)
    for (i = 1; i <= n; i++) {
        w = part[i]
        # A member or another's name may be called like a function of the library.
        if (w == "" || code !~ ("(^|[^.>A-Za-z0-9_])" w "[ \t]*(\\(|$|[^ \tA-Za-z0-9_(])")) continue
        called = code ~ ("(^|[^.>A-Za-z0-9_])" w "[ \t]*\\(")
        if (w != "stdout" && w != "stderr" && !called) continue
        if (w in nowhere && !host) fault(w ": " nowhere[w])
        # An arena whose handler came back has nowhere to go.
        if (w == "abort" && file == "src/base/arena.c") continue
        if (w in in_cmd && room != CMD && !host) fault(w ": " in_cmd[w])
        if (w in in_arena && file != "src/base/arena.c" && !host) fault(w ": " in_arena[w])
    }
}

# Where the private headers of a file lie: those of the grammar in its room.
function own(path) {
    if (path == "grammar/tokens.re") return "src/token"
    if (path == "grammar/notation.y") return "src/syntax"
    return dir(path)
}

END { finish() }
