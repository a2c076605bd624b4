#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>

#include "forms/form.h"
#include "forms/form_marks.h"

namespace rtcmend {

/// All that is said and done about one form. A new form is a line of this table, its own pair of
/// files and their test: detection, reading, writing, help texts, completion, the page's list and
/// the table in the handbook ask here.
struct FormEntry {
  Form form;
  std::string_view name;      ///< as --form and --to take it
  std::string_view title;     ///< as a list shows it
  std::string_view summary;   ///< in a few words, behind the name
  std::string_view saved_as;  ///< the ending that a file of this form is given
  /// Endings of file names that say to write this form, the usual one first.
  std::array<std::string_view, 2> endings;
  bool text;           ///< made of characters, and read through clean_text()
  bool keeps_unknown;  ///< has a way to say that a byte is unknown
  /// In which order the marks of the forms are looked for; a form of looser marks comes later.
  int asked;
  /// Whether the content shows the form's marks. None: it has none, and takes what no other does.
  bool (*shows)(const Sketch& sketch);
  /// True when a raw dump may show the form's marks by luck.
  bool leaves_doubt;
  Dump (*read)(std::string_view content, const std::string& where, const ReadingOptions& options);
  std::string (*write)(const Image& image, const WriteOptions& options);
};

/// In the order that lists have.
std::span<const FormEntry> form_table();
const FormEntry& entry_of(Form form);

/// "raw, hex, rows, code-text, intel-hex, s-record, c-array or json".
std::string list_of_forms(std::string_view before_last = " or ");
/// The endings that --to may be left out for: ".bin .hex .srec ...", the usual one of each form.
std::string list_of_endings();
/// The form that a file's name says to write; nothing when its ending says nothing.
std::optional<Form> form_of_name(std::string_view path);

}  // namespace rtcmend
