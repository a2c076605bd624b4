#pragma once

#include <exception>
#include <string>

namespace rtcmend {

/// Why something was refused; it decides the exit code.
enum class Refusal {
  input,        ///< wrong use or bad input: exit 2, nothing written
  file_system,  ///< the file system said no: exit 3, nothing half-written
};

/// The one exception of the program: a refusal that teaches.
class Error : public std::exception {
 public:
  /// where: the file with its line or byte, or the option; what: one sentence without a full stop;
  /// remedy: what to try, may be empty; excerpt: lines to show below the sentence, as the offending
  /// line with a mark under the place, may be empty. Each is cut at 8,000 bytes.
  Error(Refusal refusal, std::string where, std::string what, std::string remedy = {},
        std::string excerpt = {});

  Refusal refusal() const { return refusal_; }
  const std::string& where() const { return where_; }
  const std::string& message() const { return message_; }
  const std::string& remedy() const { return remedy_; }
  const std::string& excerpt() const { return excerpt_; }
  /// "WHERE: WHAT", for logs and tests.
  const char* what() const noexcept override { return whole_.c_str(); }

 private:
  Refusal refusal_;
  std::string where_;
  std::string message_;
  std::string remedy_;
  std::string excerpt_;
  std::string whole_;
};

/// Throws an Error for wrong use or bad input.
[[noreturn]] void refuse(std::string where, std::string what, std::string remedy = {},
                         std::string excerpt = {});

}  // namespace rtcmend
