"""`railskirt FILE` without a command: what each shell needs to offer the projects beside the commands.

The library that reads the parser knows of commands only. These few lines go after what it makes: the project files of
this folder and of `./projects`, and the folders on the way to others.
"""

from __future__ import annotations

from typing import Final

AFTER: Final[dict[str, str]] = {
    "bash": """
# A project file may stand where a command may. $1 is the word so far.
_railskirt_project_files() {
  local each
  compgen -f -X '!*.toml' -- "$1"
  compgen -d -- "$1"
  [[ $1 == */* ]] || for each in projects/*.toml; do
    [[ -f $each && $each == "$1"* ]] && printf '%s\\n' "$each"
  done
}
_shtab_railskirt_pos_0_COMPGEN=_railskirt_project_files
""",
    "zsh": """
# A project file may stand where a command may.
functions[_railskirt_commands_only]=$functions[_shtab_railskirt_commands]
_shtab_railskirt_commands() {
  _railskirt_commands_only
  local found=$?
  if [[ $PREFIX != */* ]]; then
    compadd -f -- projects/*.toml(N) && found=0
  fi
  _files -g '*.toml' && found=0
  return $found
}
""",
    "fish": """
# A project file may stand where a command may.
function _railskirt_project_files
  set -l word (commandline -ct)
  # Into a variable: a pattern that matches nothing is a complaint anywhere else.
  set -l here projects/*.toml
  string match -q -- '*/*' "$word"; or printf '%s\\n' $here
  for each in (__fish_complete_path "$word")
    string match -q -r -- '(\\.toml|/)(\\t|$)' "$each"; and printf '%s\\n' "$each"
  end
end
complete -c railskirt -n '_shtab_railskirt_using; and test $_shtab_railskirt_npos -eq 0' -a '(_railskirt_project_files)'
""",
}
"""Shell -> the lines."""
