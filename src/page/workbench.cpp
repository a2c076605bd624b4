#include "page/workbench.h"

#include <algorithm>
#include <array>
#include <exception>

#include "base/error.h"
#include "page/verbs.h"

namespace rtcmend {

namespace {

struct Verb {
  std::string_view name;
  Json (*run)(const Json& request, Shelf& shelf);
};

constexpr std::array verbs{
    Verb{"offer", verb::offer},
    Verb{"open", verb::open},
    Verb{"look", verb::look},
    Verb{"suspects", verb::suspects},
    Verb{"set", verb::set},
    Verb{"byte", verb::byte},
    Verb{"clock", verb::clock},
    Verb{"seal", verb::seal},
    Verb{"accept", verb::accept},
    Verb{"undo-misread", verb::undo_misread},
    Verb{"compare", verb::compare},
    Verb{"compose", verb::compose},
    Verb{"read-layout", verb::read_layout},
    Verb{"explain", verb::explain},
    Verb{"drives", verb::drives},
    Verb{"save", verb::save},
    Verb{"sheet", verb::sheet},
    Verb{"deliver", verb::deliver},
    Verb{"capture", verb::capture},
};

Json refusal(const std::string& where, const std::string& what, const Advice& advice,
             const std::string& excerpt = {}) {
  Json json;
  json["ok"] = false;
  json["where"] = where;
  json["what"] = what;
  json["try"] = in_plain_words(advice);
  json["acts"] = acts_json(advice);
  json["shown"] = excerpt;
  return json;
}

}  // namespace

Json Workbench::answer(const Json& request) {
  const auto wanted = request.at("do").get<std::string>();
  const auto good = [](Json json) {
    json["ok"] = true;
    return json;
  };
  for (const Verb& one : verbs)
    if (one.name == wanted) return good(one.run(request, shelf_));
  if (BoardBench::knows(wanted)) return good(board_.answer(wanted, request, shelf_));
  refuse("page", "the core has no verb \"" + wanted + "\"");
}

std::string Workbench::call(std::string_view request) {
  Json json;
  try {
    json = answer(Json::parse(request));
  } catch (const Error& error) {
    json = refusal(error.where(), error.message(), error.advice(), error.excerpt());
  } catch (const std::exception& error) {
    json = refusal("page", error.what(), {});
  }
  return to_line(json);
}

}  // namespace rtcmend
