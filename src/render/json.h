#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "identify/identify.h"
#include "judge/compare.h"
#include "layout/layout.h"
#include "layout/trait.h"
#include "render/card.h"
#include "render/report.h"

namespace rtcmend {

/// JSON with its keys in the order they were written.
using Json = nlohmann::ordered_json;

/// What others rely on: the keys are a contract. Numbers are JSON numbers, addresses included;
/// null stands for what is unknown, and for the bytes of passwords.
Json show_json(const Card& card);
Json verify_json(const Card& card);
Json compare_json(const Comparison& comparison, const Layout& layout);
Json identify_json(const Identification& identification);
Json report_json(const Report& report);
Json layouts_json(const std::vector<Layout>& layouts);
Json library_json(const std::vector<LayoutClass>& classes, const std::vector<Trait>& traits);

Json findings_json(const std::vector<Finding>& findings);
Json checks_json(const std::vector<CheckResult>& checks);

/// By whose word an image is judged: `layout` and `layout_file`, null for a built-in one. Without a
/// layout (null pointer) both are null.
void add_layout(const Layout* layout, Json& json);
/// {dump, settings, clock}, each in a word.
Json standing_json(const Standing& standing);
/// [{act, subject, value}]: what of an advice can be done in the program.
Json acts_json(const Advice& advice);
/// Each advice in plain words.
Json advice_json(const std::vector<Advice>& list);

/// One line that is safe on a terminal: everything beyond ASCII is escaped, and bytes that are not
/// UTF-8 become U+FFFD.
std::string to_line(const Json& json);

}  // namespace rtcmend
