#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/files.h"
#include "cli/options.h"
#include "forms/form.h"

namespace rtcmend {

/// Where a command writes an image, and how.
struct Output {
  std::string path;    ///< "-" is standard output
  std::string form;    ///< empty = told by the path, else as the input was
  std::string fill;    ///< two hex digits for unknown bytes; empty = none
  bool force = false;  ///< an existing file may be replaced
};

/// -o, --to, --fill and --force.
void add_output(Options& options, Output& output);

/// Refuses (Error), before any work is done, an output that is missing, an input, or there already.
void check_output(const Output& output, const Inputs& inputs);

/// --to when given, else what the name's ending says (form_table.h), else nothing.
std::optional<Form> told_form(const Output& output);

/// An image with what its file shall say about it.
struct ToWrite {
  const Image& image;
  Form form;
  std::string layout;          ///< id, for the json form; may be empty
  std::string note;            ///< the same
  Confession confession = {};  ///< the same
};

/// Writes it whole or not at all. Throws Error.
void write_image(const ToWrite& what, const Output& output, const Inputs& inputs);

}  // namespace rtcmend
