#include "cli/completion.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <string_view>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "cli/layout_home.h"
#include "codes/post_codes.h"
#include "deliver/delivery.h"
#include "forms/form_table.h"
#include "layout/codec.h"
#include "layout/library.h"
#include "layout/parts_catalogue.h"
#include "upkeep/cell.h"

namespace rtcmend {

namespace {

using Words = std::vector<std::string>;

/// A command line that is being typed.
struct Line {
  std::string command;
  Words before;        ///< between the command and the cursor
  std::string typing;  ///< what stands at the cursor
};

bool begins(const std::string& word, const std::string& typed) {
  return word.starts_with(typed);
}

void offer(Completions& to, const std::string& typed, const std::string& word,
           const std::string& help = {}) {
  if (begins(word, typed)) to.words.push_back({word, help});
}

Completions of_words(const std::string& typed, const Words& words) {
  Completions found;
  for (const std::string& word : words) offer(found, typed, word);
  return found;
}

Completions of_commands(const std::string& typed) {
  Completions found;
  for (const Command& command : commands())
    offer(found, typed, std::string(command.name), std::string(command.summary));
  return found;
}

Completions of_first_word(const std::string& typed) {
  Completions found = of_commands(typed);
  offer(found, typed, "help", "every command, or one of them");
  offer(found, typed, "--version", "which version this is");
  return found;
}

Completions of_layouts(const std::string& typed) {
  Completions found;
  for (const std::string& id : built_in_layouts())
    offer(found, typed, id, built_in_layout(id).title);
  for (const Layout& own : shelf_at_hand().own()) offer(found, typed, own.id, own.title);
  found.files = true;
  return found;
}

Completions of_forms(const std::string& typed) {
  Completions found;
  for (const FormEntry& form : form_table())
    offer(found, typed, std::string(form.name), std::string(form.summary));
  return found;
}

Completions of_parts(const std::string& typed) {
  Completions found;
  for (const Part& part : known_parts()) offer(found, typed, part.name);
  return found;
}

Completions of_cells(const std::string& typed) {
  Completions found;
  for (const Cell& cell : known_cells()) offer(found, typed, cell.designation);
  return found;
}

Completions of_codes(const std::string& typed) {
  Completions found;
  for (const PostCode& code : post_codes()) offer(found, typed, code.code, code.means);
  return found;
}

const Declared* option_named(const Options& options, const std::string& name) {
  for (const Declared& entry : options.declared())
    if (std::find(entry.names.begin(), entry.names.end(), name) != entry.names.end()) return &entry;
  return nullptr;
}

/// The words in front of the cursor that are no options and no values of options.
Words plain_words(const Options& options, const Words& before) {
  Words plain;
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (!before[i].starts_with('-') || before[i] == "-") {
      plain.push_back(before[i]);
      continue;
    }
    const Declared* option = option_named(options, before[i]);
    if (option != nullptr && option->takes_value()) ++i;
  }
  return plain;
}

std::string value_given(const Words& before, const std::string& name) {
  for (std::size_t i = before.size(); i-- > 0;) {
    if (before[i] == name && i + 1 < before.size()) return before[i + 1];
    if (before[i].starts_with(name + "=")) return before[i].substr(name.size() + 1);
  }
  return {};
}

/// The layout that the line speaks of: the one named, else the one of its dump.
std::optional<Layout> layout_of(const Options& options, const Line& line) {
  try {
    const std::string named = value_given(line.before, "--layout");
    const Shelf& shelf = shelf_at_hand();
    if (shelf.has(named)) return shelf.named(named);
    // A line that is being typed must not wait for a pipe, nor read from a device.
    if (!named.empty())
      return is_plain_file(named) ? std::optional(layout_named(named)) : std::nullopt;
    const Words plain = plain_words(options, line.before);
    if (plain.empty() || !is_plain_file(plain.front())) return std::nullopt;
    DumpSource source;
    source.path = plain.front();
    source.form = value_given(line.before, "--form");
    return *open_dump(source).layout;
  } catch (const Error&) {
    return std::nullopt;  // while it is being typed, a line need not make sense
  }
}

/// The values that a field takes, as far as they can be listed.
Words values_of(const Field& field) {
  if (field.meaning == Meaning::flag) return {"yes", "no"};
  Words values;
  if (field.meaning == Meaning::choice)
    for (const Choice& choice : field.choices) values.push_back(choice.name);
  return values;
}

Completions of_fields(const Options& options, const Line& line) {
  Completions found;
  const auto layout = layout_of(options, line);
  if (!layout) return found;
  const std::size_t equals = line.typing.find('=');
  for (const Field& field : layout->fields) {
    if (field.read_only || field.meaning == Meaning::concealed) continue;
    if (equals == std::string::npos) {
      offer(found, line.typing, field.id + "=", field.label + ": " + legal_values(field));
    } else if (line.typing.substr(0, equals) == field.id) {
      for (const std::string& value : values_of(field))
        offer(found, line.typing, field.id + "=" + value);
    }
  }
  return found;
}

Completions of_ways(const Line& line) {
  Completions found;
  for (const Way way : all_ways()) offer(found, line.typing, std::string(name(way)));
  return found;
}

/// A value that is one of a few words, by the name that it was declared with.
struct FewWords {
  std::string_view value, words;
};
constexpr FewWords few_words[] = {
    {"BITS", "8 16"},
    {"BYTES", "64 128"},
    {"FORMAT", "360K 720K 1.2M 1.44M"},
    {"KIND", "sum xor crc balance"},
    {"POLICY", "keep image ask"},
    {"SHELL", "bash zsh fish"},
    {"WHAT", "shift= nibbles bit-order"},
};

/// Values that name a file or a folder, by the name that they were declared with.
constexpr std::string_view file_names[] = {"DUMP",    "DUMP2",   "DESCRIPTION", "FILE",
                                           "FOLDER",  "FOUND",   "OUT",         "PATH",
                                           "READING", "SESSION", "WANTED"};

/// What fits a value by the name that it was declared with.
Completions of_value(const Options& options, const Declared& entry, const Line& line) {
  if (!entry.legal.empty()) return of_words(line.typing, entry.legal);
  if (entry.value == "FIELD=VALUE") return of_fields(options, line);
  if (entry.value == "ID|FILE") return of_layouts(line.typing);
  if (entry.value == "FORM") return of_forms(line.typing);
  if (entry.value == "PART") return of_parts(line.typing);
  if (entry.value == "CELL") return of_cells(line.typing);
  if (entry.value == "CODE") return of_codes(line.typing);
  if (entry.value == "WAY") return of_ways(line);
  if (entry.value == "TIME" && entry.names != Words{"--after-power-off"})
    return of_words(line.typing, {"now"});
  for (const auto& [value, words] : few_words)
    if (entry.value == value) return of_words(line.typing, split(words, ' '));
  Completions found;
  found.files = std::ranges::find(file_names, entry.value) != std::end(file_names);
  return found;
}

Completions of_layouts_command(const Line& line, std::size_t words_before) {
  if (words_before == 0) return of_words(line.typing, {"list", "print", "check", "add", "remove"});
  return of_layouts(line.typing);
}

Completions of_plain_word(const Options& options, const Line& line) {
  const std::size_t count = plain_words(options, line.before).size();
  if (line.command == "layouts") return of_layouts_command(line, count);
  std::vector<const Declared*> words;
  for (const Declared& entry : options.declared())
    if (entry.is_word()) words.push_back(&entry);
  if (words.empty()) return {};
  return of_value(options, *words[std::min(count, words.size() - 1)], line);
}

Completions of_options(const Options& options, const std::string& typed) {
  Completions found;
  for (const Declared& entry : options.declared())
    for (const std::string& name : entry.names)
      if (name.starts_with("--")) offer(found, typed, name, entry.help);
  offer(found, typed, "--help", "what the command does, with examples");
  return found;
}

/// "--set=flo": the option's name is part of the word.
Completions of_joined_value(const Options& options, const Declared& option, Line line) {
  const std::size_t equals = line.typing.find('=');
  const std::string front = line.typing.substr(0, equals + 1);
  line.typing.erase(0, equals + 1);
  Completions found = of_value(options, option, line);
  for (Completion& completion : found.words) completion.word.insert(0, front);
  return found;
}

Completions of_line(const Line& line) {
  const Command& command = command_named(line.command);
  Options options(std::string(command.name), std::string(command.summary));
  command.set_up(options);
  if (!line.before.empty()) {
    const Declared* option = option_named(options, line.before.back());
    if (option != nullptr && option->takes_value()) return of_value(options, *option, line);
  }
  if (line.typing.starts_with('-') && line.typing != "-") {
    const Declared* option = option_named(options, line.typing.substr(0, line.typing.find('=')));
    if (option != nullptr && option->takes_value() && line.typing.find('=') != std::string::npos)
      return of_joined_value(options, *option, line);
    return of_options(options, line.typing);
  }
  return of_plain_word(options, line);
}

}  // namespace

Completions complete(const std::vector<std::string>& words) {
  if (words.size() <= 1) return of_first_word(words.empty() ? "" : words.front());
  if (words.front() == "help") return words.size() == 2 ? of_commands(words.back()) : Completions{};
  try {
    return of_line({words.front(), {words.begin() + 1, words.end() - 1}, words.back()});
  } catch (const Error&) {
    return {};  // no such command
  }
}

}  // namespace rtcmend
