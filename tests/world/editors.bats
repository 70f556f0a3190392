#!/usr/bin/env bats
# Editors read the messages of `9m check` where they have always read those of
# compilers: the first line of a message is in the GNU form (GNU Coding
# Standards, "Formatting Error Messages"), the rest belongs to it.

setup() {
    folder=$(mktemp -d)
    cp -r "$BATS_TEST_DIRNAME"/../../examples/. "$folder"
    cd "$folder"
    # One line a message: line, display column, severity.
    9m check --as jsonl slips.9m |
        jq -r 'select(.line and .severity != "review") | "\(.line) \(.start.display) \(.severity)"' >expected
    [ "$(wc -l <expected)" -ge 8 ]
}

teardown() {
    rm -rf "$folder"
}

@test "vim: the quickfix list holds each message once, at its place" {
    cat >drive.vim <<'END'
set errorformat=%f:%l:%v:\ %t%*[a-z]:\ %m,%-G%.%#
set makeprg=9m\ check\ slips.9m
silent make!
let got = []
for entry in getqflist()
  let kind = entry.type ==? 'e' ? 'error' : 'warning'
  call add(got, entry.lnum . ' ' . entry.col . ' ' . kind . (entry.vcol ? '' : ' bytes'))
endfor
call writefile(got, 'got')
clast
call writefile([bufname('%') . ' ' . line('.')], 'last')
quitall!
END
    TERM=dumb timeout 60 vim -Nu NONE -i NONE -es -S drive.vim slips.9m
    diff expected got
    [ "$(cat last)" = "slips.9m $(tail -n 1 expected | cut -d' ' -f1)" ]
}

@test "emacs: compilation mode counts the messages and goes to their places" {
    cat >drive.el <<'END'
(require 'compile)
(setq compilation-auto-jump-to-first-error nil)
(compilation-start "9m check slips.9m")
(while (get-buffer-process "*compilation*") (accept-process-output nil 0.1))
(with-current-buffer "*compilation*"
  (compilation--ensure-parse (point-max))
  (princ (format "counted %d %d\n" compilation-num-errors-found compilation-num-warnings-found)))
(let ((n (+ (with-current-buffer "*compilation*" compilation-num-errors-found)
            (with-current-buffer "*compilation*" compilation-num-warnings-found))))
  (dotimes (_ n)
    (next-error)
    (with-current-buffer "slips.9m"
      (princ (format "%d %d\n" (line-number-at-pos) (1+ (current-column)))))))
END
    # An Emacs that somebody sits at tells its subprocesses that the terminal is
    # dumb; in batch mode it does not.
    TERM=dumb timeout 60 emacs -Q --batch --eval '(setq compilation-skip-threshold 1)' -l drive.el >got 2>talk
    grep -qx "counted $(grep -c error expected) $(grep -c warning expected)" got
    diff <(cut -d' ' -f1,2 expected) <(grep -v counted got)
}
