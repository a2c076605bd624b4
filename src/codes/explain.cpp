#include "codes/explain.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

bool contains(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

/// Codes are read off a screen: "0163" and " 163 " are 163.
std::string tidy(const std::string& code) {
  const std::string_view digits = trim(code);
  const auto first = digits.find_first_not_of('0');
  return std::string(first == std::string_view::npos ? digits : digits.substr(first));
}

std::vector<std::string> each_once(const std::vector<std::string>& codes) {
  std::vector<std::string> once;
  for (const std::string& code : codes)
    if (!contains(once, tidy(code))) once.push_back(tidy(code));
  return once;
}

ExplainedCode explain_one(const std::string& code) {
  ExplainedCode explained{code, post_code(code), {}};
  if (explained.known != nullptr)
    for (const Cause& cause : explained.known->causes) explained.causes.push_back({cause.text, {}});
  return explained;
}

/// "161 first: while ...; 162 and 163 often go with it."
std::string step(const PostCode& code, std::size_t place, const std::vector<std::string>& shown) {
  std::vector<std::string> brought;
  for (const std::string& other : code.brings)
    if (contains(shown, other)) brought.push_back(other);
  std::string text =
      fmt::format("{} {}: {}.", code.code, place == 0 ? "first" : "then", code.first_because);
  if (!brought.empty())
    text += fmt::format(" {} often {} away with it.", join(brought, " and "),
                        brought.size() == 1 ? "goes" : "go");
  return text;
}

std::vector<std::string> order_of_work(const std::vector<ExplainedCode>& codes) {
  std::vector<const PostCode*> known;
  std::vector<std::string> shown;
  for (const ExplainedCode& code : codes) {
    if (code.known == nullptr) continue;
    known.push_back(code.known);
    shown.push_back(code.code);
  }
  if (known.size() < 2) return {};
  std::stable_sort(known.begin(), known.end(),
                   [](const PostCode* a, const PostCode* b) { return a->turn < b->turn; });
  std::vector<std::string> steps;
  for (std::size_t i = 0; i < known.size(); ++i) steps.push_back(step(*known[i], i, shown));
  return steps;
}

void tie_to_dump(ExplainedCode& code, const Examination& examination, const Layout& layout) {
  if (code.known == nullptr) return;
  for (std::size_t i = 0; i < code.causes.size(); ++i)
    code.causes[i].seen = symptoms_seen(code.known->causes[i], examination, layout);
  std::stable_partition(code.causes.begin(), code.causes.end(),
                        [](const ExplainedCause& cause) { return !cause.seen.empty(); });
}

}  // namespace

Explanation explain(const std::vector<std::string>& codes) {
  Explanation explanation;
  for (const std::string& code : each_once(codes)) explanation.codes.push_back(explain_one(code));
  explanation.order = order_of_work(explanation.codes);
  return explanation;
}

Explanation explain(const std::vector<std::string>& codes, const Examination& examination,
                    const Layout& layout) {
  Explanation explanation = explain(codes);
  for (ExplainedCode& code : explanation.codes) tie_to_dump(code, examination, layout);
  return explanation;
}

}  // namespace rtcmend
