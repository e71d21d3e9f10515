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
