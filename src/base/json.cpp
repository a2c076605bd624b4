#include "base/json.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <set>
#include <vector>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

using nlohmann::json;

namespace {

// Deeper than any file of ours needs, and shallow enough that no stack is in danger.
constexpr int deepest_nesting = 32;

std::size_t line_of(std::string_view text, std::size_t byte) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(byte, text.size()));
  return 1 + static_cast<std::size_t>(std::count(text.begin(), end, '\n'));
}

/// Reads along without keeping anything, and refuses what goes too deep or says a key twice. The
/// parser's own callback would do, but takes quadratic time over a list of many objects.
class Watch : public nlohmann::json_sax<json> {
 public:
  explicit Watch(const std::string& where) : where_(where) {}

  bool start_object(std::size_t) override {
    keys_.emplace_back();
    return enter();
  }
  bool end_object() override {
    keys_.pop_back();
    return leave();
  }
  bool start_array(std::size_t) override { return enter(); }
  bool end_array() override { return leave(); }
  bool key(std::string& name) override {
    if (!keys_.back().insert(name).second)
      refuse(where_, fmt::format("the key \"{}\" is given twice", printable(name)),
             "keep one of the two");
    return true;
  }
  bool parse_error(std::size_t byte, const std::string&, const json::exception&) override {
    error_at_ = byte;
    return false;
  }
  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const std::string&) override { return true; }
  bool string(std::string&) override { return true; }
  bool binary(json::binary_t&) override { return true; }

  /// The byte at which the text stops being JSON, counted from 1; 0 = none in particular.
  std::size_t error_at() const { return error_at_; }

 private:
  bool enter() {
    if (++depth_ > deepest_nesting)
      refuse(where_, fmt::format("it is nested deeper than {} levels", deepest_nesting));
    return true;
  }
  bool leave() {
    --depth_;
    return true;
  }

  const std::string& where_;
  int depth_ = 0;
  std::vector<std::set<std::string>> keys_;  ///< of each object that is open
  std::size_t error_at_ = 0;
};

}  // namespace

json parse_json(std::string_view text, const std::string& where) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  Watch watch(where);
  if (json::sax_parse(text, &watch)) return json::parse(text);
  const std::size_t byte = watch.error_at();
  refuse(fmt::format("{}:{}", where, line_of(text, byte > 0 ? byte - 1 : 0)),
         "it is not valid JSON",
         "look at that line and the one before: a comma, quote or bracket is missing or too many");
}

std::string json_place(const std::string& where, const std::string& path) {
  return path.empty() ? where : where + " at " + path;
}

}  // namespace rtcmend
