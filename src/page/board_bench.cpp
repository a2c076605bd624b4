#include "page/board_bench.h"

#include <fmt/format.h>
#include <memory>

#include "base/error.h"
#include "board/rate.h"
#include "board/wiring.h"
#include "chip/cautions.h"
#include "chip/clock.h"
#include "chip/registers.h"
#include "desk/open.h"
#include "judge/compare.h"
#include "layout/library.h"
#include "layout/parts_catalogue.h"
#include "page/image_text.h"
#include "page/request.h"
#include "page/taken.h"
#include "render/drift_json.h"
#include "render/retention_json.h"

namespace rtcmend {

namespace {

constexpr int longest_rest = 65'535;  // two bytes on the wire

Moment now_in(const Json& request) {
  return Moment{static_cast<long long>(request.at("now").get<double>())};
}

std::optional<std::size_t> size_in(const Json& request) {
  const std::string size = word(request, "size");
  if (size.empty()) return std::nullopt;
  if (size == "64") return Image::small_size;
  if (size == "128") return Image::large_size;
  refuse("size", "a clock chip has 64 or 128 bytes", "128");
}

int seconds_in(const Json& request) {
  const int seconds = request.at("seconds").get<int>();
  if (seconds < 1 || seconds > longest_rest)
    refuse("board", "the board counts from a second to 18 hours", "a time between them");
  return seconds;
}

/// The page's wall clock: `wall` milliseconds at `now`.
WallClock wall_in(const Json& request) {
  const auto start = static_cast<long long>(request.at("wall").get<double>() * 1000);
  const Moment moment = now_in(request);
  return [=](Moment at) { return start + (at - moment).count(); };
}

void need_fitting_part(const Json& request) {
  const std::string part = word(request, "part");
  if (part.empty()) return;
  const BoardFit* fit = board_fit(part);
  if (fit == nullptr || !fit->fits)
    refuse("part",
           fmt::format("{} does not go on this board: {}", part,
                       fit == nullptr ? "nothing is known of it" : fit->why),
           at_bench("Take it off"));
}

/// The image that is to go into the chip. Refuses (Error) one that may not, unless the request
/// insists.
Taken taken_for_chip(const Json& request, const Shelf& shelf) {
  Leaving leaving;
  if (const std::string part = word(request, "part"); !part.empty())
    leaving.part = &need_part(part);
  return Taken(request, shelf, leaving);
}

/// On the bench no firmware writes, and every byte has to be kept.
Layout layout_of_every_byte(const Image& image, const Shelf& shelf) {
  const Dump dump{image, Form::raw, {}, {}};
  auto clear = clear_layout_for(dump, "the chip", shelf);
  Layout layout = clear ? *std::move(clear) : built_in_layout("chip");
  layout.size = image.size();
  return layout;
}

Json read_result(const ChipRead& read) {
  Json json;
  json["content"] = image_text(read.image);
  json["size"] = read.image.size();
  json["cell_low"] = !decode_d(read.image[reg::d]).valid;
  json["remarks"] = read.remarks;
  return json;
}

Json rate_result(const std::optional<ClockRate>& rate) {
  Json json;
  json["ppm"] = rate ? Json(rate->ppm) : Json(nullptr);
  json["ppm_uncertainty"] = rate ? Json(rate->uncertainty) : Json(nullptr);
  json["verdict"] =
      rate ? Json(verdict_word(verdict_on_rate(rate->ppm, rate->uncertainty))) : Json(nullptr);
  json["edges"] = rate ? rate->edges : 0;
  json["seconds"] = rate ? rate->seconds : 0;
  return json;
}

}  // namespace

const ChipRead& BoardBench::need_read() const {
  if (!read_) refuse("board", "what the chip holds has not been read and saved", "read it first");
  return *read_;
}

void BoardBench::begin(Work work, Result result) {
  if (!session_) refuse("board", "no port is open");
  session_->begin(std::move(work));
  result_ = std::move(result);
}

void BoardBench::read(const Json& request) {
  read_.reset();
  const auto read = std::make_shared<ChipRead>();
  begin([=, size = size_in(request)](Talk& talk) { *read = read_chip(talk, size); },
        [=, this] {
          read_ = *read;
          return read_result(*read);
        });
}

void BoardBench::write(const Json& request, const Shelf& shelf) {
  const auto taken = std::make_shared<const Taken>(taken_for_chip(request, shelf));
  const ChipWrite what{taken->image, told(request, "set_clock") ? wall_in(request) : WallClock()};
  const auto after = std::make_shared<ChipRead>();
  begin([=, before = need_read()](Talk& talk) { *after = write_chip(talk, what, before); },
        [=] {
          // A larger chip keeps what lies beyond the image.
          const Image found = after->image.with_size(taken->image.size());
          Json json;
          json["comparison"] =
              compare_json(compare(taken->image, found, taken->layout), taken->layout);
          json["ready"] = taken->ready.is_ready();
          return json;
        });
}

void BoardBench::hold(const Json& request, const Shelf& shelf) {
  const int seconds = seconds_in(request);
  const Image before = need_read().image;
  const Layout layout = layout_of_every_byte(before, shelf);
  const auto test = std::make_shared<PowerOff>(PowerOff{before, before, {}, seconds, bench_slack});
  begin(
      [=](Talk& talk) {
        Image found = rest_chip(talk, seconds, before.size()).image;
        test->again = read_chip(talk, before.size()).image;
        test->found = std::move(found);
      },
      [=] {
        Json json;
        json["retention"] = retention_json(retention(*test, layout));
        return json;
      });
}

void BoardBench::clock(const Json& request) {
  struct Watched {
    std::vector<ClockEdge> edges;
    ChipRead read;
    Moment seen{0};
  };
  const Moment length{seconds_in(request) * 1'000'000LL};
  const auto watched = std::make_shared<Watched>();
  begin(
      [=](Talk& talk) {
        static_cast<void>(read_chip(talk, std::nullopt));
        auto edges = watch_clock(talk, length);
        watched->read = read_chip(talk, std::nullopt);
        watched->seen = talk.now();
        watched->edges = std::move(edges);
      },
      [=, wall = wall_in(request)] {
        const ClockReading clock = read_clock(watched->read.image, std::nullopt);
        Json json = rate_result(clock_rate(watched->edges));
        json["shown"] = clock.time ? Json(to_iso(*clock.time)) : Json(nullptr);
        json["reference"] = to_iso(from_seconds_since_1980(wall(watched->seen) / 1'000'000));
        return json;
      });
}

Json BoardBench::turn(const Json& request) {
  if (!session_) refuse("board", "no port is open");
  session_->receive(bytes_from_hex(word(request, "came")), now_in(request));
  Json json;
  json["go"] = hex_text(session_->take_output());
  json["progress"] = session_->progress();
  json["open"] = session_->link().is_open();
  json["done"] = session_->is_done();
  if (session_->is_done() && result_) json["result"] = std::exchange(result_, nullptr)();
  return json;
}

Json BoardBench::answer(std::string_view verb, const Json& request, Shelf& shelf) {
  if (verb == "board-offer") {
    Json json;
    json["parts"] = Json::array();
    for (const BoardFit& fit : board_fits())
      json["parts"].push_back(Json{{"part", fit.part}, {"fits", fit.fits}, {"why", fit.why}});
    return json;
  }
  if (verb == "board-turn") return turn(request);
  if (verb == "board-check") {
    need_fitting_part(request);
    if (told(request, "write")) static_cast<void>(taken_for_chip(request, shelf));
  } else if (verb == "board-open") {
    read_.reset();
    session_.emplace(now_in(request));
  } else if (verb == "board-read") {
    read(request);
  } else if (verb == "board-stay") {
    begin([](Talk& talk) { stay(talk); }, {});
  } else if (verb == "board-write") {
    write(request, shelf);
  } else if (verb == "board-hold") {
    hold(request, shelf);
  } else if (verb == "board-clock") {
    clock(request);
  } else if (verb == "board-off") {
    // A conversation of its own: the one under way may wait for an answer.
    session_.emplace(now_in(request));
    begin([](Talk& talk) { switch_off(talk); }, {});
  } else {
    refuse("page", "the core has no verb \"" + std::string(verb) + "\"");
  }
  return Json::object();
}

}  // namespace rtcmend
