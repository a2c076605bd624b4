#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "base/text_column.h"
#include "forms/reading.h"

namespace rtcmend {

/// How bytes are written down. What there is to know about each stands in form_table.h.
enum class Form { raw, hex, rows, code_text, intel_hex, s_record, c_array, json };

/// "raw", "hex", "rows", "code-text", "intel-hex", "s-record", "c-array", "json".
std::string_view name(Form form);
/// Refuses (Error) an unknown name with the nearest ones.
Form form_named(std::string_view name);
std::span<const Form> all_forms();

/// What a file says against its own bytes, a sentence each. Only the project's own JSON can.
struct Confession {
  std::vector<std::string> misread;        ///< what was wrong with the reading of these bytes
  std::vector<std::string> sealed_anyway;  ///< what the checks were made to hold over all the same

  bool is_empty() const { return misread.empty() && sealed_anyway.empty(); }
};

/// A dump, read.
struct Dump {
  Image image;
  Form form;
  std::string layout;    ///< the layout the project's own JSON names; else empty
  std::string note;      ///< free text of the project's own JSON; else empty
  Remarks remarks = {};  ///< how it was read: what was passed over, decided, and what is uncertain
  Confession confession = {};  ///< of the project's own JSON
  /// The content held these 64 bytes twice, as a 64-byte part gives them to seven address bits.
  bool mirrored = false;
  TextColumn text = {};  ///< what a listing shows beside its digits
};

/// Which forms a content may be in, likeliest first; more than one when it is not sure.
std::vector<Form> detect(std::string_view content);

/// Reads a dump. `where` is the file's name for messages. Without a form it is detected; when that
/// is not sure, Error lists the candidates and says to give --form. Throws Error (input) with file
/// and line for everything that is wrong.
Dump read_dump(std::string_view content, const std::string& where,
               const ReadingOptions& options = {});
/// The same with a form and nothing else given.
Dump read_dump(std::string_view content, const std::string& where, std::optional<Form> form);

/// What a writer needs to know beyond the image.
struct WriteOptions {
  std::optional<std::uint8_t>
      fill;            ///< for unknown bytes in raw and c-array; without it they are refused
  std::string layout;  ///< goes into the project's own JSON
  std::string note;    ///< the same
  Confession confession = {};  ///< the same
};

std::string write_dump(const Image& image, Form form, const WriteOptions& options = {});

}  // namespace rtcmend
