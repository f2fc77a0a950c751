#include "cli/completion.h"

#include <functional>

namespace redd::cli {
namespace {

using Visit = std::function<void(const CommandText&)>;

void each_command(const CommandText& command, const Visit& visit) {
  visit(command);
  for (const CommandText& below : command.commands) each_command(below, visit);
}

/// As a shell takes it for one word, whatever is in it.
std::string quoted(std::string_view text, std::string_view quote_inside = "'\\''") {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'')
      out += quote_inside;
    else
      out += c;
  }
  return out + "'";
}

std::string fish_quoted(std::string_view text) { return quoted(text, "\\'"); }

std::string names_of_commands(const CommandText& command) {
  std::vector<std::string> names;
  for (const CommandText& below : command.commands) names.push_back(below.path.back());
  return joined(names, " ");
}

/// What may follow: words, and the marks :file or :folder.
std::string what_follows(const OptionText& option) {
  std::string line = joined(option.choices, " ");
  if (option.names == OptionText::Names::file) line += line.empty() ? ":file" : " :file";
  if (option.names == OptionText::Names::folder) line += line.empty() ? ":folder" : " :folder";
  return line;
}

/// One line of a table: key and words.
std::string row(const std::string& key, const std::string& words) { return "  " + quoted(key) + ") printf '%s\\n' " + quoted(words) + " ;;\n"; }

/// Three tables as functions that bash and zsh read alike.
std::string tables(const CommandText& top) {
  std::string commands, flags, values;
  each_command(top, [&](const CommandText& command) {
    if (!command.commands.empty()) commands += row(command.name(), names_of_commands(command));
    std::string own;
    int place = 0;
    for (const OptionText& option : command.options) {
      for (const std::string& flag : option.flags) {
        own += (own.empty() ? "" : " ") + flag;
        if (!option.value.empty()) values += row(command.name() + " " + flag, what_follows(option));
      }
      if (option.place.empty()) continue;
      ++place;
      const std::string next = what_follows(option);
      if (!next.empty()) values += row(command.name() + " " + std::to_string(place), next);
    }
    if (!own.empty()) flags += row(command.name(), own);
  });
  return "# The commands below a command.\n_redd_commands() {\n  case $1 in\n" + commands + "  esac\n}\n" +
         "# The flags of a command.\n_redd_flags() {\n  case $1 in\n" + flags + "  esac\n}\n" +
         "# What follows a flag (\"redd --data\") or stands at a place (\"redd calc 1\"): words, :file or :folder. Fails for what takes none.\n"
         "_redd_values() {\n  case $1 in\n" + values + "  *) return 1 ;;\n  esac\n}\n";
}

constexpr std::string_view bash_walk = R"shell(
_redd() {
  local cur=${COMP_WORDS[COMP_CWORD]} at=redd place=1 flag='' next='' word i more
  for ((i = 1; i < COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    [[ $word == '=' ]] && continue # bash parts --port=7444 into three words
    if [[ -n $flag ]]; then
      flag=
    elif [[ $word == -* ]]; then
      if _redd_values "$at $word" >/dev/null || _redd_values "redd $word" >/dev/null; then flag=$word; fi
    elif [[ " $(_redd_commands "$at") " == *" ${word//_/-} "* ]]; then
      at+=" ${word//_/-}"
    else
      place=$((place + 1))
    fi
  done
  [[ $cur == '=' ]] && cur=
  if [[ -n $flag ]]; then
    next=$(_redd_values "$at $flag") || next=$(_redd_values "redd $flag")
  elif [[ $cur == -* ]]; then
    next="$(_redd_flags "$at") $(_redd_flags redd)"
  else
    next="$(_redd_commands "$at") $(_redd_values "$at $place")"
  fi
  mapfile -t COMPREPLY < <(compgen -W "${next//:f*/}" -- "$cur")
  more=()
  case $next in
    *:file) mapfile -t more < <(compgen -f -- "$cur") ;;
    *:folder) mapfile -t more < <(compgen -d -- "$cur") ;;
  esac
  if ((${#more[@]} > 0)); then
    compopt -o filenames 2>/dev/null
    COMPREPLY+=("${more[@]}")
  fi
}
complete -F _redd redd
)shell";

constexpr std::string_view zsh_walk = R"shell(
_redd() {
  local cur=${words[CURRENT]} at=redd place=1 flag='' next='' word
  for word in "${(@)words[2,CURRENT-1]}"; do
    if [[ -n $flag ]]; then
      flag=
    elif [[ $word == --*=* ]]; then
      continue
    elif [[ $word == -* ]]; then
      if _redd_values "$at $word" >/dev/null || _redd_values "redd $word" >/dev/null; then flag=$word; fi
    elif [[ " $(_redd_commands "$at") " == *" ${word//_/-} "* ]]; then
      at+=" ${word//_/-}"
    else
      place=$((place + 1))
    fi
  done
  if [[ -z $flag && $cur == --*=* ]]; then
    flag=${cur%%=*}
    compset -P '*='
  fi
  if [[ -n $flag ]]; then
    next=$(_redd_values "$at $flag") || next=$(_redd_values "redd $flag")
  elif [[ $cur == -* ]]; then
    next="$(_redd_flags "$at") $(_redd_flags redd)"
  else
    next="$(_redd_commands "$at") $(_redd_values "$at $place")"
  fi
  compadd -- ${=next%%:f*}
  case $next in
    *:file) _files ;;
    *:folder) _files -/ ;;
  esac
}
if [[ ${funcstack[1]-} == _redd ]]; then _redd "$@"; elif (( ${+functions[compdef]} )); then compdef _redd redd; fi
)shell";

constexpr std::string_view fish_walk = R"shell(
# Whether the words typed so far lead to this command.
function __redd_at
    set -l at redd
    for word in (commandline -opc)[2..-1]
        if contains -- $word (__redd_commands "$at")
            set at "$at $word"
        end
    end
    test "$at" = "$argv"
end
complete -c redd -f
)shell";

std::string fish_option(const std::string& at, const OptionText& option) {
  std::string lines;
  std::string what;
  if (option.names == OptionText::Names::file) what += " -F";
  if (option.names == OptionText::Names::folder) what += " -a '(__fish_complete_directories)'";
  if (!option.choices.empty()) what += " -a " + fish_quoted(joined(option.choices, " "));
  const std::string where = at.empty() ? "" : " -n " + fish_quoted("__redd_at " + at);
  const std::string said = " -d " + fish_quoted(option.meaning) + "\n";
  for (const std::string& flag : option.flags) {
    const std::string name = flag.starts_with("--") ? " -l " + flag.substr(2) : " -s " + flag.substr(1);
    lines += "complete -c redd" + where + name + (option.value.empty() ? "" : " -r") + what + said;
  }
  if (!option.place.empty() && !what.empty()) lines += "complete -c redd" + where + what + said;
  return lines;
}

}  // namespace

std::string bash_completion(const CommandText& top) {
  return "# Completes the words of redd. Written by \"redd completion bash\"; do not edit.\n" + tables(top) + std::string(bash_walk);
}

std::string zsh_completion(const CommandText& top) {
  return "#compdef redd\n# Completes the words of redd. Written by \"redd completion zsh\"; do not edit.\n" + tables(top) + std::string(zsh_walk);
}

std::string fish_completion(const CommandText& top) {
  std::string text = "# Completes the words of redd. Written by \"redd completion fish\"; do not edit.\nfunction __redd_commands\n    switch $argv[1]\n";
  std::string lines;
  each_command(top, [&](const CommandText& command) {
    if (!command.commands.empty()) {
      text += "        case " + fish_quoted(command.name()) + "\n            printf '%s\\n'";
      for (const CommandText& below : command.commands) {
        text += " " + below.path.back();
        lines += "complete -c redd -n " + fish_quoted("__redd_at " + command.name()) + " -a " + below.path.back() + " -d " + fish_quoted(below.summary) + "\n";
      }
      text += "\n";
    }
    for (const OptionText& option : command.options) lines += fish_option(&command == &top ? "" : command.name(), option);
  });
  return text + "    end\nend\n" + std::string(fish_walk) + lines;
}

}  // namespace redd::cli
