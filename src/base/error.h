#pragma once

#include <exception>
#include <string>
#include <utility>

#include "base/advice.h"

namespace rtcmend {

/// Why something was refused; it decides the exit code.
enum class Refusal {
  input,        ///< wrong use or bad input: exit 2, nothing written
  file_system,  ///< the file system said no: exit 3, nothing half-written
};

/// The one exception of the program: a refusal that teaches.
class Error : public std::exception {
 public:
  /// where: the file with its line or byte, or what was chosen; what: one sentence without a full
  /// stop; advice: what to try, may be empty; excerpt: lines to show below the sentence, as the
  /// offending line with a mark under the place, may be empty. Each is cut at 8,000 bytes.
  Error(Refusal refusal, std::string where, std::string what, Advice advice = {},
        std::string excerpt = {});

  Refusal refusal() const { return refusal_; }
  const std::string& where() const { return where_; }
  const std::string& message() const { return message_; }
  const Advice& advice() const { return advice_; }
  /// The advice in plain words.
  std::string remedy() const { return in_plain_words(advice_); }
  /// Whether `where` names something to choose ("form", "clock") rather than a place in a file: a
  /// command line has an option of that name.
  bool about_choice() const { return about_choice_; }
  /// The same refusal about something to choose.
  Error as_choice() && {
    about_choice_ = true;
    return std::move(*this);
  }
  const std::string& excerpt() const { return excerpt_; }
  /// "WHERE: WHAT", for logs and tests.
  const char* what() const noexcept override { return whole_.c_str(); }

 private:
  Refusal refusal_;
  std::string where_;
  std::string message_;
  Advice advice_;
  std::string excerpt_;
  std::string whole_;
  bool about_choice_ = false;
};

/// Throws an Error for wrong use or bad input.
[[noreturn]] void refuse(std::string where, std::string what, Advice advice = {},
                         std::string excerpt = {});
/// The same about something to choose: "form", "clock", "undo".
[[noreturn]] void refuse_choice(std::string choice, std::string what, Advice advice = {});

}  // namespace rtcmend
