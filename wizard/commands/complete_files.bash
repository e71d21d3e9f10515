# A project file may stand where a command may. $1 is the word so far.
_railskirt_project_files() {
  local each
  compgen -f -X '!*.toml' -- "$1"
  compgen -d -- "$1"
  [[ $1 == */* ]] || for each in projects/*.toml; do
    [[ -f $each && $each == "$1"* ]] && printf '%s\n' "$each"
  done
}
_shtab_railskirt_pos_0_COMPGEN=_railskirt_project_files
