#pragma once

#include <string>
#include <vector>

#include "cli/options.h"
#include "forms/form.h"
#include "judge/examine.h"
#include "layout/layout.h"
#include "render/card.h"

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
  std::string layout;  ///< id or file; empty = the dump's own, or the identified one
};

/// DUMP, --form and --layout.
void add_dump(Options& options, DumpSource& source);
/// --form and --layout, for commands whose words are special.
void add_reading(Options& options, DumpSource& source);
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
Dump read_dump_from(const std::string& path, const std::string& form);

/// A dump with the layout to read it by.
struct Opened {
  std::string name;  ///< for messages and headings
  Dump dump;
  Layout layout;
};

/// Reads a dump and settles its layout. Throws Error, also when no layout is clearly the right one.
Opened open_dump(const DumpSource& source);

/// An opened dump with its judgement, faults of the dump as a whole among the findings.
/// `examination` points into `opened.layout`.
struct Judged {
  explicit Judged(const DumpSource& source);
  Judged(const Judged&) = delete;
  Judged& operator=(const Judged&) = delete;
  Card card() const { return {opened.name, opened.dump, opened.layout, examination}; }

  Opened opened;
  Examination examination;
};

/// The files a command has read, which it must not write over.
std::vector<std::string> inputs_of(const DumpSource& source);

}  // namespace rtcmend
