# A git that reads no settings but those of its repository.
own_git() {
    HOME=$BATS_TEST_TMPDIR/home
    mkdir -p "$HOME"
    export HOME GIT_CONFIG_NOSYSTEM=1 XDG_CONFIG_HOME=$HOME GIT_TERMINAL_PROMPT=0
    unset GIT_DIR GIT_INDEX_FILE GIT_WORK_TREE
    git config --global user.name Bench
    git config --global user.email bench@example.org
    git config --global init.defaultBranch main
}
