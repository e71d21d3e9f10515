# A project file may stand where a command may.
function _railskirt_project_files
  set -l word (commandline -ct)
  # Into a variable: a pattern that matches nothing is a complaint anywhere else.
  set -l here projects/*.toml
  string match -q -- '*/*' "$word"; or printf '%s\n' $here
  for each in (__fish_complete_path "$word")
    string match -q -r -- '(\.toml|/)(\t|$)' "$each"; and printf '%s\n' "$each"
  end
end
complete -c railskirt -n '_shtab_railskirt_using; and test $_shtab_railskirt_npos -eq 0' -a '(_railskirt_project_files)'
