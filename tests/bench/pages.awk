# The same list for LaTeX, drawn with PGF: awk -f pages.awk LIST > pages.tex
BEGIN {
    FS = "\t"
    print "\\documentclass{article}\\usepackage[utf8]{inputenc}\\usepackage[T1]{fontenc}\\usepackage{lmodern}"
    print "\\usepackage{tikz}\\usepackage[a4paper,margin=15mm]{geometry}\\pagestyle{empty}"
    print "\\begin{document}\\sffamily\\noindent"
}
/^page / { printf "%s\\begin{tikzpicture}[x=1mm,y=-1mm]\n", open ? end : ""; open = 1; end = "\\end{tikzpicture}\\newpage\\noindent\n"; next }
$1 == "words" {
    words = $6
    gsub(/[^ -~]/, "x", words)       # letters that its usual fonts lack
    gsub(/[%&#$_{}~^\\]/, "x", words)
    printf "\\node[anchor=base west,inner sep=0] at (%s,%s) {\\fontsize{%d}{%d}\\selectfont %s};\n", $2, $3, $4, $4 + 2, words
}
$1 == "line" { printf "\\draw[line width=%spt] (%s,%s) -- (%s,%s);\n", $6, $2, $3, $4, $5 }
$1 == "circle" { printf "\\draw (%s,%s) circle (%s);\n", $2, $3, $4 }
$1 == "mark" { printf "\\fill (%s,%s) circle (%s);\n", $2, $3, $4 / 2 }
END { print "\\end{tikzpicture}\\end{document}" }
