#pragma once

#include <string>
#include <vector>

#include "base/inputs.h"
#include "cli/options.h"
#include "desk/open.h"
#include "forms/form.h"
#include "layout/layout.h"

namespace rtcmend {

/// How a listing is meant, as the options say it; empty = found out.
struct ListingWords {
  std::string radix, width, order, addresses, at, size;
};

/// Which dump a command reads, and how.
struct DumpSource {
  std::string path;  ///< "-" is standard input
  std::string form;  ///< empty = detected
  ListingWords listing{};
  std::string layout;                ///< id or file; empty = the dump's own, or the identified one
  std::vector<std::string> again{};  ///< the same chip, read once more or oftener
  std::string before{};              ///< an earlier dump of the machine; empty = none
};

/// DUMP, --form and --layout.
void add_dump(Options& options, DumpSource& source);
/// --form and --layout, for commands whose words are special.
void add_reading(Options& options, DumpSource& source);
/// --again and --before, for commands that judge the reading.
void add_again(Options& options, DumpSource& source);
/// --form, --radix, --width, --order and --addresses.
void add_listing(Options& options, DumpSource& source);
/// The same, --at and --size.
void add_form(Options& options, DumpSource& source);
void add_layout(Options& options, DumpSource& source);

/// The file's name as messages say it.
std::string spoken_name(const std::string& path);
/// The form that an option names, or nothing when it was not given. Refuses (Error) an unknown one.
std::optional<Form> given_form(const std::string& option, const std::string& name);
/// Reads a dump from a file or standard input, and says on standard error what is to be said of the
/// reading. Throws Error for what is wrong with it.
Dump read_dump_from(const DumpSource& source);
/// The same, with the file's bytes as they are.
struct DumpWithText {
  std::string text;
  Dump dump;
};
DumpWithText read_with_text(const DumpSource& source);
Dump read_dump_from(const std::string& path, const std::string& form);

/// Reads a dump, settles its layout and judges it. Throws Error, also when no layout is clearly the
/// right one.
Opened open_dump(const DumpSource& source);

/// The layout that --layout names, if it was given. Throws Error for what is wrong with it.
std::optional<Layout> given_layout(const std::string& id_or_file);

/// The files that a command is told to read, which it must not write over.
Inputs inputs_of(const DumpSource& source);

}  // namespace rtcmend
